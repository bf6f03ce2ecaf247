#include "tests/core/condition/draft.h"

namespace fl::condition {
namespace {

using plan::Chemistry;
using plan::Use;

/// 12.66 V behind 10 mΩ; 10 A and, momentarily, 90 A on one lead of 10 mΩ.
Draft lead_with_winch() {
    Draft d = Draft::plain();
    d.part("G1", battery(Chemistry::lead_flooded, 10));
    d.part("E1", amperes(10));
    plan::Load winch = amperes(90);
    winch.duty = plan::Duty::momentary;
    d.part("E2", winch);
    d.wire("G1.+", "E1.+", 0, 0, 10);
    d.wire("E1.-", "G1.-");
    d.wire("E1.+", "E2.+");
    d.wire("E2.-", "G1.-");
    return d;
}

Envelope worst(const Draft& d, const std::vector<plan::Condition>& conditions) {
    const auto network = network::build(d.in);
    std::vector<Solved> all;
    for (const auto& c : conditions) all.push_back(solve(d.in, network, c));
    return envelope(network, all);
}

TEST(Envelope, takes_the_worst_and_names_who_set_it) {
    const Draft d = lead_with_winch();
    plan::Condition lasting, brief;
    brief.duration = Time::si(10);
    const auto e = worst(d, {lasting, brief});
    EXPECT_NEAR(e.branch_current[0].value.si(), 10, 1e-6);
    EXPECT_EQ(e.branch_current[0].condition, 0);
    EXPECT_NEAR(e.branch_short_current[0].value.si(), 100, 1e-6);
    EXPECT_EQ(e.branch_short_current[0].condition, 1);
    EXPECT_NEAR(e.port_lowest[1].value.si(), 12.66 - 100 * 0.02, 1e-6);
    EXPECT_EQ(e.port_lowest[1].condition, 1);
    EXPECT_NEAR(e.port_drop[1].value.si(), 0.1, 1e-6); // 10 A × 10 mΩ, the battery's own not counted
    EXPECT_EQ(e.port_drop[1].condition, 0) << "a lasting load's drop is not judged while the winch runs";
    EXPECT_NEAR(e.port_drop[2].value.si(), 1.0, 1e-6); // the winch's own: 100 A × 10 mΩ
    EXPECT_NEAR(e.port_current[0].value.si(), 10, 1e-6);
    EXPECT_FALSE(e.port_current[2]); // the winch never runs lastingly
    EXPECT_FALSE(e.battery_charge[0]);
}

TEST(Envelope, a_condition_sets_only_what_its_uses_allow) {
    const Draft d = lead_with_winch();
    plan::Condition c;
    c.uses = {Use::highest_voltage};
    const auto e = worst(d, {c});
    EXPECT_TRUE(e.port_highest[1]);
    EXPECT_FALSE(e.port_lowest[1]);
    EXPECT_FALSE(e.branch_current[0]);
}

TEST(Envelope, a_held_voltage_sets_no_current) {
    Draft d = lead_with_winch();
    d.part("G2", plan::Alternator{});
    d.wire("G2.B+", "G1.+", 0, 0, 1);
    d.wire("G2.B-", "G1.-");
    plan::Condition c;
    c.engine = plan::Engine::running;
    c.alternator = plan::AlternatorState::held;
    c.held = Voltage::si(14.8);
    const auto e = worst(d, {c});
    EXPECT_FALSE(e.branch_current[0]);
    EXPECT_FALSE(e.battery_charge[0]);
    ASSERT_TRUE(e.port_highest[1]);
    EXPECT_GT(e.port_highest[1].value.si(), 14.5);
}

TEST(Envelope, a_load_cut_off_has_no_lowest_voltage) {
    Draft d = Draft::plain();
    d.part("G1", battery(Chemistry::lead_flooded, 10));
    d.part("S1", with_mohm<plan::Switch>(1));
    d.part("E1", amperes(10));
    d.wire("G1.+", "S1.1");
    d.wire("S1.2", "E1.+");
    d.wire("E1.-", "G1.-");
    plan::Condition open;
    open.forced = {{d.at("S1.1").component, false}};
    EXPECT_FALSE(worst(d, {open}).port_lowest[1]);
}

} // namespace
} // namespace fl::condition
