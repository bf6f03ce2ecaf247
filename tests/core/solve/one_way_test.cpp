#include "core/solve/solution.h"
#include "tests/support/draft.h"

#include <gtest/gtest.h>

// What passes current one way only, folds back or shares a limit. Expected numbers by hand.
namespace fl::test {
namespace {

using namespace fl::solve;

void holds(const Circuit& c, const Solution& s) {
    EXPECT_TRUE(s.usable);
    for (const std::string& law : laws_not_met(c, s)) ADD_FAILURE() << law;
}

TEST(OneWay, diode_drops_its_voltage_and_blocks_the_other_way) {
    for (const bool turned : {false, true}) {
        Draft d;
        const int plus = d.node(), minus = d.node(), load = d.node();
        d.battery(plus, minus, 12.6, 10e-3);
        d.diode(turned ? load : plus, turned ? plus : load, 0.7, 1e-3);
        d.ohms(load, minus, 1.179);
        const Solution s = operating_point(d.c);
        holds(d.c, s);
        // (12.6 V - 0.7 V) / (10 mΩ + 1 mΩ + 1.179 Ω) = 10 A
        EXPECT_NEAR(s.load_A[0], turned ? 0 : 10, 1e-9);
        EXPECT_NEAR(s.diode_A[0], s.load_A[0], 1e-9);
    }
}

TEST(OneWay, isolator_keeps_a_flat_battery_from_emptying_a_full_one) {
    for (const bool turning : {false, true}) {
        Draft d;
        const int bar = d.node(), minus = d.node(), one = d.node(), two = d.node();
        d.regulator(bar, minus, 14.4, 1e-3, 100);
        d.c.regulators[0].on = turning;
        d.diode(bar, one, 0.7, 2e-3);
        d.diode(bar, two, 0.7, 2e-3);
        d.battery(one, minus, 13.0, 10e-3);
        d.battery(two, minus, 12.0, 10e-3);
        const Solution s = operating_point(d.c);
        holds(d.c, s);
        if (!turning) {
            EXPECT_EQ(s.battery_A[0], 0);
            EXPECT_EQ(s.battery_A[1], 0);
            continue;
        }
        // U at the bar by U - 14.4 = -1 mΩ · I, I = (U - 13.7)/12 mΩ + (U - 12.7)/12 mΩ:
        // I = (2·14.4 - 26.4)/(12 mΩ + 2 mΩ) = 171 A is above 100 A, so the limit holds:
        // U = (100 A · 12 mΩ + 26.4)/2 = 13.8 V; 0.1/0.012 and 1.1/0.012.
        EXPECT_NEAR(s.battery_A[0], 0.1 / 0.012, 1e-6);
        EXPECT_NEAR(s.battery_A[1], 1.1 / 0.012, 1e-6);
        EXPECT_EQ(s.regulator_mode[0], RegulatorMode::limited);
    }
}

TEST(OneWay, battery_that_may_not_be_charged_leaves_the_bus_to_its_charger) {
    Draft d;
    const int plus = d.node(), minus = d.node();
    d.battery(plus, minus, 13.2, 5e-3);
    d.c.batteries[0].may_charge = false;
    d.regulator(plus, minus, 14.2, 1e-3, 30);
    d.amps(plus, minus, 20, 9);
    Solution s = operating_point(d.c);
    holds(d.c, s);
    EXPECT_EQ(s.battery_A[0], 0);
    EXPECT_NEAR(s.regulator_A[0], 20, 1e-9);
    EXPECT_NEAR(between(s, plus, minus), 14.2 - 0.02, 1e-9);
    // With more asked than the charger gives it helps: 40 A - 30 A, at 13.2 V - 10 A · 5 mΩ.
    d.c.loads[0].value = 40;
    s = operating_point(d.c);
    holds(d.c, s);
    EXPECT_NEAR(s.battery_A[0], -10, 1e-9);
    EXPECT_NEAR(between(s, plus, minus), 13.15, 1e-9);
}

TEST(OneWay, battery_that_may_not_discharge_is_dead_alone_and_charges_from_outside) {
    Draft d;
    const int plus = d.node(), minus = d.node();
    d.battery(plus, minus, 12.8, 5e-3);
    d.c.batteries[0].may_discharge = false;
    d.watts(plus, minus, 60, 9);
    Solution s = operating_point(d.c);
    holds(d.c, s);
    EXPECT_TRUE(verdict(s, VerdictCode::dead));
    EXPECT_EQ(s.load_A[0], 0);
    EXPECT_EQ(between(s, plus, minus), 0);
    // A 20 A charger feeds the load and charges with the rest: 12.8 + 5 mΩ · (20 - 60/U) = U.
    d.regulator(plus, minus, 14.4, 1e-3, 20);
    s = operating_point(d.c);
    holds(d.c, s);
    const double u = between(s, plus, minus);
    EXPECT_NEAR(u, 12.8 + 5e-3 * (20 - 60 / u), 1e-9);
    EXPECT_NEAR(s.battery_A[0], 20 - 60 / u, 1e-9);
    EXPECT_GT(s.battery_A[0], 15);
}

TEST(OneWay, unit_shares_its_limit_sun_first) {
    Draft d;
    const int in = d.node(), minus = d.node(), out = d.node();
    d.battery(in, minus, 12.7, 5e-3);
    d.battery(out, minus, 12.5, 10e-3);
    d.regulator(out, minus, 14.4, 14.4e-3 / 10, 10); // the sun gives 10 A
    Converter& v = d.converter(in, minus, out, minus, 14.4, 14.4e-3 / 30, 30);
    v.k1 = 0.1;
    d.c.regulators[0].shared = v.shared = 0;
    d.c.shared_limit_A = {30};
    Solution s = operating_point(d.c);
    holds(d.c, s);
    EXPECT_NEAR(s.regulator_A[0], 10, 1e-9);
    EXPECT_NEAR(s.converter_out_A[0], 20, 1e-9); // not 30
    EXPECT_EQ(s.converter_mode[0], ConverterMode::output_limited);
    EXPECT_NEAR(s.battery_A[1], 30, 1e-9); // at 12.8 V
    d.c.regulators[0].on = false;          // at night the charger has all of it
    s = operating_point(d.c);
    holds(d.c, s);
    EXPECT_NEAR(s.converter_out_A[0], 30, 1e-9);
    d.c.regulators[0].on = true;
    d.c.shared_limit_A = {8}; // less than the sun alone
    s = operating_point(d.c);
    holds(d.c, s);
    EXPECT_NEAR(s.regulator_A[0], 8, 1e-9);
    EXPECT_NEAR(s.converter_out_A[0], 0, 1e-9);
}

TEST(OneWay, converter_folds_back_into_a_short) {
    Draft d;
    const int in = d.node(), minus = d.node(), out = d.node();
    d.battery(in, minus, 26, 10e-3);
    Converter& v = d.converter(in, minus, out, minus, 13.8, 13.8e-3 / 20, 24);
    v.fold_share = 0.3;
    v.k1 = 0.1;
    d.ohms(out, minus, 0.1);
    const Solution s = operating_point(d.c);
    holds(d.c, s);
    // i = 24 A · (0.3 + 0.7 · 0.1 Ω · i/13.8 V) = 7.2 A/(1 - 24 · 0.7 · 0.1/13.8) = 8.1980 A
    EXPECT_NEAR(s.converter_out_A[0], 7.2 / (1 - 24 * 0.7 * 0.1 / 13.8), 1e-8);
    EXPECT_EQ(s.converter_mode[0], ConverterMode::output_limited);
}

TEST(OneWay, numbers_without_a_law_are_refused) {
    Draft d;
    const int a = d.node(), b = d.node();
    d.battery(a, b, 12, 0);
    d.c.batteries[0].may_charge = false;
    d.diode(a, b, 0.7, 0);
    d.c.shared_limit_A = {-1};
    const Solution s = operating_point(d.c);
    EXPECT_FALSE(s.usable);
    EXPECT_EQ(s.not_met.size(), 3u);
}

} // namespace
} // namespace fl::test
