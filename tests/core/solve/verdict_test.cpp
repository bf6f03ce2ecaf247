#include "tests/support/draft.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace fl::test {
namespace {

using namespace fl::solve;

constexpr Element load(int k) {
    return {ElementKind::load, k};
}

TEST(Verdicts, DeadBehindAnOpenSwitch) {
    Draft d;
    const int minus = d.node(), plus = d.node(), far = d.node();
    d.battery(plus, minus, 12, 0.01);
    d.resistor(plus, far, 0.001);
    d.amps(far, minus, 2, 7, 10);
    d.c.resistors[0].closed = false;
    const Solution s = operating_point(d.c);
    ASSERT_TRUE(s.usable);
    EXPECT_EQ(lines(laws_not_met(d.c, s)), "");
    ASSERT_EQ(s.verdicts.size(), 1u); // dead, and not starved as well
    EXPECT_EQ(s.verdicts[0].code, VerdictCode::dead);
    EXPECT_EQ(s.verdicts[0].subject, load(0));
    EXPECT_EQ(between(s, far, minus), 0);
    EXPECT_EQ(s.load_A[0], 0);
}

TEST(Verdicts, NothingOnIsNothingSaid) {
    Draft d;
    const int minus = d.node(), plus = d.node();
    d.battery(plus, minus, 12, 0.01);
    d.amps(plus, minus, 2, 7, 10);
    d.c.loads[0].on = false;
    const Solution s = operating_point(d.c);
    ASSERT_TRUE(s.usable);
    EXPECT_TRUE(s.verdicts.empty());
    EXPECT_EQ(between(s, plus, minus), 12);
    EXPECT_EQ(s.load_mode[0], LoadMode::off);
}

TEST(Verdicts, EmptyCircuit) {
    const Solution s = operating_point({});
    EXPECT_TRUE(s.usable);
    EXPECT_TRUE(s.verdicts.empty());
}

TEST(Verdicts, OverVoltage) {
    Draft d;
    const int minus = d.node(), plus = d.node();
    d.held(plus, minus, 16);
    d.ohms(plus, minus, 10);
    d.c.loads[0].highest_V = 15.5;
    const Solution s = operating_point(d.c);
    const auto said = verdict(s, VerdictCode::over_voltage);
    ASSERT_TRUE(said);
    EXPECT_EQ(said->reached_V, 16);
    d.c.regulators[0].set_V = 15.5;
    EXPECT_FALSE(verdict(operating_point(d.c), VerdictCode::over_voltage));
}

TEST(Verdicts, StarvedNamesTheConductorThatLimits) {
    // 12 V; 10 mOhm feeder, then 100 mOhm and 20 mOhm branches. The load on the thin branch wants 20 A
    // at 10.5 V.
    Draft d;
    const int minus = d.node(), plus = d.node(), bar = d.node(), thin = d.node(), thick = d.node();
    d.battery(plus, minus, 12, 0.002);
    d.resistor(plus, bar, 0.01);
    const int limiting = d.resistor(bar, thin, 0.1);
    d.resistor(bar, thick, 0.02);
    d.amps(thin, minus, 20, 7, 10.5);
    d.amps(thick, minus, 10, 7, 10.5);
    const Solution s = operating_point(d.c);
    ASSERT_TRUE(s.usable);
    ASSERT_EQ(s.verdicts.size(), 1u);
    const Verdict v = s.verdicts[0];
    EXPECT_EQ(v.code, VerdictCode::starved);
    EXPECT_EQ(v.subject, load(0));
    // By hand: 12 - 30·0.012 - 20·0.1 = 9.64 V.
    EXPECT_NEAR(v.reached_V, 9.64, 1e-9);
    // Greatest power at 10.5 V: behind 0.112 ohm from 12 - 10·0.012 = 11.88 V flow 1.38/0.112 = 12.32 A,
    // 129.4 W.
    EXPECT_NEAR(*v.greatest_W, 10.5 * 1.38 / 0.112, 1e-3);
    EXPECT_EQ(v.limiting, (Element{ElementKind::resistor, limiting}));
}

TEST(Verdicts, TwoHeldSourcesAgainstEachOther) {
    Draft d;
    const int minus = d.node(), plus = d.node(), other = d.node();
    d.held(plus, minus, 12);
    d.held(other, minus, 13);
    d.resistor(plus, other, 0);
    const Solution s = operating_point(d.c);
    EXPECT_FALSE(s.usable);
    EXPECT_TRUE(verdict(s, VerdictCode::opposed_sources));
    // With any resistance between it is an ordinary network: 1 V/1 mOhm.
    d.c.resistors[0].fixed_ohm = 0.001;
    const Solution t = operating_point(d.c);
    ASSERT_TRUE(t.usable);
    EXPECT_NEAR(t.resistor_A[0], -1000, 1e-6);
}

TEST(Verdicts, ShortCircuitOfAnIdealSource) {
    Draft d;
    const int minus = d.node(), plus = d.node();
    d.battery(plus, minus, 12, 0);
    d.resistor(plus, minus, 0);
    EXPECT_FALSE(operating_point(d.c).usable);
    EXPECT_TRUE(verdict(operating_point(d.c), VerdictCode::opposed_sources));
}

TEST(Verdicts, LoopOfBarsHasVoltagesButNoShares) {
    Draft d;
    const int minus = d.node(), plus = d.node(), far = d.node();
    d.battery(plus, minus, 12, 0.01);
    d.resistor(plus, far, 0);
    const int spare = d.resistor(plus, far, 0);
    d.ohms(far, minus, 1.19);
    const Solution s = operating_point(d.c);
    ASSERT_TRUE(s.usable);
    EXPECT_EQ(lines(laws_not_met(d.c, s)), "");
    const auto said = verdict(s, VerdictCode::opposed_sources);
    ASSERT_TRUE(said);
    EXPECT_EQ(said->subject, (Element{ElementKind::resistor, spare}));
    EXPECT_NEAR(s.load_A[0], 10, 1e-9); // 12 V / 1.2 ohm
}

TEST(Verdicts, ConvertersThatFeedThemselves) {
    Draft d;
    const int minus = d.node(), a = d.node(), b = d.node();
    d.converter(a, minus, b, minus, 24, 0.01, 10);
    d.converter(b, minus, a, minus, 12, 0.01, 20);
    d.ohms(a, minus, 5);
    const Solution s = operating_point(d.c);
    ASSERT_TRUE(s.usable);
    EXPECT_EQ(lines(laws_not_met(d.c, s)), "");
    EXPECT_EQ(between(s, a, minus), 0);
    int rings = 0;
    for (const Verdict& v : s.verdicts) rings += v.code == VerdictCode::feeds_itself;
    EXPECT_EQ(rings, 2);
    EXPECT_TRUE(verdict(s, VerdictCode::dead));
    // A battery anywhere in the ring, and it is a ring that runs.
    d.battery(a, minus, 12.5, 0.01);
    const Solution t = operating_point(d.c);
    ASSERT_TRUE(t.usable);
    EXPECT_FALSE(verdict(t, VerdictCode::feeds_itself));
    EXPECT_NEAR(between(t, b, minus), 24, 0.01);
}

TEST(Verdicts, ConverterWithoutSupply) {
    Draft d;
    const int minus = d.node(), in = d.node(), out = d.node();
    d.converter(in, minus, out, minus, 12, 0.01, 10);
    d.battery(out, minus, 11, 0.01);
    const Solution s = operating_point(d.c);
    ASSERT_TRUE(s.usable);
    EXPECT_EQ(lines(laws_not_met(d.c, s)), "");
    const auto said = verdict(s, VerdictCode::converter_starved);
    ASSERT_TRUE(said);
    EXPECT_EQ(said->subject, (Element{ElementKind::converter, 0}));
    EXPECT_EQ(s.converter_out_A[0], 0);
    EXPECT_EQ(s.battery_A[0], 0);
}

TEST(Verdicts, ConverterThatItsInputCannotFeed) {
    // 12 V behind 0.5 ohm can give 72 W at most, the charger wants 40 A at 13 V or more.
    Draft d;
    const int minus = d.node(), plus = d.node(), in = d.node(), out = d.node();
    d.battery(plus, minus, 12, 0.01);
    d.resistor(plus, in, 0.49);
    d.converter(in, minus, out, minus, 14.4, 0.001, 40);
    d.battery(out, minus, 13, 0.01);
    const Solution s = operating_point(d.c);
    ASSERT_TRUE(s.usable);
    EXPECT_EQ(lines(laws_not_met(d.c, s)), "");
    EXPECT_TRUE(verdict(s, VerdictCode::converter_starved));
    EXPECT_LT(between(s, in, minus), 6);
    EXPECT_EQ(s.converter_mode[0], ConverterMode::input_limited);
    EXPECT_LT(s.converter_out_A[0] * 13, 72);
    EXPECT_GT(s.converter_out_A[0], 0);
}

TEST(Verdicts, NumbersThatAreNone) {
    Draft d;
    const int minus = d.node(), plus = d.node();
    d.battery(plus, minus, std::numeric_limits<double>::quiet_NaN(), 0.01);
    d.ohms(plus, minus, 1);
    const Solution s = operating_point(d.c);
    EXPECT_FALSE(s.usable);
    EXPECT_TRUE(verdict(s, VerdictCode::not_known));
    ASSERT_EQ(s.not_met.size(), 1u);
    EXPECT_EQ(s.not_met[0], "battery 0: emf_V is not a number");
    for (const double v : s.node_V) EXPECT_EQ(v, 0);
    d.c.batteries[0].emf_V = 12;
    d.c.resistors.push_back({});
    d.c.resistors[0].a = 0, d.c.resistors[0].b = 7;
    EXPECT_EQ(operating_point(d.c).not_met, (std::vector<std::string>{"resistor 0: node out of range"}));
}

TEST(Verdicts, ShortedBatteryIsJustACurrent) {
    Draft d;
    const int node = d.node();
    d.battery(node, node, 12, 0.01);
    const Solution s = operating_point(d.c);
    ASSERT_TRUE(s.usable) << lines(s.not_met);
    EXPECT_NEAR(s.battery_A[0], -1200, 1e-9); // 12 V / 10 mOhm
    EXPECT_EQ(lines(laws_not_met(d.c, s)), "");
}

// Twelve loads of 5 A behind one feeder of 60 milliohm on 12 V: 12 - 60·0.06 = 8.4 V at the end, less 5 A
// through a conductor of its own of 1 to 12 milliohm each; all need 11 V. The feeder costs each of them most;
// the greatest power is worked out for the two that get least, those behind 12 and 11 milliohm.
TEST(Verdicts, OfManyStarvedTheGreatestPowerForTheTwoThatGetLeast) {
    Draft d;
    const int plus = d.node(), minus = d.node(), board = d.node();
    d.held(plus, minus, 12);
    const int feeder = d.resistor(plus, board, 60e-3);
    for (int k = 1; k <= 12; ++k) {
        const int end = d.node();
        d.resistor(board, end, k * 1e-3);
        d.load(LoadLaw::current, end, minus, 5, 6, 11);
    }
    const Solution s = operating_point(d.c);
    ASSERT_TRUE(s.usable);
    ASSERT_EQ(s.verdicts.size(), 12u);
    for (std::size_t k = 0; k < 12; ++k) {
        const Verdict& v = s.verdicts[k];
        EXPECT_EQ(v.code, VerdictCode::starved);
        EXPECT_EQ(v.subject, (Element{ElementKind::load, static_cast<int>(k)}));
        EXPECT_NEAR(v.reached_V, 8.4 - 0.005 * static_cast<double>(k + 1), 1e-6);
        EXPECT_EQ(v.limiting, (Element{ElementKind::resistor, feeder})) << k;
        EXPECT_EQ(v.greatest_W.has_value(), k >= 10) << k;
    }
    // The others take 55 A: at 11 V its own 1 A would be (12 - 11 - 55·0.06)/0.072 < 0, so nothing reaches
    // it.
    EXPECT_EQ(*s.verdicts[11].greatest_W, 0);
}

} // namespace
} // namespace fl::test
