// Which end a lead is fed at, and what its fuse must carry.
#include "core/assess/assess.h"
#include "core/wording/wording.h"
#include "tests/support/case.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace fl::rules {
namespace {

const Finding* finding(const assess::Assessment& a, std::string_view code) {
    for (const Finding& f : a.findings)
        if (f.code == code) return &f;
    return nullptr;
}

// What the alternator gives when the battery asks for it, though in no condition here it does: 60 A / 0.8
// = 75 A, next 80 A; 25 mm² may carry more. One of 100 A needs 125 A, above what the lead may carry.
TEST(Feed, AFuseCarriesAllThatLimitsItselfAtTheOtherEnd) {
    auto read = test::read_case(
        test::source_file("tests/fixtures/rules/unprotected-between-batteries-alternator.case"));
    ASSERT_TRUE(read.problems.empty());
    const auto a = assess::assess(read.installation);
    const Finding* f = finding(*a, "unprotected-between-batteries");
    ASSERT_TRUE(f);
    EXPECT_EQ(std::get<Current>(f->values.at("fit")), Current::si(80));

    const auto larger = test::read_case(R"(
rules     van 12V
battery   G1 lead starter 12V 80Ah cold_cranking=700A
alternator G3 conventional 12V 100A
wire      W1 G3:B+ G1:+ 1.5m 25mm2
return    W2 G3:B- G1:- 1m 25mm2
expect    finding unprotected-between-batteries W1
)");
    const auto b = assess::assess(larger.installation);
    const Finding* no = finding(*b, "unprotected-between-batteries");
    ASSERT_TRUE(no);
    EXPECT_FALSE(no->values.contains("fit"));
}

// W2 meets the string at its top, which is the plus of G2.
TEST(Feed, AStringIsFedAtTheBatteryThatStandsThere) {
    const auto read = test::read_case(R"(
rules     van 24V
battery   G1 agm service 12V 180Ah
battery   G2 agm service 12V 180Ah
wire      W1 G1:+ G2:- 0.2m 50mm2
load      E1 20A "Heater" purpose=heater
wire      W2 G2:+ E1:+ 8m 6mm2
return    W3 E1:- G1:- 8m 6mm2
expect    finding unprotected-conductor W2
)");
    ASSERT_TRUE(read.problems.empty());
    const auto a = assess::assess(read.installation);
    const Finding* f = finding(*a, "unprotected-conductor");
    ASSERT_TRUE(f);
    EXPECT_EQ(std::get<std::string>(f->values.at("source")), "G2");
}

// A tap of 4 mm² behind the 100 A of the lead that feeds its bar: there is a fuse, but not for the tap; the
// tap's own goes where it begins, on the bar.
TEST(Feed, ATapSaysWhichFuseIsTooLargeForItAndWhereItsOwnGoes) {
    const auto read = test::read_case(R"(
rules     van 12V
battery   G1 agm service 12V 100Ah
bar       X1 plus 4
wire      W1 G1:+ X1:1 1m 35mm2
fuse      F1 ISO8820-5-SF30 100A on=W1 at=0.2m
load      E1 40A "Heater" purpose=heater
wire      W3 X1:2 E1:+ 2m 35mm2
return    W4 E1:- G1:- 2m 35mm2
load      E2 8A "Fridge" purpose=fridge
wire      W5 X1:3 E2:+ 2.9m 4mm2
return    W6 E2:- G1:- 2.9m 4mm2
expect    finding unprotected-conductor W5
)");
    ASSERT_TRUE(read.problems.empty());
    const auto a = assess::assess(read.installation);
    const Finding* f = finding(*a, "unprotected-conductor");
    ASSERT_TRUE(f);
    const std::string said = wording::sentence(*f, read.installation);
    EXPECT_THAT(said, testing::HasSubstr("no fuse of its own, and F1 lets 100 A through"));
    EXPECT_THAT(said, testing::HasSubstr("Fit 10 A at the X1 end.")); // 8 A / 0.8
}

// The link loses more than any one of its leads (3 mΩ against 0.55), and no link gets thicker.
TEST(Feed, AskForNoThickerFuse) {
    const auto read = test::read_case(R"(
rules     van 12V
battery   G1 agm service 12V 100Ah resistance=6mohm soc=50%
inverter  T1 2000W 12V stop_voltage=11.5V
wire      W1 G1:+ T1:+ 1m 35mm2
fuse      F1 UL248-15-T 225A on=W1 at=0.1m resistance=3mohm
return    W2 T1:- G1:- 1m 35mm2
expect    finding load-starved T1
)");
    ASSERT_TRUE(read.problems.empty());
    const auto a = assess::assess(read.installation);
    const Finding* f = finding(*a, "load-starved");
    ASSERT_TRUE(f);
    const auto limiting = f->values.find("limiting");
    ASSERT_NE(limiting, f->values.end());
    EXPECT_EQ(std::get<std::string>(limiting->second).front(), 'W');
}

} // namespace
} // namespace fl::rules
