// Rows that are main units, and what a circuit's row may say besides.
#include "core/edit/edit.h"
#include "core/quantity/print.h"
#include "tests/core/enter/rows.h"

namespace fl {
namespace {

using namespace plan;
using test::between;
using test::named;
using test::part;
using test::typed;

const Fuse& fuse(const Installation& in, std::string_view name) {
    static const Fuse none;
    const Component* c = named(in, name);
    EXPECT_TRUE(c) << name;
    return c ? std::get<Fuse>(c->with) : none;
}

TEST(Units, ABatteryComesWithFuseMasterSwitchAndBars) {
    const Installation in = typed({"battery 200ah lithium"});
    const Component* battery = part<Battery>(in);
    ASSERT_TRUE(battery);
    const auto& b = std::get<Battery>(battery->with);
    EXPECT_EQ(b.capacity, Entered<Charge>(200_Ah));
    EXPECT_EQ(b.chemistry, Chemistry::lifepo4);
    EXPECT_EQ(b.electronics, Entered<bool>(true, From::assumed)) << "a lithium pack has its own";
    const Component *link = named(in, "Service battery fuse"), *master = part<Switch>(in);
    ASSERT_TRUE(master);
    EXPECT_EQ(std::get<Switch>(master->with).role, SwitchRole::master);
    const Conductor* near = between(in, battery, link);
    ASSERT_TRUE(near && between(in, link, master));
    EXPECT_EQ(near->length, Entered<Length>(0.2_m, From::assumed));
    EXPECT_EQ(fuse(in, "Service battery fuse").type, "UL248-15-T") << "lithium can drive more than 1000 A";
    EXPECT_TRUE(named(in, "Plus bar") && named(in, "Minus bar") && named(in, "Service earth"));
    EXPECT_TRUE(edit::faults(in).empty());
}

TEST(Units, ABankIsOneBattery) {
    const Installation in = typed({"2x battery 100ah agm"});
    const auto& b = std::get<Battery>(part<Battery>(in)->with);
    EXPECT_EQ(b.parallel, 2);
    EXPECT_EQ(*b.capacity, 200_Ah);
    EXPECT_FALSE(b.electronics);
}

// Typed in any of their words, in any case.
TEST(Units, EveryWordOfAChemistry) {
    const std::pair<const char*, Chemistry> all[] = {{"battery 100ah LiFePO4", Chemistry::lifepo4},
                                                     {"battery 100ah lfp", Chemistry::lifepo4},
                                                     {"battery 100ah AGM", Chemistry::lead_agm},
                                                     {"service battery gel 100ah", Chemistry::lead_gel},
                                                     {"battery wet 100ah", Chemistry::lead_flooded},
                                                     {"battery lead 100ah", Chemistry::lead_flooded},
                                                     {"batteries 100ah flooded", Chemistry::lead_flooded}};
    for (const auto& [row, chemistry] : all)
        EXPECT_EQ(std::get<Battery>(part<Battery>(typed({row}))->with).chemistry, chemistry) << row;
}

TEST(Units, ADriveChargerIsFedFromTheVehicleAndToldWhenItRuns) {
    const Installation in = typed({"battery 200ah lithium", "charger 40a 5m run engine"});
    const Component* charger = part<DriveCharger>(in);
    ASSERT_TRUE(charger);
    EXPECT_EQ(std::get<DriveCharger>(charger->with).output_current, Entered<Current>(40_A));
    const Component* link = named(in, "Charger input fuse");
    const Conductor *near = between(in, named(in, "Starter battery"), link),
                    *far = between(in, link, charger);
    ASSERT_TRUE(near && far);
    EXPECT_EQ(near->length, Entered<Length>(0.2_m, From::assumed));
    EXPECT_EQ(far->length, Entered<Length>(4.8_m)) << "5 m less the 0.2 m before the fuse";
    EXPECT_EQ(fuse(in, "Charger output fuse").rating, Entered<Current>(50_A, From::assumed)); // 1.25 * 40 A
    const Component* point = named(in, "Run signal");
    ASSERT_TRUE(point);
    EXPECT_EQ(std::get<SignalPoint>(point->with).supplied, Supplied::engine_running);
    const Conductor* run = between(in, named(in, "Run signal fuse"), charger);
    ASSERT_TRUE(run);
    EXPECT_EQ(run->role, Role::signal);
}

TEST(Units, AChargerWithoutItsLengthAsksForIt) {
    const Installation in = typed({"charger 40a"});
    EXPECT_FALSE(between(in, named(in, "Charger input fuse"), part<DriveCharger>(in))->length);
    EXPECT_TRUE(enter::hint(enter::begin({}).value(), "charger 40a").asks_length);
}

TEST(Units, AnInputLeadShorterThanUsualHasItsFuseInTheMiddle) {
    const Installation in = typed({"charger 40a 0.1m"});
    const Component* link = named(in, "Charger input fuse");
    EXPECT_EQ(*between(in, named(in, "Starter battery"), link)->length, 0.05_m);
    EXPECT_EQ(*between(in, link, part<DriveCharger>(in))->length, 0.05_m);
}

// What goes between the bars: its own fuse at the plus bar, and back to the minus bar; figures as typed.
TEST(Units, WhatGoesBetweenTheBars) {
    const Installation in =
        typed({"battery 200ah lithium", "inverter 1000w", "solar 200w 4m", "mains charger 20a 1m"});
    for (const auto& [unit, link] : {std::pair{"Inverter", "Inverter fuse"},
                                     {"Solar controller", "Solar controller fuse"},
                                     {"Mains charger", "Mains charger fuse"}}) {
        const Component *c = named(in, unit), *f = named(in, link);
        ASSERT_TRUE(c && f) << unit;
        EXPECT_TRUE(between(in, named(in, "Plus bar"), f) && between(in, f, c)) << unit;
        EXPECT_TRUE(between(in, c, named(in, "Minus bar"))) << unit;
    }
    EXPECT_EQ(std::get<Inverter>(named(in, "Inverter")->with).rated_power, Entered<Power>(1000_W));
    const auto& sun = std::get<SolarController>(named(in, "Solar controller")->with);
    EXPECT_EQ(sun.panel_power, Entered<Power>(200_W));
    EXPECT_EQ(sun.output_current, Entered<Current>(17_A, From::assumed)); // 200 W / 12 V = 16.7 A
    EXPECT_EQ(fuse(in, "Solar controller fuse").rating.value, 30_A); // 1.25 * 17 = 21.3; strips begin at 30 A
    EXPECT_EQ(fuse(in, "Mains charger fuse").rating.value, 30_A);    // 1.25 * 20 = 25
    EXPECT_EQ(between(in, named(in, "Solar controller fuse"), named(in, "Solar controller"))->length,
              Entered<Length>(3.85_m)); // 4 m less the 0.15 m before the fuse
    // 1000 W / 0.88 / 10.5 V = 108 A; 1.25 * 108 = 135, so 150 A, which bears the 200 A of a surge for its 3
    // s (1.5 times its rating for 90 s at least); 150 A ask 70 mm2: 207 A * 0.87 = 180 A, 50 mm2 carry but
    // 146 A.
    EXPECT_EQ(fuse(in, "Inverter fuse").rating, Entered<Current>(150_A, From::assumed));
    EXPECT_EQ(text(*between(in, named(in, "Inverter fuse"), named(in, "Inverter"))->size), "70 mm²");
}

TEST(Units, WhatIsTypedOfAUnitStaysAsItIs) {
    const Installation in = typed(
        {"battery 200ah lithium", "inverter 1000w 1m 95mm2 200a", "charger 40a 5m 80a", "fridge 5a 3m"});
    EXPECT_EQ(fuse(in, "Inverter fuse").rating, Entered<Current>(200_A));
    EXPECT_EQ(fuse(in, "Charger input fuse").rating, Entered<Current>(80_A));
    const Component *inverter = named(in, "Inverter"), *link = named(in, "Inverter fuse");
    for (const Conductor* w : {between(in, named(in, "Plus bar"), link), between(in, link, inverter),
                               between(in, inverter, named(in, "Minus bar"))}) {
        ASSERT_TRUE(w);
        EXPECT_EQ(w->size, Entered<WireSize>(WireSize::mm2(95)));
        EXPECT_TRUE(w->size_locked);
    }
}

TEST(Units, TheVehiclesOwnFiguresAreChangedInPlace) {
    const Installation in = typed({"alternator 180a", "starter battery 95ah agm"});
    int alternators = 0, batteries = 0;
    for (const Component& c : in.components) {
        alternators += c.kind() == Kind::alternator;
        batteries += c.kind() == Kind::battery;
    }
    EXPECT_EQ(alternators, 1);
    EXPECT_EQ(batteries, 1);
    EXPECT_EQ(std::get<Alternator>(named(in, "Alternator")->with).rated, Entered<Current>(180_A));
    const auto& starter = std::get<Battery>(named(in, "Starter battery")->with);
    EXPECT_EQ(starter.capacity, Entered<Charge>(95_Ah));
    EXPECT_EQ(starter.chemistry, Chemistry::lead_agm);
    EXPECT_EQ(starter.role, BatteryRole::starter);
}

TEST(Units, ACircuitsTypedFuseSizeWayAndHoursStay) {
    const Installation in = typed({"battery 200ah lithium", "pump 6a 3m 4mm2 20a way 7 2h", "fan 2m"});
    const Component *pump = named(in, "Pump"), *box = part<FuseBox>(in);
    ASSERT_TRUE(pump && box);
    const Way& way = std::get<FuseBox>(box->with).ways[6];
    EXPECT_EQ(way.label, "Pump");
    EXPECT_EQ(way.rating, Entered<Current>(20_A));
    const Conductor* there = between(in, box, pump);
    ASSERT_TRUE(there);
    EXPECT_EQ(there->from.terminal, "7");
    EXPECT_EQ(there->size, Entered<WireSize>(WireSize::mm2(4)));
    EXPECT_EQ(std::get<Load>(pump->with).hours, Entered<Time>(Time::si(7200)));
    EXPECT_EQ(std::get<FuseBox>(box->with).ways[0].label, "Fan") << "the next free way is the first";
}

TEST(Units, AFullBoxIsFollowedByAnother) {
    Installation in = typed({"battery 200ah lithium"});
    for (int n = 0; n < 13; ++n) in = enter::row(in, "lamp 0.5a 2m").value().installation;
    std::vector<const Component*> boxes;
    for (const Component& c : in.components)
        if (c.kind() == Kind::fuse_box) boxes.push_back(&c);
    ASSERT_EQ(boxes.size(), 2U);
    EXPECT_EQ(boxes[1]->name, "Fuse box 2");
    EXPECT_EQ(std::get<FuseBox>(boxes[1]->with).ways[0].label, "Lamp");
    EXPECT_TRUE(between(in, named(in, "Fuse box 2 main fuse"), boxes[1])) << "it is fed";
    EXPECT_TRUE(between(in, boxes[1], named(in, "Minus bar"))) << "and returned";
    EXPECT_EQ(enter::row(in, "lamp 1a 2m way 1").error().right,
              "leave the way out: " + boxes[1]->designation + ".2 is free");
}

TEST(Units, TooMuchForAWayComesStraightFromTheBar) {
    const Installation in = typed({"battery 200ah lithium", "winch 3m"});
    EXPECT_FALSE(part<FuseBox>(in));
    const Component *winch = named(in, "Winch"), *link = named(in, "Winch fuse");
    ASSERT_TRUE(winch && link);
    EXPECT_TRUE(between(in, named(in, "Plus bar"), link) && between(in, link, winch) &&
                between(in, winch, named(in, "Minus bar")));
}

// Where no conductor and no fuse of the tables is enough, the largest stand there, not the least:
// 400 mm2 is the last row of the table of currents.
TEST(Units, WhatNothingIsEnoughForGetsTheMostThereIs) {
    const Installation in = typed({"battery 200ah lithium", "giant 2000a 3m"});
    EXPECT_EQ(text(*between(in, named(in, "Giant fuse"), named(in, "Giant"))->size), "400 mm²");
    EXPECT_EQ(fuse(in, "Giant fuse").rating.value, 500_A);
}

TEST(Units, DecimalsWithACommaAreTheSame) {
    const Installation point = typed({"battery 200ah lithium", "charger 40.5a 4.5m",
                                      "fridge 5.5a 4.3m 2.5mm2", "12x led 0.25a 5.2m"}),
                       comma = typed({"battery 200ah lithium", "charger 40,5a 4,5m",
                                      "fridge 5,5a 4,3m 2,5mm2", "12x led 0,25a 5,2m"});
    EXPECT_EQ(point, comma);
}

} // namespace
} // namespace fl
