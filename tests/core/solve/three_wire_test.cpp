#include "tests/support/draft.h"
#include "tests/support/property.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <optional>
#include <random>

// Two batteries in series with their middle led out, loads of constant power on either half and across both.
// The middle wire carries the difference, so that a load on one half lifts the other: which point is the one
// joined to no load is not plain. It is followed here by small steps of the load, two equations by hand, with
// nothing of the solver.
namespace fl::test {
namespace {

using namespace fl::solve;

struct ThreeWire {
    double upper_V, lower_V, upper_ohm, lower_ohm; ///< the two batteries
    double plus_ohm, middle_ohm, minus_ohm;        ///< the three wires
    double upper_W, lower_W, across_W;             ///< the loads
    double knee;                                   ///< of what each load has at rest
};

struct Halves {
    double upper = 0, lower = 0; ///< V at the loads
};

/// Constant power down to the knee, a resistance below it.
double amperes(double watts, double knee_V, double volts) {
    return volts >= knee_V ? watts / volts : watts * volts / (knee_V * knee_V);
}

/// What is left of the two loops at these voltages, with so much of the load.
Halves left_over(const ThreeWire& n, Halves v, double load) {
    const double upper = load * amperes(n.upper_W, n.knee * n.upper_V, v.upper);
    const double lower = load * amperes(n.lower_W, n.knee * n.lower_V, v.lower);
    const double across = load * amperes(n.across_W, n.knee * (n.upper_V + n.lower_V), v.upper + v.lower);
    const double middle_V = (upper - lower) * n.middle_ohm;
    return {n.upper_V - (upper + across) * (n.upper_ohm + n.plus_ohm) - middle_V - v.upper,
            n.lower_V - (lower + across) * (n.lower_ohm + n.minus_ohm) + middle_V - v.lower};
}

/// Newton's method on the two loops, slopes by small differences; nothing where it does not settle or goes
/// far.
std::optional<Halves> settle(const ThreeWire& n, Halves from, double load) {
    Halves v = from;
    constexpr double small_V = 1e-6;
    for (int step = 0; step < 12; ++step) {
        const Halves f = left_over(n, v, load);
        if (std::abs(f.upper) + std::abs(f.lower) < 1e-11) {
            const bool far = std::abs(v.upper - from.upper) + std::abs(v.lower - from.lower) > 0.2;
            return far ? std::nullopt : std::optional(v);
        }
        const Halves du = left_over(n, {v.upper + small_V, v.lower}, load);
        const Halves dl = left_over(n, {v.upper, v.lower + small_V}, load);
        const double a = (du.upper - f.upper) / small_V, b = (dl.upper - f.upper) / small_V;
        const double c = (du.lower - f.lower) / small_V, d = (dl.lower - f.lower) / small_V;
        const double det = a * d - b * c; // both slopes are about -1: positive until a fold is passed
        if (!(det > 1e-9)) return {};
        v.upper -= (d * f.upper - b * f.lower) / det;
        v.lower -= (a * f.lower - c * f.upper) / det;
    }
    return {};
}

/// The whole load from none, step by step; nothing where the way ends in a fold.
std::optional<Halves> ramp(const ThreeWire& n) {
    Halves v{n.upper_V, n.lower_V};
    double load = 0, step = 1e-2;
    while (load < 1) {
        const double next = std::min(1.0, load + step);
        if (const auto there = settle(n, v, next)) {
            v = *there;
            load = next;
            step = std::min(1e-2, step * 2);
            continue;
        }
        step /= 2;
        if (step < 1e-9) return {};
    }
    return v;
}

Circuit circuit(const ThreeWire& n) {
    Draft d;
    const int plus = d.node(), middle = d.node(), minus = d.node();
    const int far_plus = d.node(), far_middle = d.node(), far_minus = d.node();
    d.battery(plus, middle, n.upper_V, n.upper_ohm);
    d.battery(middle, minus, n.lower_V, n.lower_ohm);
    d.resistor(plus, far_plus, n.plus_ohm);
    d.resistor(far_middle, middle, n.middle_ohm);
    d.resistor(far_minus, minus, n.minus_ohm);
    d.watts(far_plus, far_middle, n.upper_W, n.knee * n.upper_V);
    d.watts(far_middle, far_minus, n.lower_W, n.knee * n.lower_V);
    d.watts(far_plus, far_minus, n.across_W, n.knee * (n.upper_V + n.lower_V));
    return d.c;
}

TEST(ThreeWire, StandsWhereTheLoadRampLeads) {
    std::mt19937 dice(4711);
    const auto real = [&](double low, double high) {
        return low + (high - low) * static_cast<double>(dice()) / 4294967296.0;
    };
    const auto scaled = [&](double low, double high) { return low * std::pow(high / low, real(0, 1)); };
    const int count = deep(4000);
    int reached = 0, folds = 0, lifted = 0, below = 0;
    for (int k = 0; k < count; ++k) {
        ThreeWire n{};
        n.upper_V = real(11.8, 12.9), n.lower_V = real(11.8, 12.9);
        n.upper_ohm = scaled(3e-3, 30e-3), n.lower_ohm = scaled(3e-3, 30e-3);
        n.plus_ohm = scaled(1e-3, 60e-3), n.middle_ohm = scaled(1e-3, 60e-3);
        n.minus_ohm = scaled(1e-3, 60e-3);
        n.upper_W = scaled(10, 3000), n.lower_W = scaled(10, 3000), n.across_W = scaled(10, 3000);
        n.knee = real(0.5, 0.7); // the least the solver takes is half of what is there at rest
        const Solution s = operating_point(circuit(n));
        ASSERT_TRUE(s.usable) << k;
        const auto v = ramp(n);
        if (!v) {
            ++folds;
            EXPECT_TRUE(verdict(s, VerdictCode::starved)) << k << " ends in a fold and nothing is said";
            continue;
        }
        ++reached;
        EXPECT_NEAR(between(s, 3, 4), v->upper, 1e-7) << k;
        EXPECT_NEAR(between(s, 4, 5), v->lower, 1e-7) << k;
        below += v->upper < n.knee * n.upper_V || v->lower < n.knee * n.lower_V;
        lifted += v->upper > n.upper_V || v->lower > n.lower_V;
    }
    say_ran(count);
    std::printf("    %d reached, %d of them below a knee, %d with a half above its own battery; %d end in a "
                "fold\n",
                reached, below, lifted, folds);
    EXPECT_GE(reached, count / 2);
    EXPECT_GE(below, count / 20); // a knee of half and more leaves folds to where the halves pull each other
    EXPECT_GE(lifted, count / 100); // what only three wires do
}

} // namespace
} // namespace fl::test
