#include "tests/core/condition/draft.h"

#include <gmock/gmock.h>

#include <algorithm>

namespace fl::condition {
namespace {

using plan::Chemistry;
using testing::Contains;
using testing::ElementsAre;
using testing::Not;

std::vector<plan::Condition> conditions_of(const Draft& d) {
    return conditions(d.in, network::build(d.in));
}
std::vector<std::string> names_of(const std::vector<plan::Condition>& all) {
    std::vector<std::string> names;
    for (const auto& c : all) names.push_back(c.name);
    return names;
}

TEST(Templates, exist_only_where_their_parts_do) {
    Draft d;
    EXPECT_TRUE(conditions_of(d).empty());
    d.part("G1", battery(Chemistry::lead_flooded, 5));
    EXPECT_THAT(names_of(conditions_of(d)),
                ElementsAre("parked, everything on", "parked, everything on, battery full", "overnight",
                            "stood 30 days"));
    d.part("G2", plan::Alternator{});
    auto names = names_of(conditions_of(d));
    for (const auto* name : {"start-up overshoot", "cruise", "engine running, everything on", "idle, hot"})
        EXPECT_THAT(names, Contains(name));
    for (const auto* name : {"lean cruise", "overrun", "charging, loads off", "mains connected", "sun only",
                             "inverter surge", "cranking"})
        EXPECT_THAT(names, Not(Contains(name)));

    plan::Alternator controlled;
    controlled.regulation = plan::Regulation::computer_controlled;
    d.part("G3", controlled);
    d.part("T1", plan::DriveCharger{});
    d.part("T2", plan::MainsCharger{});
    d.part("T3", plan::SolarController{});
    d.part("U1", plan::Inverter{});
    d.part("M1", plan::StarterMotor{});
    names = names_of(conditions_of(d));
    for (const auto* name : {"lean cruise", "overrun", "charging, loads off", "mains connected", "sun only",
                             "inverter surge", "cranking"})
        EXPECT_THAT(names, Contains(name));
    auto unique = names;
    std::sort(unique.begin(), unique.end());
    EXPECT_EQ(std::unique(unique.begin(), unique.end()), unique.end());
}

TEST(Templates, what_opens_while_something_charges_tells_the_highest_voltage_only) {
    Draft d;
    const auto pack = d.part("G1", battery(Chemistry::lifepo4, 5)); // lithium has electronics
    EXPECT_THAT(names_of(conditions_of(d)), Not(Contains("battery electronics open"))); // nothing charges it
    d.part("G2", plan::Alternator{});
    plan::Switch master;
    master.role = plan::SwitchRole::master;
    const auto opened = d.part("Q1", master);
    const auto all = conditions_of(d);
    for (const auto& [name, id] : {std::pair{"battery electronics open", pack},
                                   std::pair{"master switch opened while running", opened}}) {
        const auto c =
            std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.name == name; });
        ASSERT_NE(c, all.end()) << name;
        EXPECT_THAT(c->forced, ElementsAre(plan::Forced{id, false}));
        EXPECT_TRUE(may_set(*c, plan::Use::highest_voltage));
        for (const auto use : {plan::Use::lowest_voltage, plan::Use::lasting_current,
                               plan::Use::short_current, plan::Use::charging})
            EXPECT_FALSE(may_set(*c, use)) << name;
    }
}

TEST(Templates, lower_limit_is_that_of_the_chemistry) {
    Draft d;
    const auto lead = d.part("G1", battery(Chemistry::lead_agm, 5));
    const auto lithium = d.part("G2", battery(Chemistry::lifepo4, 5));
    const auto all = conditions_of(d);
    const auto low =
        std::find_if(all.begin(), all.end(), [](const auto& c) { return c.name == "parked, everything on"; });
    ASSERT_NE(low, all.end());
    // Usable: half of a lead battery, 80 % of a lithium one (common practice).
    ASSERT_EQ(low->batteries.size(), 2u);
    EXPECT_EQ(low->batteries[0].battery, lead);
    EXPECT_NEAR(low->batteries[0].charge.si(), 0.5, 1e-12);
    EXPECT_EQ(low->batteries[1].battery, lithium);
    EXPECT_NEAR(low->batteries[1].charge.si(), 0.2, 1e-12);
}

TEST(Templates, own_condition_replaces_one_of_the_same_name_or_is_added) {
    Draft d;
    d.part("G1", battery(Chemistry::lead_flooded, 5));
    const auto before = names_of(conditions_of(d));
    plan::Condition own;
    own.id = plan::ConditionId{d.in.next_id++};
    own.name = "overnight";
    own.loads = plan::LoadsOn::none;
    d.in.conditions = d.in.conditions.with(own);
    own.id = plan::ConditionId{d.in.next_id++};
    own.name = "film night";
    d.in.conditions = d.in.conditions.with(own);
    const auto after = conditions_of(d);
    ASSERT_EQ(after.size(), before.size() + 1);
    EXPECT_EQ(after.back().name, "film night");
    const auto night =
        std::find_if(after.begin(), after.end(), [](const auto& c) { return c.name == "overnight"; });
    EXPECT_EQ(night->loads, plan::LoadsOn::none);
}

} // namespace
} // namespace fl::condition
