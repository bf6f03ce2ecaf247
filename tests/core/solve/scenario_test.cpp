#include "core/solve/heat.h"
#include "tests/support/draft.h"

#include <gtest/gtest.h>

#include <cmath>

// Whole situations with numbers worked out by hand in closed form beside the test.
namespace fl::test {
namespace {

using namespace fl::solve;

// IEC 60228 class 5, 20 °C, mOhm per metre.
constexpr double class5_2_5 = 7.98e-3, class5_4 = 4.95e-3, class5_16 = 1.21e-3, class5_25 = 0.780e-3,
                 class5_35 = 0.554e-3;

void expect_laws(const Draft& d, const Solution& s) {
    ASSERT_TRUE(s.usable) << lines(s.not_met);
    EXPECT_EQ(lines(laws_not_met(d.c, s)), "");
}

TEST(OperatingPoint, ResistorDivider) {
    Draft d;
    const int minus = d.node(), plus = d.node(), far = d.node();
    d.battery(plus, minus, 12.6, 0.01);
    d.resistor(plus, far, 0.09);
    d.ohms(far, minus, 1.16);
    const Solution s = operating_point(d.c);
    expect_laws(d, s);
    // By hand: 12.6 V / (0.01 + 0.09 + 1.16) ohm = 10 A.
    EXPECT_NEAR(s.battery_A[0], -10, 1e-9);
    EXPECT_NEAR(s.resistor_A[0], 10, 1e-9);
    EXPECT_NEAR(between(s, far, minus), 11.6, 1e-9);
}

// A fridge at the end of 10 m of "4 mm": constant power behind R, V = (E + sqrt(E² - 4·R·P))/2.
TEST(OperatingPoint, FridgeBehindTenMetres) {
    struct Row {
        double area_mm2, volts;
    };
    // Printed by the case: 4 mm² 11.97 V, 1.84 mm² 11.41 V, 4.59 mm² 12.03 V. Copper 0.017241 ohm·mm²/m,
    // battery 12.4 V behind 6 mOhm (the case's own figures leave the battery's share out: source held).
    for (const Row row : {Row{4, 11.97}, Row{1.84, 11.41}, Row{4.59, 12.03}}) {
        Draft d;
        const int minus = d.node(), plus = d.node(), far = d.node(), back = d.node();
        d.battery(plus, minus, 12.4, 0);
        const double leg = 0.017241 * 10 / row.area_mm2;
        d.resistor(plus, far, leg);
        d.resistor(back, minus, leg);
        d.watts(far, back, 60, 10.7);
        const Solution s = operating_point(d.c);
        expect_laws(d, s);
        EXPECT_NEAR(between(s, far, back), row.volts, 0.005);
        EXPECT_NEAR(between(s, far, back), (12.4 + std::sqrt(12.4 * 12.4 - 4 * 2 * leg * 60)) / 2, 1e-9);
    }
}

// A bilge pump, 10 A, 11 ft of plus and 10 ft of minus: each leg counts once.
TEST(OperatingPoint, UnevenLegs) {
    struct Row {
        double area_mm2, drop_V;
    };
    // Printed by the case: AWG 12 (3.31 mm²) 0.334 V; SAE 12 (2.96 mm²) 0.373 V; SAE 10 (4.73 mm²) 0.233 V.
    for (const Row row : {Row{3.31, 0.334}, Row{2.96, 0.373}, Row{4.73, 0.233}}) {
        Draft d;
        const int minus = d.node(), plus = d.node(), far = d.node(), back = d.node();
        d.held(plus, minus, 12);
        d.resistor(plus, far, 0.017241 * 11 * 0.3048 / row.area_mm2);
        d.resistor(back, minus, 0.017241 * 10 * 0.3048 / row.area_mm2);
        d.amps(far, back, 10, 6);
        const Solution s = operating_point(d.c);
        expect_laws(d, s);
        EXPECT_NEAR(12 - between(s, far, back), row.drop_V, 0.0006);
    }
}

struct Inverter {
    Draft d;
    int far, minus;
    Inverter(double emf_V, double loop_ohm, double battery_ohm, double watts, double knee_V,
             double lowest_V) {
        minus = d.node();
        const int plus = d.node();
        far = d.node();
        d.battery(plus, minus, emf_V, battery_ohm);
        d.resistor(plus, far, loop_ohm);
        d.watts(far, minus, watts, knee_V, lowest_V);
    }
};

// 400 W inverter on ten feet of 10 AWG (20.0 mOhm loop) or 6 AWG (7.9 mOhm), battery 12.5 V behind 5 mOhm.
TEST(OperatingPoint, InverterOnThinWire) {
    struct Row {
        double loop_ohm, watts, volts, amps;
    };
    // Printed by the case.
    for (const Row row : {Row{20.0e-3, 400 / 0.88, 11.51, 39.5}, Row{7.9e-3, 400 / 0.88, 12.01, 37.8},
                          Row{20.0e-3, 800 / 0.88, 10.29, 88.3}, Row{7.9e-3, 800 / 0.88, 11.48, 79.2}}) {
        const Inverter v(12.5, row.loop_ohm, 5e-3, row.watts, 7.2, 10);
        const Solution s = operating_point(v.d.c);
        expect_laws(v.d, s);
        EXPECT_NEAR(between(s, v.far, v.minus), row.volts, 0.006);
        EXPECT_NEAR(s.load_A[0], row.amps, 0.06);
        EXPECT_TRUE(s.verdicts.empty());
    }
}

// The same where the loop is 50 mOhm in all: 909 W has no solution, the most is Voc²/4R = 781 W.
TEST(OperatingPoint, MoreThanCanBeDelivered) {
    const Inverter v(12.5, 50e-3, 0, 800 / 0.88, 5, 5);
    const Solution s = operating_point(v.d.c);
    expect_laws(v.d, s);
    const auto starved = verdict(s, VerdictCode::starved);
    ASSERT_TRUE(starved);
    EXPECT_EQ(starved->subject, (Element{ElementKind::load, 0}));
    ASSERT_TRUE(starved->greatest_W);
    EXPECT_NEAR(*starved->greatest_W, 12.5 * 12.5 / (4 * 50e-3), 1e-3); // 781.25 W
    EXPECT_EQ(starved->limiting, (Element{ElementKind::resistor, 0}));
    // Never the lower root: the load stands on the resistance that takes 909.09 W at its knee. The knee is
    // half of the no-load voltage, 6.25 V: 42.97 mOhm; 12.5·42.97/(42.97 + 50) = 5.777 V.
    EXPECT_EQ(s.load_mode[0], LoadMode::below_knee);
    EXPECT_NEAR(between(s, v.far, v.minus), 5.777, 0.001);
}

// With a lowest working voltage above the fold that is what ends it: V·(E - V)/R at 10 V = 500 W.
TEST(OperatingPoint, GreatestPowerBeforeLowestVoltage) {
    const Inverter v(12.5, 50e-3, 0, 800 / 0.88, 10, 10);
    const Solution s = operating_point(v.d.c);
    expect_laws(v.d, s);
    const auto starved = verdict(s, VerdictCode::starved);
    ASSERT_TRUE(starved && starved->greatest_W);
    EXPECT_NEAR(*starved->greatest_W, 10 * 2.5 / 50e-3, 1e-3);
}

// Charger input: bus held, 60 A charger at 14.2 V, efficiency 0.90; 5.5 + 0.4 m of 16 mm² (35 mm²), body 1.5,
// six joints 0.1, fuse 0.5 mOhm.
TEST(OperatingPoint, ChargerInput) {
    struct Row {
        double ohm_m, out_A, bus_V, in_A, at_charger_V;
    };
    // Printed by the scenario.
    for (const Row row : {Row{class5_16, 30, 12.0, 40.8, 0}, Row{class5_16, 30, 12.2, 40.1, 11.81},
                          Row{class5_16, 30, 14.4, 33.6, 0}, Row{class5_16, 60, 12.0, 84.7, 0},
                          Row{class5_16, 60, 12.2, 83.1, 11.39}, Row{class5_16, 60, 14.4, 69.0, 0},
                          Row{class5_35, 60, 12.2, 80.7, 11.73}}) {
        Draft d;
        const int minus = d.node(), bus = d.node(), in = d.node(), out = d.node();
        d.held(bus, minus, row.bus_V);
        d.resistor(bus, in, row.ohm_m * 5.9 + 2.6e-3);
        // Output power 14.2 V·I over 0.90; the battery takes it all at 14.2 V, well below the set 14.6 V.
        Converter& v = d.converter(in, minus, out, minus, 14.6, 0.001, row.out_A);
        v.k1 = 1 / 0.90 - 1;
        d.held(out, minus, 14.2);
        const Solution s = operating_point(d.c);
        expect_laws(d, s);
        EXPECT_EQ(s.converter_mode[0], ConverterMode::output_limited);
        EXPECT_NEAR(s.converter_in_A[0], row.in_A, 0.06);
        const double R = row.ohm_m * 5.9 + 2.6e-3, P = 14.2 * row.out_A / 0.9, E = row.bus_V;
        EXPECT_NEAR(between(s, in, minus), (E + std::sqrt(E * E - 4 * R * P)) / 2, 1e-9);
        if (row.at_charger_V > 0) {
            EXPECT_NEAR(between(s, in, minus), row.at_charger_V, 0.006);
        }
    }
}

// Emergency link: starter bank 11.2 V, 12 mOhm; service 12.6 V, 1.8 mOhm; link 1.45 mOhm; starter 21 mOhm.
TEST(OperatingPoint, EmergencyLink) {
    for (const bool cranking : {false, true}) {
        Draft d;
        const int minus = d.node(), starter = d.node(), service = d.node();
        d.battery(starter, minus, 11.2, 0.012);
        d.battery(service, minus, 12.6, 0.0018);
        const int link = d.resistor(service, starter, 0.00145);
        d.ohms(starter, minus, 0.021);
        d.c.loads[0].on = cranking;
        const Solution s = operating_point(d.c);
        expect_laws(d, s);
        const double through = s.resistor_A[static_cast<std::size_t>(link)];
        if (cranking) { // printed by the scenario: 10.97 V, 522 A, 503 A through the link, 19 A of its own
            EXPECT_NEAR(between(s, starter, minus), 10.97, 0.005);
            EXPECT_NEAR(s.load_A[0], 522, 0.6);
            EXPECT_NEAR(through, 503, 0.6);
            EXPECT_NEAR(-s.battery_A[0], 19, 0.6);
        } else { // by hand: 1.4 V / 15.25 mOhm = 91.8 A into the flat one
            EXPECT_NEAR(through, 1.4 / 0.01525, 1e-6);
            EXPECT_NEAR(s.battery_A[0], 1.4 / 0.01525, 1e-6);
        }
    }
    Draft alone; // printed: without the link 7.1 V, 339 A
    const int minus = alone.node(), plus = alone.node();
    alone.battery(plus, minus, 11.2, 0.012);
    alone.ohms(plus, minus, 0.021);
    const Solution s = operating_point(alone.c);
    EXPECT_NEAR(between(s, plus, minus), 7.13, 0.01);
    EXPECT_NEAR(s.load_A[0], 339.4, 0.1);
}

// Bow board: 12.5 V, 1.5 mOhm; feeder 15 m each way; joints 0.4, fuse 1.6, switch 0.2 mOhm; fridge 60 W and
// lamp 2.618 ohm on 2 m of branch cable each, pump 6 A, 20 W at the board.
TEST(OperatingPoint, BowBoard) {
    struct Row {
        double feeder, branch, board_V, fridge_V;
    };
    // Printed by the scenario, 0.02 V; drop of the fourth row 4.5 % of 12 V from the battery's terminals.
    for (const Row row : {Row{class5_16, class5_2_5, 11.81, 11.64}, Row{class5_25, class5_2_5, 12.03, 11.87},
                          Row{class5_35, class5_2_5, 12.15, 11.99}, Row{class5_25, class5_4, 12.03, 0}}) {
        Draft d;
        const int minus = d.node(), plus = d.node(), board = d.node(), back = d.node();
        d.battery(plus, minus, 12.5, 1.5e-3);
        d.resistor(plus, board, row.feeder * 15 + 2.2e-3);
        d.resistor(back, minus, row.feeder * 15);
        const int fridge = d.node(), fridge_back = d.node(), lamp = d.node(), lamp_back = d.node();
        d.resistor(board, fridge, row.branch * 2);
        d.resistor(fridge_back, back, row.branch * 2);
        d.resistor(board, lamp, class5_2_5 * 2);
        d.resistor(lamp_back, back, class5_2_5 * 2);
        d.watts(fridge, fridge_back, 60, 10);
        d.ohms(lamp, lamp_back, 2.618);
        d.amps(board, back, 6, 7.2);
        d.watts(board, back, 20, 7.2);
        const Solution s = operating_point(d.c);
        expect_laws(d, s);
        EXPECT_NEAR(between(s, board, back), row.board_V, 0.01);
        if (row.fridge_V > 0)
            EXPECT_NEAR(between(s, fridge, fridge_back), row.fridge_V, 0.01);
        else
            EXPECT_NEAR((between(s, plus, minus) - between(s, fridge, fridge_back)) / 0.12, 4.5, 0.05);
    }
}

// Lithium pack 13.1 V, 8 mOhm; leads 35 mm², inverter leads 35 mm², 18 A of other loads.
TEST(OperatingPoint, PackInverterShunt) {
    struct Row {
        double watts, amps, inverter_V;
    };
    // Printed: running 114 A, 11.81 V; surge 247 A, 10.3 V; 800 W: 93 A.
    for (const Row row :
         {Row{1000 / 0.88, 114, 11.81}, Row{2000 / 0.85, 247, 10.3}, Row{800 / 0.88, 93, 0}}) {
        Draft d;
        const int minus = d.node(), plus = d.node(), bar = d.node(), inverter = d.node();
        d.battery(plus, minus, 13.1, 8e-3);
        // 2 x 0.5 m, fuse 0.35, switch 0.2, joints 0.8, shunt 0.1 mOhm.
        d.resistor(plus, bar, class5_35 * 1.0 + 1.45e-3);
        d.resistor(bar, inverter, class5_35 * 2.0 + 0.4e-3);
        d.watts(inverter, minus, row.watts, 7.2, 10.5);
        d.amps(bar, minus, 18, 7.2);
        const Solution s = operating_point(d.c);
        expect_laws(d, s);
        EXPECT_NEAR(-s.battery_A[0], row.amps, 0.6);
        if (row.inverter_V > 0) {
            EXPECT_NEAR(between(s, inverter, minus), row.inverter_V, 0.05);
        }
        EXPECT_EQ(verdict(s, VerdictCode::starved).has_value(), row.watts > 2000);
    }
}

} // namespace
} // namespace fl::test
