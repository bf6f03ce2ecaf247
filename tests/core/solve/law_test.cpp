#include "core/solve/laws.h"

#include <gtest/gtest.h>

#include <cmath>

namespace fl::test {
namespace {

using namespace fl::solve;

TEST(Laws, LoadsBendAtTheKnee) {
    Load l;
    l.law = LoadLaw::power;
    l.value = 60;
    // By hand: 60 W at 12 V is 5 A; at the knee of 10 V 6 A; at half the knee the same 1.667 ohm gives 3 A.
    EXPECT_EQ(load_current(l, 10, 12).amps, 5);
    EXPECT_EQ(load_current(l, 10, 10).amps, 6);
    EXPECT_NEAR(load_current(l, 10, 5).amps, 3, 1e-15);
    EXPECT_EQ(load_current(l, 10, 0).amps, 0);
    l.law = LoadLaw::current;
    l.value = 6;
    EXPECT_EQ(load_current(l, 10, 14).amps, 6);
    EXPECT_NEAR(load_current(l, 10, 5).amps, 3, 1e-15);
    l.law = LoadLaw::resistance;
    l.value = 2;
    EXPECT_EQ(load_current(l, 10, -6).amps, -3);
}

TEST(Laws, BatteryHasTwoSlopes) {
    const Battery b{0, 1, 12.8, 0.01, 0.05, true};
    EXPECT_NEAR(battery_voltage(b, 10).volts, 13.3, 1e-14);  // charging
    EXPECT_NEAR(battery_voltage(b, -10).volts, 12.7, 1e-14); // discharging
    EXPECT_EQ(battery_voltage(b, 0).volts, 12.8);
}

TEST(Laws, RegulatorModes) {
    Regulator r;
    r.set_V = 14.4;
    r.droop_ohm = 0.001;
    r.limit_A = 100;
    EXPECT_EQ(regulator_mode(r, 14.5), RegulatorMode::idle);
    EXPECT_EQ(regulator_mode(r, 14.35), RegulatorMode::regulating); // 50 A
    EXPECT_EQ(regulator_mode(r, 14.2), RegulatorMode::limited);
    // The row is 0 exactly where the law holds.
    EXPECT_NEAR(regulator_row(r, 14.35, 50).volts, 0, 1e-14);
    EXPECT_NEAR(regulator_row(r, 14.2, 100).volts, 0, 1e-14);
    EXPECT_NEAR(regulator_row(r, 14.5, 0).volts, 0, 1e-14);
    EXPECT_GT(std::abs(regulator_row(r, 14.2, 90).volts), 0.01);
    EXPECT_GT(std::abs(regulator_row(r, 14.5, 5).volts), 0.01);
    r.limit_W = 1200; // 80 A at 15 V, more below
    EXPECT_NEAR(regulator_row(r, 12, 100).volts, 0, 1e-14);
    r.limit_W = 600;
    EXPECT_NEAR(regulator_row(r, 12, 50).volts, 0, 1e-14);
}

Converter charger() {
    Converter v;
    v.set_V = 14.4;
    v.droop_ohm = 0.001;
    v.out_limit_A = 40;
    v.in_limit_A = 45;
    v.p0_W = 4;
    v.k1 = 0.05;
    v.k2_ohm = 0.02;
    return v;
}

TEST(Laws, ConverterPowerByHand) {
    const Converter v = charger();
    // 40 A at 13 V: 520 W + 4 + 26 + 32 = 582 W, at 13.5 V 43.111 A.
    const ConverterLaw law = converter_law(v, 6, 13.5, 13, 40);
    EXPECT_NEAR(law.in_A, 582 / 13.5, 1e-12);
    EXPECT_NEAR(law.row.volts, 0, 1e-14);
    EXPECT_EQ(converter_mode(v, 6, 13.5, 13), ConverterMode::output_limited);
    // At 12 V in the input limit leaves 540 W: 0.02·io² + 13.65·io = 536 gives io = 37.236 A.
    EXPECT_EQ(converter_mode(v, 6, 12, 13), ConverterMode::input_limited);
    const double io = (-13.65 + std::sqrt(13.65 * 13.65 + 4 * 0.02 * 536)) / 0.04;
    EXPECT_NEAR(io, 37.236, 0.001);
    EXPECT_NEAR(converter_law(v, 6, 12, 13, io).row.volts, 0, 1e-13);
    EXPECT_NEAR(converter_law(v, 6, 12, 13, io).in_A, 45, 1e-12);
    EXPECT_EQ(converter_mode(v, 6, 12, 14.5), ConverterMode::idle);
    EXPECT_EQ(converter_mode(v, 6, 12, 14.39), ConverterMode::regulating); // 10 A
}

// Every derivative against the slope between two near points, on a grid that meets all pieces.
TEST(Laws, DerivativesAreSlopes) {
    const double h = 1e-6;
    int tried = 0;
    for (double in_V = -1.03; in_V < 16; in_V += 1.31)
        for (double out_V = -0.57; out_V < 15.5; out_V += 0.83)
            for (double amps = -3.1; amps < 50; amps += 6.7)
                for (const bool limited : {false, true}) {
                    Converter v = charger();
                    if (!limited) v.in_limit_A = unlimited;
                    const ConverterLaw law = converter_law(v, 6, in_V, out_V, amps);
                    auto slope = [&](double di, double dout, double da, auto pick) {
                        return (pick(converter_law(v, 6, in_V + di, out_V + dout, amps + da)) -
                                pick(converter_law(v, 6, in_V - di, out_V - dout, amps - da))) /
                               (2 * h);
                    };
                    const auto row = [](const ConverterLaw& l) { return l.row.volts; };
                    const auto in = [](const ConverterLaw& l) { return l.in_A; };
                    const double room = 1e-4;
                    EXPECT_NEAR(law.row_per_in, slope(h, 0, 0, row), room * (1 + std::abs(law.row_per_in)));
                    EXPECT_NEAR(law.row.per_V, slope(0, h, 0, row), room);
                    EXPECT_NEAR(law.row.per_A, slope(0, 0, h, row), room);
                    EXPECT_NEAR(law.in_per_in, slope(h, 0, 0, in), room * (1 + std::abs(law.in_per_in)));
                    EXPECT_NEAR(law.in_per_out, slope(0, h, 0, in), room * (1 + std::abs(law.in_per_out)));
                    EXPECT_NEAR(law.in_per_out_A, slope(0, 0, h, in), room * (1 + law.in_per_out_A));
                    ++tried;
                }
    EXPECT_GT(tried, 2000);
}

TEST(Laws, RegulatorDerivativesAreSlopes) {
    Regulator r;
    r.set_V = 14.4;
    r.droop_ohm = 0.02;
    r.limit_A = 60;
    r.limit_W = 700;
    const double h = 1e-6;
    for (double volts = -1; volts < 16; volts += 0.37)
        for (double amps = -5; amps < 80; amps += 4.3) {
            const SourceRow row = regulator_row(r, volts, amps);
            EXPECT_NEAR(row.per_V,
                        (regulator_row(r, volts + h, amps).volts - regulator_row(r, volts - h, amps).volts) /
                            (2 * h),
                        1e-6);
            EXPECT_NEAR(row.per_A,
                        (regulator_row(r, volts, amps + h).volts - regulator_row(r, volts, amps - h).volts) /
                            (2 * h),
                        1e-6);
        }
}

// No law jumps: across a hair the change is a hair.
TEST(Laws, AreContinuous) {
    const double h = 1e-7;
    for (double in_V = -2; in_V < 16; in_V += 0.0101) {
        const Converter v = charger();
        const ConverterLaw a = converter_law(v, 6, in_V, 12.5, 20),
                           b = converter_law(v, 6, in_V + h, 12.5, 20);
        EXPECT_NEAR(a.in_A, b.in_A, 1e-4) << in_V;
        EXPECT_NEAR(a.row.volts, b.row.volts, 1e-4) << in_V;
        EXPECT_NEAR(standby_current(v, 6, in_V).amps, standby_current(v, 6, in_V + h).amps, 1e-6);
    }
    for (double out_V = -2; out_V < 16; out_V += 0.0101) {
        const Converter v = charger();
        const ConverterLaw a = converter_law(v, 6, 12, out_V, 20), b = converter_law(v, 6, 12, out_V + h, 20);
        EXPECT_NEAR(a.in_A, b.in_A, 1e-4) << out_V;
        EXPECT_NEAR(a.row.volts, b.row.volts, 1e-3) << out_V;
    }
}

} // namespace
} // namespace fl::test
