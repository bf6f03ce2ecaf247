// A point begun from the one before it is the one found from cold, or it is found from cold.
#include "core/solve/newton.h"
#include "core/solve/only_one.h"
#include "core/solve/point.h"
#include "core/solve/start.h"
#include "tests/support/draft.h"
#include "tests/support/property.h"
#include "tests/support/random_circuit.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <random>

namespace fl::test {
namespace {

using namespace fl::solve;

/// One value of one element, as an edit changes it; how things hang together stays.
void change_a_value(Circuit& c, std::mt19937& random) {
    const auto one = [&random](auto& all) -> auto& {
        return all[random() % all.size()];
    };
    const double by = 0.5 + static_cast<double>(random() % 1000) / 500;
    switch (random() % 4) {
    case 0:
        if (!c.batteries.empty()) one(c.batteries).emf_V *= 1 + (by - 1) * 0.02;
        break;
    case 1:
        if (!c.regulators.empty()) one(c.regulators).limit_A *= by;
        break;
    case 2:
        if (!c.loads.empty()) one(c.loads).value *= by;
        break;
    default:
        if (!c.resistors.empty()) one(c.resistors).r20_ohm *= by;
    }
}

std::vector<VerdictCode> codes(const Solution& s) {
    std::vector<VerdictCode> out;
    for (const Verdict& v : s.verdicts) out.push_back(v.code);
    return out;
}

/// Largest difference of node voltages and of currents in conductors, relative to 1 V and 1 A or what is
/// there.
double difference(const Solution& x, const Solution& y) {
    double most = 0;
    const auto compare = [&most](const std::vector<double>& a, const std::vector<double>& b) {
        for (std::size_t k = 0; k < a.size(); ++k)
            most = std::max(most, std::abs(a[k] - b[k]) / std::max(1.0, std::abs(a[k])));
    };
    compare(x.node_V, y.node_V);
    compare(x.resistor_A, y.resistor_A);
    compare(x.load_A, y.load_A);
    return most;
}

TEST(Start, GivesThePointFoundFromCold) {
    int warm = 0, changes = 0;
    double worst = 0;
    property(1000, [&] {
        const auto seed = static_cast<std::uint32_t>(*rc::gen::inRange(0, 1 << 30));
        std::mt19937 random(seed);
        Circuit c = random_circuit(seed, 24);
        Start start;
        for (int k = 0; k < 6; ++k) {
            const Solution followed = operating_point(c, start), cold = operating_point(c);
            warm += start.was_warm();
            ++changes;
            RC_LOG() << "change " << k << (start.was_warm() ? ", warm" : "") << "\n" << show(c);
            RC_ASSERT(followed.usable == cold.usable);
            RC_ASSERT(codes(followed) == codes(cold));
            RC_ASSERT(followed.load_mode == cold.load_mode);
            RC_ASSERT(followed.regulator_mode == cold.regulator_mode);
            RC_ASSERT(difference(cold, followed) < 1e-7);
            worst = std::max(worst, difference(cold, followed));
            if (followed.usable) RC_ASSERT(laws_not_met(c, followed).empty());
            change_a_value(c, random);
        }
    });
    std::printf("    %d of %d begun from the last point; worst difference %.2g\n", warm, changes, worst);
    EXPECT_GT(warm, changes / 20);
}

TEST(Start, AKnownPatternChangesNoBit) {
    int solved = 0;
    property(500, [&] {
        const auto seed = static_cast<std::uint32_t>(*rc::gen::inRange(0, 1 << 30));
        std::mt19937 random(seed);
        Circuit c = random_circuit(seed, 24);
        Start start;
        for (int k = 0; k < 4; ++k) {
            start.forget_point();
            const Solution known = operating_point(c, start), fresh = operating_point(c);
            RC_ASSERT(!start.was_warm());
            RC_ASSERT(known == fresh);
            solved += known.usable;
            change_a_value(c, random);
        }
    });
    EXPECT_GT(solved, 0);
}

/// A battery with two loads, each behind a conductor of its own.
Circuit two_loads() {
    Draft d;
    const int plus = d.node(), minus = d.node(), a = d.node(), b = d.node();
    d.battery(plus, minus, 12.8, 5e-3);
    d.resistor(plus, a, 10e-3);
    d.resistor(plus, b, 20e-3);
    d.watts(a, minus, 120, 7);
    d.amps(b, minus, 5, 7);
    return d.c;
}

TEST(Start, IsOnlyForWhatHangsTogetherAlike) {
    Circuit c = two_loads();
    Start start;
    operating_point(c, start);
    EXPECT_FALSE(start.was_warm()); // there was nothing to begin from
    c.resistors[0].fixed_ohm = 15e-3;
    operating_point(c, start);
    EXPECT_TRUE(start.was_warm());

    c.resistors[1].closed = false; // a switch opened
    EXPECT_EQ(operating_point(c, start), operating_point(c));
    EXPECT_FALSE(start.was_warm());
    c.resistors[1].closed = true; // and closed again: the last point is that with it open
    EXPECT_EQ(operating_point(c, start), operating_point(c));
    EXPECT_FALSE(start.was_warm());

    c.resistors.push_back({c.resistors[0].a, c.resistors[1].b, 0, 5e-3, {}, 20, true}); // another conductor
    EXPECT_EQ(operating_point(c, start), operating_point(c));
    EXPECT_FALSE(start.was_warm());
    std::swap(c.resistors[0].b, c.resistors[1].b); // the same elements, joined otherwise
    EXPECT_EQ(operating_point(c, start), operating_point(c));
    EXPECT_FALSE(start.was_warm());
    c.loads[0].on = false;
    EXPECT_EQ(operating_point(c, start), operating_point(c));
    EXPECT_FALSE(start.was_warm());
    // Of next to no resistance it enters with its current as one more unknown.
    c = two_loads();
    operating_point(c, start);
    c.resistors[0].fixed_ohm = 0.1e-3;
    EXPECT_EQ(operating_point(c, start), operating_point(c));
    EXPECT_FALSE(start.was_warm());
    c.resistors[0].fixed_ohm = 0.2e-3;
    operating_point(c, start);
    EXPECT_TRUE(start.was_warm());
    start.forget_point();
    EXPECT_EQ(operating_point(c, start), operating_point(c));
    EXPECT_FALSE(start.was_warm());
}

/// An alternator of 14.2 V that gives 50 A, and a battery of 12.8 V behind 10 milliohm that nothing charges,
/// on one load of constant power.
Circuit two_states(double watts) {
    Draft d;
    const int plus = d.node(), minus = d.node();
    d.regulator(plus, minus, 14.2, 1e-3, 50);
    d.battery(plus, minus, 12.8, 10e-3);
    d.c.batteries[0].may_charge = false;
    d.watts(plus, minus, watts, 7);
    return d.c;
}

// By hand: 700 W take 49.5 A at 14.15 V, which the alternator gives. They could also take 55 A at 12.75 V, 50
// A from the alternator and 5 A from the battery: where the network stays that comes from 720 W, which the
// alternator alone can't give (50.7 A at 14.2 V). The operating point is the first, joined to no load.
TEST(Start, OfTwoStatesTheOneJoinedToNoLoad) {
    Start start;
    const Solution more = operating_point(two_states(720), start);
    ASSERT_TRUE(more.usable);
    EXPECT_NEAR(between(more, 0, 1), 12.74, 0.01);
    const Circuit less = two_states(700);
    const Solution after = operating_point(less, start);
    ASSERT_TRUE(after.usable);
    EXPECT_NEAR(between(after, 0, 1), 14.15, 0.01);
    EXPECT_EQ(after, operating_point(less));
    EXPECT_FALSE(start.was_warm());
}

/// The circuit with its proof, and what Newton's method finds from elsewhere.
struct Proved {
    Topology topology;
    Forest forest;
    System system;
    explicit Proved(const Circuit& c)
        : topology(topology_of(c))
        , forest(forest_of(c, topology))
        , system(c, topology) {}
};

TEST(OnlyOne, IsNotSaidOfTwoStates) {
    const Circuit c = two_states(700);
    Proved proved(c);
    EXPECT_FALSE(only_one_point(proved.system, proved.forest, {7.1}));
}

// One load P at Vk = 7 V behind R: proved while P·R/Vk² is below 0.9, so up to R = 0.9·49/100 = 0.441 ohm
// with 100 W; 0.5 ohm would still be a single point.
TEST(OnlyOne, ByTheDropAtTheKnee) {
    for (const double ohm : {0.40, 0.48}) {
        Draft d;
        const int plus = d.node(), minus = d.node(), a = d.node();
        d.battery(plus, minus, 12.8, 5e-3);
        d.resistor(plus, a, ohm);
        d.watts(a, minus, 100, 7);
        Proved proved(d.c);
        EXPECT_EQ(only_one_point(proved.system, proved.forest, {7.0}), ohm < 0.44) << ohm;
    }
}

// Wherever Newton's method is begun, it comes to the same point or to none.
TEST(OnlyOne, HoldsFromEveryStart) {
    int proofs = 0, networks = 0, arrived = 0;
    property(500, [&] {
        const auto seed = static_cast<std::uint32_t>(*rc::gen::inRange(0, 1 << 30));
        std::mt19937 random(seed);
        const Circuit c = random_circuit(seed, 12);
        const Solution s = operating_point(c);
        ++networks;
        Proved proved(c);
        if (!s.usable || !only_one_point(proved.system, proved.forest, s.load_knee_V)) return;
        ++proofs;
        proved.system.load_knee_V = s.load_knee_V;
        proved.system.converter_knee_V = s.converter_knee_V;
        const Options options;
        Newton newton(proved.system, options);
        for (int k = 0; k < 20; ++k) {
            std::vector<double> x = proved.system.first_guess();
            for (double& one : x) one += static_cast<double>(random() % 6000) / 100 - 30;
            if (!newton.solve(x, options.newton_most)) continue;
            ++arrived;
            for (std::size_t p = 0; p < proved.topology.ports.size(); ++p) {
                const Port& port = proved.topology.ports[p];
                if (!proved.topology.live[p]) continue;
                const double here = proved.system.across(x, port.plus, port.minus);
                RC_LOG() << show(c) << show(c, s) << "port " << p << ": " << here << "\n";
                RC_ASSERT(std::abs(here - between(s, port.plus, port.minus)) < 1e-6);
            }
        }
    });
    std::printf("    %d of %d networks proved, %d starts arrived\n", proofs, networks, arrived);
    EXPECT_GT(proofs, networks / 20);
    EXPECT_GT(arrived, proofs);
}

} // namespace
} // namespace fl::test
