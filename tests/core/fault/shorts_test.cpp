#include "core/fault/shorts.h"
#include "core/solve/solution.h"
#include "tests/core/fault/random_faults.h"
#include "tests/support/property.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

using namespace fl;
using namespace fl::fault;

namespace {

Feeder battery(int plus, int minus, double emf_V, double ohm) {
    Feeder f;
    f.component = {static_cast<std::uint32_t>(plus + 1)};
    f.plus = plus, f.minus = minus, f.emf_V = emf_V, f.ohm = ohm;
    return f;
}
Feeder clamp(int plus, int minus, double set_V, double droop_ohm, double limit_A) {
    Feeder f = battery(plus, minus, set_V, droop_ohm);
    f.limit_A = limit_A;
    return f;
}

/// Shorts between any two nodes.
Shorts shorts(const Snapshot& snapshot) {
    std::vector<int> all;
    for (int n = 0; n < snapshot.nodes; ++n) all.push_back(n);
    return {snapshot, std::vector<std::vector<int>>(all.size(), all)};
}

TEST(Shorts, OneBatteryAndItsLeads) {
    // 12 V behind 4 mohm, 5 + 3 mohm of leads: 12 V / 12 mohm = 1000 A, 8 V left at the terminals.
    const Shorts s = shorts({4, {{0, 2, 0.005}, {3, 1, 0.003}}, {battery(0, 1, 12, 0.004)}});
    const auto fault = s.between(2, 3);
    ASSERT_TRUE(fault);
    EXPECT_NEAR(fault->total_A, 1000, 1e-6);
    EXPECT_NEAR(fault->feeder_A[0], 1000, 1e-6);
    EXPECT_NEAR(fault->feeder_V[0], 8, 1e-8);
}

TEST(Shorts, NothingFlowsWhereNothingReaches) {
    const Shorts s = shorts({5, {{0, 2, 0.005}}, {battery(0, 1, 12, 0.004)}});
    EXPECT_FALSE(s.between(2, 3)) << "no way back";
    EXPECT_FALSE(s.between(2, 0).has_value() && s.between(2, 0)->total_A > 1e-6)
        << "no difference to drive it";
    EXPECT_FALSE(s.between(3, 4));
    EXPECT_FALSE(s.between(2, 2));
}

TEST(Shorts, NodesWithoutResistanceBetweenThemAreOne) {
    // Two closed contacts of 0 ohm in a ring, then 6 mohm: 12 / (4 + 6) mohm.
    const Shorts s = shorts({4, {{0, 2, 0}, {2, 0, 0}, {2, 3, 0.006}}, {battery(0, 1, 12, 0.004)}});
    EXPECT_NEAR(s.between(3, 1)->total_A, 1200, 1e-6);
    EXPECT_NEAR(s.between(2, 1)->total_A, 3000, 1e-6);
}

TEST(Shorts, AClampGivesItsLimitAndNoMore) {
    // By hand: 24 A limit, 13.8 V. A short of 0.1 ohm takes 24 A; one of 1 ohm only 13.8 V / 1.01 ohm.
    const Shorts s = shorts({4, {{0, 2, 0.1}, {0, 3, 1}}, {clamp(0, 1, 13.8, 0.01, 24)}});
    EXPECT_NEAR(s.between(2, 1)->total_A, 24, 1e-9);
    EXPECT_NEAR(s.between(3, 1)->total_A, 13.8 / 1.01, 1e-9);
}

TEST(Shorts, AClampNeverTakesIn) {
    // A charger set below the battery's voltage stays idle where the battery holds the node up: far away 12 V
    // through 0.004 + 1 ohm; the charger at 11 V sees 11.95 V.
    const Shorts s = shorts({3, {{0, 2, 1}}, {battery(0, 1, 12, 0.004), clamp(0, 1, 11, 0.01, 50)}});
    const auto far = s.between(2, 1);
    EXPECT_NEAR(far->total_A, 12 / 1.004, 1e-9);
    EXPECT_EQ(far->feeder_A[1], 0);
    EXPECT_NEAR(s.between(0, 1)->total_A, 3050, 1e-6) << "shorted at its terminals it gives its limit";
}

int pick(int from, int to) {
    return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange(from, to));
}

Snapshot random_snapshot() {
    Snapshot s;
    s.nodes = pick(3, 9);
    const auto other = [&](int node) { return (node + pick(1, s.nodes)) % s.nodes; };
    const auto ohm = [] { return pick(1, 40) * (pick(0, 2) ? 5e-4 : 2e-2); }; // leads, and long thin ones
    for (int i = 1; i < s.nodes; ++i) s.elements.push_back({i, pick(0, i), ohm()}); // one part
    for (int i = pick(0, 4); i > 0; --i) {
        const int a = pick(0, s.nodes);
        s.elements.push_back({a, other(a), ohm()});
    }
    for (int i = pick(1, 3); i > 0; --i) {
        const int a = pick(0, s.nodes);
        s.feeders.push_back(battery(a, other(a), 11 + 0.25 * pick(0, 10), pick(2, 12) * 1e-3));
    }
    for (int i = pick(0, 4); i > 0; --i) {
        const int a = pick(0, s.nodes);
        s.feeders.push_back(
            clamp(a, other(a), 11 + 0.25 * pick(0, 16), pick(1, 20) * 1e-3, pick(1, 40) * 10));
    }
    return s;
}

TEST(Shorts, EqualTheGeneralSolver) {
    int held = 0, idle = 0, regulating = 0, compared = 0, refused = 0;
    fl::test::property(1000, [&] {
        const Snapshot s = random_snapshot();
        const Shorts ours = shorts(s);
        const int a = pick(0, s.nodes), b = (a + pick(1, s.nodes)) % s.nodes;
        // the same short by the general solver, which knows nothing of ours
        const std::vector<SourceState> strong(s.feeders.size(), SourceState::strong);
        const auto point = solve::operating_point(test::short_circuit(s, strong, a, b));
        if (!point.usable) {
            ++refused;
            return;
        }
        const double current_A = point.resistor_A[s.elements.size()];
        auto fault = ours.between(a, b);
        if (current_A < 0) { // ours is from the first to the second
            RC_ASSERT(!fault);
            fault = ours.between(b, a);
        }
        const double ours_A = fault ? fault->total_A : 0;
        RC_LOG() << "ours " << ours_A << " A, theirs " << current_A << " A\n";
        RC_ASSERT(std::fabs(ours_A - std::fabs(current_A)) < 1e-6 * (1 + std::fabs(current_A)));
        if (!fault) return;
        ++compared;
        std::size_t regulator = 0, source = 0;
        for (std::size_t i = 0; i < s.feeders.size(); ++i) {
            const bool limited = s.feeders[i].limited();
            const double theirs_A = limited ? point.regulator_A[regulator++] : -point.battery_A[source++];
            RC_ASSERT(std::fabs(fault->feeder_A[i] - theirs_A) < 1e-5 * (1 + std::fabs(theirs_A)));
            if (limited)
                ++(theirs_A == 0 ? idle : theirs_A >= s.feeders[i].limit_A * (1 - 1e-9) ? held : regulating);
        }
    });
    std::cout << "[ counted  ] " << compared << " shorts, clamps held " << held << ", regulating "
              << regulating << ", idle " << idle << ", refused " << refused << "\n";
    EXPECT_LE(refused * 100, compared);
    if (fl::test::deep(1000) < 1000) return; // a tenth is too few for floors
    EXPECT_GT(held, 100);
    EXPECT_GT(regulating, 20);
    EXPECT_GT(idle, 20);
}

} // namespace
