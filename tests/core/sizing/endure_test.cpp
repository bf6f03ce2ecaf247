#include "core/sizing/endure.h"
#include "tests/support/property.h"

#include <gtest/gtest.h>

#include <cmath>

using namespace fl;
using namespace fl::literals;

namespace {

/// PVC in the multicore column of DIN VDE 0298-4 Table 11 at its own 30 °C.
catalogue::Lie pvc() {
    catalogue::Lie lie;
    lie.insulation = catalogue::insulation("PVC70");
    lie.table = catalogue::ampacity_table("vde0298-4-t11/multicore");
    lie.ambient = Temperature::celsius(30);
    return lie;
}

double seconds(double mm2, double ampere) {
    return sizing::endures(WireSize::mm2(mm2), pvc(), Current::si(ampere))->si();
}

TEST(Endures, WithoutCoolingUpToFiveSeconds) {
    // (115 · 16 / 1 261)² = 2.13 s
    EXPECT_NEAR(seconds(16, 1261), 2.129, 0.001);
    // (115 · 1.5 / 163)² = 1.12 s
    EXPECT_NEAR(seconds(1.5, 163), 1.120, 0.001);
}

TEST(Endures, ForGoodWhatTheTableAllows) {
    EXPECT_TRUE(std::isinf(seconds(6, 44)));
    EXPECT_TRUE(std::isinf(seconds(6, 0)));
}

TEST(Endures, LongerWithItsHeatLeaving) {
    // 70 A on 6 mm² of 44 A: 40 · 2.531 · 264.5 / (304.5 - 101.2) = 131.7 K in the end, time constant
    // (115 · 6 / 44)² · 40/90 = 109.3 s; 84 K (30 + 2.1 · 40 - 30) after -109.3 · ln(1 - 84/131.7) = 111 s.
    EXPECT_NEAR(seconds(6, 70), 111, 1);
    // 100 A: (115 · 6 / 100)² = 47.6 s heat it by 90 K, so the 130 K to the short-circuit limit take 69 s at
    // least, the 84 K 44 s: a minute is what it may be above that.
    EXPECT_NEAR(seconds(6, 100), 60, 0.1);
    // At 600 A on 70 mm² of 207 A no temperature is steady: (115 · 70 / 600)² = 180 s
    // heat it by 90 K, so 168 s by the 84 K that it may have for longer than a minute.
    EXPECT_NEAR(seconds(70, 600), 168, 0.1);
}

TEST(Endures, LessTheMoreItCarriesAndTheThinnerItIs) {
    fl::test::property(1000, [] {
        const double sizes[] = {1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70};
        const int i = *rc::gen::inRange(0, 9);
        const double ampere = 0.1 * *rc::gen::inRange(10, 30000);
        const double here = seconds(sizes[i], ampere);
        RC_ASSERT(seconds(sizes[i], ampere * 1.01) <= here);
        RC_ASSERT(seconds(sizes[i + 1], ampere) >= here);
    });
}

} // namespace
