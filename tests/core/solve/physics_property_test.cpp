#include "core/solve/laws.h"
#include "core/solve/newton.h"
#include "core/solve/point.h"
#include "core/solve/solution.h"
#include "tests/support/draft.h"
#include "tests/support/property.h"
#include "tests/support/random_circuit.h"

#include <cmath>
#include <cstdio>

// What physics says of any network, whatever its numbers.
namespace fl::test {
namespace {

using namespace fl::solve;

double somewhere(double least, double greatest) {
    return least + (greatest - least) * *rc::gen::inRange(0, 10001) / 10000.0;
}

/// A tree on one battery, plus and minus side by side; loads of current or power on some of its pairs.
Circuit tree(bool power) {
    Draft d;
    std::vector<std::pair<int, int>> pairs{{d.node(), 0}};
    pairs[0].second = d.node();
    d.battery(pairs[0].first, pairs[0].second, 12.8, 4e-3);
    const int legs = *rc::gen::inRange(1, 12);
    for (int k = 0; k < legs; ++k) {
        const auto from =
            pairs[static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(pairs.size())))];
        const int plus = d.node(), minus = d.node();
        const double ohm = somewhere(1e-3, 20e-3);
        d.resistor(from.first, plus, ohm);
        d.resistor(minus, from.second, ohm * somewhere(0.5, 1.5));
        pairs.push_back({plus, minus});
        const double amps = somewhere(0.1, 8);
        if (power && *rc::gen::arbitrary<bool>())
            d.watts(plus, minus, 12 * amps, 6);
        else
            d.amps(plus, minus, amps, 6);
    }
    return d.c;
}

std::optional<std::vector<double>> drops(const Circuit& c) {
    const Solution s = operating_point(c);
    if (!s.usable || !laws_not_met(c, s).empty()) return {};
    std::vector<double> out;
    for (std::size_t k = 0; k < c.loads.size(); ++k) {
        if (s.load_mode[k] != LoadMode::as_rated) return {};
        out.push_back(between(s, c.batteries[0].plus, c.batteries[0].minus) -
                      between(s, c.loads[k].plus, c.loads[k].minus));
    }
    return out;
}

void never_more(const Circuit& before, const Circuit& after) {
    const auto was = drops(before), is = drops(after);
    RC_PRE(was.has_value());
    RC_ASSERT(is.has_value()); // better copper never starves a load
    for (std::size_t k = 0; k < was->size(); ++k) RC_ASSERT((*is)[k] <= (*was)[k] + 1e-9);
}

TEST(Physics, more_copper_in_a_tree_never_raises_a_drop) {
    property(1000, [] {
        const Circuit c = tree(true);
        Circuit half = c;
        for (Resistor& r : half.resistors) r.fixed_ohm /= 2; // every length halved
        never_more(c, half);
        const auto one = static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(c.resistors.size())));
        Circuit thicker = c;
        thicker.resistors[one].fixed_ohm *= somewhere(0.05, 1);
        never_more(c, thicker);
        Circuit doubled = c;
        doubled.resistors.push_back(c.resistors[one]);
        never_more(c, doubled);
    });
}

TEST(Physics, parallel_conductor_never_raises_the_loss_of_fixed_currents) {
    property(1000, [] {
        Circuit c = tree(false);
        for (int k = *rc::gen::inRange(0, 4); k > 0; --k) { // meshes
            const auto& pair =
                c.loads[static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(c.loads.size())))];
            const auto& other =
                c.loads[static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(c.loads.size())))];
            if (pair.plus == other.plus) continue;
            c.resistors.push_back({pair.plus, other.plus, 0, somewhere(1e-3, 20e-3), {}, 20, true});
        }
        const auto loss_W = [](const Circuit& of) {
            const Solution s = operating_point(of);
            RC_PRE(s.usable);
            for (const LoadMode m : s.load_mode) RC_PRE(m == LoadMode::as_rated);
            double sum = 0;
            for (std::size_t k = 0; k < of.resistors.size(); ++k)
                sum += s.resistor_A[k] * s.resistor_A[k] * of.resistors[k].fixed_ohm;
            return sum;
        };
        const double before = loss_W(c);
        // Anywhere between two nodes of one pole: between the poles it would be a load.
        const auto& r =
            c.resistors[static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(c.resistors.size())))];
        c.resistors.push_back({r.a, r.b, 0, somewhere(1e-4, 50e-3), {}, 20, true});
        RC_ASSERT(loss_W(c) <= before * (1 + 1e-9));
    });
}

// And yet a drop can rise where copper is added: a neighbour of fixed resistance takes more of the shared
// feeder. By hand, 12 V, feeder 0.1 ohm, 5 A, neighbour of 1 ohm behind 1 ohm, then behind 0.5 ohm:
// V = 11.5/(1 + 0.1/2) = 10.952 V, then 11.5/(1 + 0.1/1.5) = 10.781 V.
TEST(Physics, drop_rises_behind_a_shared_feeder_with_a_resistive_neighbour) {
    double volts[2];
    for (const double branch : {1.0, 0.5}) {
        Draft d;
        const int plus = d.node(), minus = d.node(), board = d.node(), far = d.node();
        d.held(plus, minus, 12);
        d.resistor(plus, board, 0.1);
        d.resistor(board, far, branch);
        d.ohms(far, minus, 1);
        d.amps(board, minus, 5, 7);
        const Solution s = operating_point(d.c);
        ASSERT_TRUE(s.usable);
        volts[branch < 1] = between(s, board, minus);
    }
    EXPECT_NEAR(volts[0], 11.5 / 1.05, 1e-9);
    EXPECT_NEAR(volts[1], 11.5 / (1 + 0.1 / 1.5), 1e-9);
    EXPECT_LT(volts[1], volts[0]);
}

// Newton's method from anywhere: whatever it finds that would be accepted is the point we give, or one that
// the load ramp does not lead to.
TEST(Physics, many_starts_find_no_better_point) {
    const int count = deep(1000), starts = 20;
    int tried = 0, found = 0, same = 0, other = 0;
    std::uint64_t state = 12345;
    const auto noise = [&state] {
        state = state * 6364136223846793005ull + 1442695040888963407ull;
        return static_cast<double>(state >> 11) * 0x1p-53 * 2 - 1;
    };
    for (int k = 0; k < count; ++k) {
        const Circuit c = random_circuit(static_cast<std::uint32_t>(k) + 900000u, 8);
        const Topology t = topology_of(c);
        if (!t.opposed.empty() || !t.rings.empty() || !t.feed_selves.empty()) continue;
        const Options options;
        System system(c, t);
        Newton newton(system, options);
        const Point point = find_point(system, newton, options);
        if (!point.found || point.folded) continue;
        ++tried;
        system.demand = 0;
        const int sign = newton.determinant_sign(point.rest);
        system.demand = 1;
        for (int n = 0; n < starts; ++n) {
            std::vector<double> x = point.x;
            for (int v = 0; v < system.size(); ++v)
                x[static_cast<std::size_t>(v)] += noise() * (v < system.voltages() ? 12 : 50);
            if (!newton.solve(x, options.newton_most)) continue;
            if (sign != 0 && newton.determinant_sign(x) != sign) continue;
            bool near = true;
            for (const Port& p : t.ports) {
                const auto index = static_cast<std::size_t>(p.element.index);
                const bool load = p.element.kind == ElementKind::load && c.loads[index].law == LoadLaw::power;
                const bool input =
                    p.element.kind == ElementKind::converter && !p.output && c.converters[index].on;
                if ((load || input) &&
                    system.across(x, p.plus, p.minus) < system.across(point.rest, p.plus, p.minus) / 2)
                    near = false;
            }
            if (!near) continue;
            ++found;
            // What flows decides: behind a diode that blocks, any voltage would do.
            double most = 0;
            for (std::size_t p = 0; p < t.ports.size(); ++p) {
                if (!t.live[p]) continue;
                const Port& port = t.ports[p];
                const auto i = system.current(x, p);
                if (i) most = std::max(most, std::abs(*i - *system.current(point.x, p)));
                if (i || port.element.kind != ElementKind::load) continue;
                const auto k2 = static_cast<std::size_t>(port.element.index);
                const auto amps = [&](const std::vector<double>& at) {
                    return load_current(c.loads[k2], system.load_knee_V[k2],
                                        system.across(at, port.plus, port.minus))
                        .amps;
                };
                most = std::max(most, std::abs(amps(x) - amps(point.x)));
            }
            ++(most < 1e-4 ? same : other);
        }
    }
    say_ran(tried);
    std::printf("    %d acceptable points found from %d networks, %d the same, %d other\n", found, tried,
                same, other);
    EXPECT_GT(same, tried);
    EXPECT_EQ(other, 0);
}

} // namespace
} // namespace fl::test
