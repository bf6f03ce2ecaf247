#include "tests/support/draft.h"
#include "tests/support/property.h"
#include "tests/support/random_circuit.h"

#include <gtest/gtest.h>

#include <cmath>

namespace fl::test {
namespace {

using namespace fl::solve;

TEST(ResistanceBetween, BatteryFeederAndLoad) {
    Draft d;
    const int minus = d.node(), plus = d.node(), far = d.node();
    d.battery(plus, minus, 12, 0.01);
    d.resistor(plus, far, 0.03);
    d.ohms(far, minus, 0.36);
    const Solution s = operating_point(d.c);
    // By hand: 0.36 ohm beside 0.04 ohm = 0.036 ohm; the bar between plus and far: 0.03 beside 0.37.
    EXPECT_NEAR(*resistance_between(d.c, s, far, minus), 0.036, 1e-12);
    EXPECT_NEAR(*resistance_between(d.c, s, minus, far), 0.036, 1e-12);
    EXPECT_NEAR(*resistance_between(d.c, s, plus, far), 0.03 * 0.37 / 0.40, 1e-12);
    EXPECT_EQ(*resistance_between(d.c, s, far, far), 0);
}

TEST(ResistanceBetween, SourcesByWhatTheyDo) {
    Draft d;
    const int minus = d.node(), plus = d.node();
    d.battery(plus, minus, 13.0, 0.01, 0.04);
    d.regulator(plus, minus, 14.4, 0.002, 20);
    Solution s = operating_point(d.c);
    // Limited to 20 A: it doesn't count; the battery charges (13.8 V) behind 40 mOhm.
    EXPECT_EQ(s.regulator_mode[0], RegulatorMode::limited);
    EXPECT_NEAR(*resistance_between(d.c, s, plus, minus), 0.04, 1e-12);
    d.c.regulators[0].limit_A = 200; // regulating now: 2 mOhm beside 40
    s = operating_point(d.c);
    EXPECT_EQ(s.regulator_mode[0], RegulatorMode::regulating);
    EXPECT_NEAR(*resistance_between(d.c, s, plus, minus), 0.002 * 0.04 / 0.042, 1e-12);
}

TEST(ResistanceBetween, DifferentIslandsHaveNone) {
    Draft d;
    const int minus = d.node(), plus = d.node(), a = d.node(), b = d.node();
    d.battery(plus, minus, 12, 0.01);
    d.battery(a, b, 12, 0.01);
    const Solution s = operating_point(d.c);
    EXPECT_FALSE(resistance_between(d.c, s, plus, a));
    EXPECT_FALSE(resistance_between(d.c, s, plus, 99));
    EXPECT_FALSE(resistance_between(d.c, s, -1, plus));
    EXPECT_TRUE(resistance_between(d.c, s, a, b));
    EXPECT_FALSE(resistance_between(d.c, Solution{}, a, b));
}

TEST(ResistanceBetween, DeadPartsHaveTheirOwn) {
    Draft d;
    const int minus = d.node(), plus = d.node(), far = d.node();
    d.battery(plus, minus, 12, 0.01);
    d.ohms(far, minus, 3); // nothing feeds it
    const Solution s = operating_point(d.c);
    EXPECT_NEAR(*resistance_between(d.c, s, far, minus), 3, 1e-12);
    EXPECT_NEAR(*resistance_between(d.c, s, far, plus), 3.01, 1e-12);
}

// Against the slope of the operating point itself: a milliampere more, and the voltage falls by R times that.
TEST(ResistanceBetween, IsTheSlopeOfTheOperatingPoint) {
    const int count = deep(500);
    int compared = 0, negative = 0, corners = 0;
    for (int seed = 0; seed < count; ++seed) {
        Circuit c = random_circuit(static_cast<std::uint32_t>(seed) + 500000u, 20);
        if (c.loads.empty()) continue;
        for (Resistor& r : c.resistors) r.thermal.reset(); // frozen in one, warming in the other
        const int a = c.loads[0].plus, b = c.loads[0].minus;
        Load extra;
        extra.plus = a, extra.minus = b, extra.law = LoadLaw::current, extra.value = 0.01, extra.knee_V = 1;
        c.loads.push_back(extra);
        const Solution s = operating_point(c);
        const auto ohm = resistance_between(c, s, a, b);
        if (!s.usable || !ohm || between(s, a, b) < 4 || *ohm > 10) continue;
        const double more = 0.001;
        c.loads.back().value += more;
        const Solution t = operating_point(c);
        // Below its knee it takes but a part of the milliampere.
        if (s.load_mode.back() != LoadMode::as_rated) continue;
        if (!t.usable || t.load_mode != s.load_mode || t.regulator_mode != s.regulator_mode ||
            t.converter_mode != s.converter_mode)
            continue;
        bool turned = false; // a battery that turns round changes its slope
        for (std::size_t k = 0; k < s.battery_A.size(); ++k)
            turned =
                turned || (s.battery_A[k] > 0) != (t.battery_A[k] > 0) || std::abs(s.battery_A[k]) < 0.02;
        if (turned) continue;
        const double slope = (between(s, a, b) - between(t, a, b)) / more;
        // Where something is just at a corner of its law there is one slope to each side, and no resistance.
        c.loads.back().value -= 2 * more;
        const double before = (between(operating_point(c), a, b) - between(s, a, b)) / more;
        if (std::abs(before - slope) > 1e-6 + 1e-3 * std::abs(slope)) {
            ++corners;
            continue;
        }
        EXPECT_NEAR(*ohm, slope, 1e-6 + 1e-3 * std::abs(slope)) << "seed " << seed + 500000;
        ++compared;
        negative += *ohm < 0;
    }
    say_ran(compared);
    EXPECT_GT(compared, count / 3);
    EXPECT_LE(corners, count / 50);
}

} // namespace
} // namespace fl::test
