#include "core/solve/heat.h"
#include "tests/support/draft.h"

#include <gtest/gtest.h>

#include <cmath>

namespace fl::test {
namespace {

using namespace fl::solve;

constexpr Thermal pvc{.ambient_C = 30, .rated_A = 60, .reference_C = 30, .limit_C = 70};

TEST(Heat, RatedCurrentAtReferenceReachesTheLimit) {
    EXPECT_NEAR(*steady_C(pvc, 60), 70, 1e-12);
    EXPECT_NEAR(*steady_C(pvc, -60), 70, 1e-12);
    EXPECT_EQ(*steady_C(pvc, 0), 30);
}

TEST(Heat, HalfCurrentByHand) {
    // q = 1/4: dT = 40/4·264.5/(304.5 - 10) = 8.981 K.
    EXPECT_NEAR(*steady_C(pvc, 30), 38.981, 0.001);
    // The balance it stands for: heat ~ I²·(234.5 + T), cooling ~ T - Ta; ratio to the rated state.
    const double T = *steady_C(pvc, 30);
    EXPECT_NEAR(0.25 * (234.5 + T) / 304.5, (T - 30) / 40, 1e-12);
}

TEST(Heat, NoSteadyTemperature) {
    // 304.5 - 40·q = 0 at q = 7.6125: I = 60·sqrt(7.6125) = 165.54 A.
    EXPECT_TRUE(steady_C(pvc, 165.5).has_value());
    EXPECT_FALSE(steady_C(pvc, 165.6).has_value());
    EXPECT_TRUE(warm(pvc, 165.6).beyond);
    EXPECT_EQ(warm(pvc, 165.6).copper_C, 70);
    // Above the limit and still steady: no verdict, but the resistance is taken at the limit all the same.
    EXPECT_FALSE(warm(pvc, 100).beyond);
    EXPECT_EQ(warm(pvc, 100).copper_C, 70);
    EXPECT_GT(*steady_C(pvc, 100), 70);
}

TEST(Heat, AmbientAboveTheLimitStays) {
    Thermal hot = pvc;
    hot.ambient_C = 85;
    EXPECT_EQ(warm(hot, 0).copper_C, 85);
    EXPECT_EQ(warm(hot, 40).copper_C, 85);
}

TEST(Heat, UnknownRatingIsTheAmbient) {
    Thermal unknown = pvc;
    unknown.rated_A = 0;
    unknown.ambient_C = 41;
    EXPECT_EQ(warm(unknown, 500).copper_C, 41);
    EXPECT_FALSE(warm(unknown, 500).beyond);
}

TEST(Heat, DerivativeIsTheSlope) {
    for (double amps = -59; amps < 60; amps += 7) {
        const double h = 1e-5;
        const double slope = (warm(pvc, amps + h).copper_C - warm(pvc, amps - h).copper_C) / (2 * h);
        EXPECT_NEAR(warm(pvc, amps).per_A, slope, 1e-6) << amps;
    }
}

TEST(Heat, CopperByTheStandardsLine) {
    // 1/254.5 per kelvin at 20 °C: 3.08 mOhm/m (6 mm²) at 70 °C is 3.08·304.5/254.5 = 3.6851.
    EXPECT_NEAR(copper_ohm(3.08e-3, 70), 3.6851e-3, 1e-7);
    EXPECT_EQ(copper_ohm(3.08e-3, 20), 3.08e-3);
}

// Temperature and current found together: a constant-current load at the cable's rating.
TEST(Heat, SolvedWithTheCurrent) {
    Draft d;
    const int minus = d.node(), plus = d.node(), far = d.node();
    d.battery(plus, minus, 13, 0.01);
    d.warming(plus, far, 3.08e-3, pvc, 0.4e-3);
    d.amps(far, minus, 60, 6);
    const Solution s = operating_point(d.c);
    ASSERT_TRUE(s.usable) << lines(s.not_met);
    EXPECT_NEAR(s.resistor_C[0], 70, 1e-9);
    // By hand: 60 A·(3.6851 + 0.4) mOhm = 245.1 mV.
    EXPECT_NEAR(between(s, plus, far), 0.2451, 0.0001);
    EXPECT_FALSE(verdict(s, VerdictCode::too_hot));
}

TEST(Heat, TooHotIsSaid) {
    Draft d;
    const int minus = d.node(), plus = d.node(), far = d.node();
    d.battery(plus, minus, 13, 0.01);
    d.warming(plus, far, 3.08e-3, pvc);
    d.amps(far, minus, 170, 6);
    const Solution s = operating_point(d.c);
    ASSERT_TRUE(s.usable) << lines(s.not_met);
    const auto said = verdict(s, VerdictCode::too_hot);
    ASSERT_TRUE(said);
    EXPECT_EQ(said->subject, (Element{ElementKind::resistor, 0}));
    EXPECT_EQ(s.resistor_C[0], 70);
    EXPECT_NEAR(between(s, plus, far), 170 * 3.6851e-3, 1e-4);
}

} // namespace
} // namespace fl::test
