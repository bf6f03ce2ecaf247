// Rows that can't be carried out: each has one message, of where, what is wrong and what would be right.
#include "tests/core/enter/rows.h"

namespace fl {
namespace {

struct Bad {
    const char *row, *code, *where, *wrong, *right;
};
// After: battery 200ah lithium, fridge 5a 2m (way 1).
const Bad rows[] = {
    {"", "enter.empty", "", "empty", "fridge 5A 4.3m"},
    {"   ", "enter.empty", "", "empty", "fridge 5A 4.3m"},
    {"fridge\x01 5a", "enter.letters", "fridge\x01 5a", "not letters", "fridge 5A 4.3m"},
    {"5a 4m", "enter.name", "", "no name", "begin with what it feeds"},
    {"lamp 5q 4m", "enter.unit", "5q", "unit is not known", "A, W or ohm"},
    {"lamp 5 4m", "enter.unit", "5", "no unit", "5a, 5w, 5m"},
    {"lamp 5a4m", "enter.unit", "5a4m", "unit is not known", "A, W or ohm"},
    {"lamp 5.5.5a 4m", "enter.number", "5.5.5a", "more than one point", "1200.5"},
    {"lamp 5,5,5a 4m", "enter.number", "5,5,5a", "more than one point", "1200.5"},
    {"lamp -5a 4m", "enter.range", "-5a", "outside 0 A", "figure of the part"},
    {"lamp 0a 4m", "enter.range", "0a", "not above zero", "figure of the part"},
    {"lamp 1a 0m", "enter.range", "0m", "not above zero", "figure of the part"},
    {"lamp 1a 5000m", "enter.range", "5000m", "outside 0 m to 1000 m", "figure of the part"},
    {"lamp 1a 4m 30h", "enter.range", "30h", "a day has 24 h", "hours a day"},
    {"lamp 1a 4m 2.5mm", "enter.size", "2.5mm", "diameter", "2.5 mm2"},
    {"lamp 1a 4m 2m", "enter.twice", "2m", "its length twice", "\"4m\""},
    {"lamp 1a 5a 10a 4m", "enter.twice", "10a", "once too often", "the amount, then the fuse"},
    {"lamp 12w 12ohm 4m", "enter.twice", "12ohm", "amount twice", "watts or ohms"},
    {"lamp 1a 4m short momentary", "enter.twice", "momentary", "duty twice", "\"short\""},
    {"0x lamp 4m", "enter.count", "0x", "one at least", "4x"},
    {"2000x lamp 4m", "enter.count", "2000x", "so many", "4x"},
    {"lamp 1a 4m 24v", "enter.voltage", "24v", "this job is 12 V", "leave the voltage out"},
    {"lamp 1a 4m red", "enter.word", "red", "fits nothing", "name in one piece"},
    {"gizmo 4m", "enter.amount", "Gizmo", "how much it takes", "amperes or watts"},
    {"lamp 1a 4m way", "enter.way", "way", "not the number of a way", "way 3"},
    {"lamp 1a 4m way 0", "enter.way", "0", "not the number of a way", "way 3"},
    {"lamp 1a 4m way two", "enter.way", "two", "not the number of a way", "way 3"},
    {"lamp 1a 4m way 13", "enter.way", "way 13", "has 12 ways", "one of them"},
    {"lamp 1a 4m way 1", "enter.way-taken", "way 1", "it feeds Fridge", "way 2 is free"},
    {"winch 3m way 2", "enter.way", "way 2", "can't carry 350 A", "from the plus bar"},
    {"lamp 200ah", "enter.not-here", "200ah", "no capacity", "A or W"},
    {"lamp run engine 5a", "enter.not-here", "run engine", "of a DC-DC charger", "leave it out"},
    {"battery 100ah agm", "enter.second", "battery", "a service battery already, G3", "2x battery"},
    {"battery 100a lithium", "enter.not-here", "100a", "fits nothing", "capacity in Ah"},
    {"battery 100ah lithium agm", "enter.twice", "agm", "chemistry twice", "\"lithium\""},
    {"battery 100ah lithium 4h", "enter.not-here", "4h", "fits nothing", "leave it out"},
    {"starter battery", "enter.amount", "starter battery", "capacity is not known", "80ah"},
    {"starter battery 80a", "enter.not-here", "80a", "fits nothing", "capacity in Ah"},
    {"alternator", "enter.amount", "alternator", "rated current", "150a"},
    {"alternator 150a 5m", "enter.not-here", "5m", "fits nothing", "leave it out"},
    {"charger 500w", "enter.not-here", "500w", "fits nothing", "current in A"},
    {"2x charger 40a", "enter.not-here", "2x", "fits nothing", "a row of its own"},
    {"charger 40a 5m 16mm2", "enter.not-here", "16mm2", "fits nothing", "one by one"},
    {"charger 30a run moon", "enter.word", "run", "run signal comes from", "run engine"},
    {"mains charger", "enter.amount", "mains charger", "output is not known", "20a"},
    {"mains charger 20a 200ah", "enter.not-here", "200ah", "fits nothing", "of a battery"},
    {"solar", "enter.amount", "solar", "power is not known", "200w"},
    {"inverter", "enter.amount", "inverter", "power is not known", "1000w"},
    {"inverter 100a", "enter.not-here", "100a", "fits nothing", "power in W"},
    {"inverter 1000w way 3", "enter.not-here", "way 3", "fits nothing", "to the bars"},
};

TEST(BadRows, EachHasItsOneClearMessage) {
    const plan::Installation in = test::typed({"battery 200ah lithium", "fridge 5a 2m"});
    for (const Bad& bad : rows) {
        const auto done = enter::row(in, bad.row);
        ASSERT_FALSE(done) << bad.row;
        const Problem& p = done.error();
        EXPECT_EQ(p.code, bad.code) << bad.row;
        EXPECT_EQ(p.where, bad.where) << bad.row;
        EXPECT_NE(p.wrong.find(bad.wrong), p.wrong.npos) << bad.row << ": " << p.wrong;
        EXPECT_NE(p.right.find(bad.right), p.right.npos) << bad.row << ": " << p.right;
        EXPECT_FALSE(p.right.ends_with(".") || p.wrong.ends_with(".")) << bad.row;
        // What is typed and what is carried out are judged alike.
        const enter::Hint hint = enter::hint(in, bad.row);
        ASSERT_TRUE(hint.problem) << bad.row;
        EXPECT_EQ(*hint.problem, p) << bad.row;
    }
}

TEST(BadRows, WhatNeedsAnotherRowFirst) {
    const plan::Installation begun = enter::begin({}).value();
    EXPECT_EQ(enter::row(begun, "as above").error().code, "enter.nothing-above");
    EXPECT_EQ(enter::row(begun, "battery 100ah").error().code, "enter.chemistry");
    // Without the vehicle's own side there is nothing to charge from.
    plan::Installation bare;
    bare.basis.rule_set = "van";
    for (const char* row : {"charger 40a 5m", "alternator 90a", "starter battery 80ah"})
        EXPECT_EQ(enter::row(bare, row).error().code, "enter.no-source") << row;
}

TEST(BadRows, AStartOutOfReachIsRefused) {
    enter::Start start;
    start.rule_set = "submarine";
    EXPECT_EQ(enter::begin(start).error().code, "enter.rule-set");
    start = {};
    start.starter_battery = Charge::si(0);
    EXPECT_EQ(enter::begin(start).error().code, "enter.range");
    start = {};
    start.alternator = Current::si(1e6);
    EXPECT_EQ(enter::begin(start).error().code, "enter.range");
    start = {};
    start.nominal = 230_V;
    EXPECT_FALSE(enter::begin(start)); // low-voltage d.c. only
}

} // namespace
} // namespace fl
