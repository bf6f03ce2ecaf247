#include "core/protect/curve.h"
#include "core/quantity/unit.h"

#include <gtest/gtest.h>

#include <cmath>

using namespace fl;
using namespace fl::literals;
using namespace fl::protect;

namespace {

catalogue::FuseType type_of(std::vector<catalogue::Gate> gates) {
    catalogue::FuseType t;
    t.voltage = 58_V;
    t.gates = std::move(gates);
    return t;
}

// Gates typed from the published extracts: ISO 8820-3 types C and F (sheets that declare conformity; 3.5 and
// 6.0 from memory), type E as DIN 72581-3 form E, ISO 8820-5 SF 51 family 1 and SF 30 family 2 (from memory).
const auto blade = type_of({{1.1, 360000_s, {}},
                            {1.35, 0.75_s, 600_s},
                            {2.0, 0.15_s, 5_s},
                            {3.5, 0.04_s, 0.5_s},
                            {6.0, 0.02_s, 0.1_s}});
const auto large = type_of(
    {{1.0, 360000_s, {}}, {1.35, 60_s, 1800_s}, {2.0, 2_s, 60_s}, {3.5, 0.2_s, 7_s}, {6.0, 0.04_s, 1_s}});
const auto strip51 = type_of(
    {{1.0, 14400_s, {}}, {1.35, 120_s, 1800_s}, {2.0, 1_s, 15_s}, {3.5, 0.3_s, 5_s}, {5.0, 0.1_s, 1_s}});
const auto strip30 = type_of(
    {{1.1, 14400_s, {}}, {1.5, 90_s, 3600_s}, {2.0, 3_s, 100_s}, {3.0, 0.3_s, 3_s}, {5.0, 0.1_s, 1_s}});

TEST(Curve, MeetsEveryGateAtItsMultiple) {
    for (const auto* type : {&blade, &large, &strip51, &strip30})
        for (const auto& gate : type->gates)
            for (const double rating : {7.5, 15.0, 70.0, 100.0, 125.0}) { // multiples that are not exact too
                const auto o = opening(*type, Current::si(rating), Current::si(rating * gate.multiple));
                ASSERT_TRUE(o.least);
                EXPECT_NEAR(o.least->si() / gate.least->si(), 1, 1e-5) << rating << " x " << gate.multiple;
                ASSERT_EQ(bool(o.greatest), bool(gate.greatest)) << rating << " x " << gate.multiple;
                if (gate.greatest) {
                    EXPECT_NEAR(o.greatest->si() / gate.greatest->si(), 1, 1e-5);
                }
            }
}

// A converter at its limit of 24 A and blade links of 5, 7.5, 10, 15 A: 4.8, 3.2, 2.4 and 1.6 times rating.
// By hand on the gates of types C and F, log-log:
//   4.8: 0.04 (0.02/0.04)^u, u = ln(4.8/3.5)/ln(6/3.5) = 0.5861: 0.0266 s; 0.5 (0.1/0.5)^u = 0.195 s
//   3.2: u = ln(3.2/2)/ln(3.5/2) = 0.8399: 0.15 (0.04/0.15)^u = 0.0494 s; 5 (0.5/5)^u = 0.723 s
//   2.4: u = ln(1.2)/ln(1.75) = 0.3258: 0.0975 s; 2.361 s
TEST(Curve, BetweenGatesLogLog) {
    const auto check = [](double rating, double least, double greatest) {
        const auto o = opening(blade, Current::si(rating), 24_A);
        ASSERT_TRUE(o.least && o.greatest);
        EXPECT_NEAR(o.least->si(), least, least * 0.005);
        EXPECT_NEAR(o.greatest->si(), greatest, greatest * 0.005);
    };
    check(5, 0.0266, 0.195);
    check(7.5, 0.0494, 0.723);
    check(10, 0.0975, 2.361);
}

// A winch of 350 A behind strip links of 250 and 300 A, by hand:
//   1.40: 120 (1/120)^u, u = ln(1.4/1.35)/ln(2/1.35) = 0.0925: 77 s at the earliest
//   1.167: 14400 (120/14400)^u, u = ln(1.1667)/ln(1.35) = 0.5137: at least 1230 s; need not open
TEST(Curve, RidesThroughAWinch) {
    const auto small = opening(strip51, 250_A, 350_A), right = opening(strip51, 300_A, 350_A);
    EXPECT_NEAR(small.least->si(), 77, 1);
    EXPECT_NEAR(right.least->si(), 1230, 10);
    EXPECT_FALSE(right.greatest);
    EXPECT_TRUE(small.greatest);
}

TEST(Curve, BeyondTheLastGateKeepsItsJouleIntegral) {
    // 12 times rating is twice the last gate: a quarter of its times.
    const auto o = opening(blade, 10_A, 120_A);
    EXPECT_NEAR(o.least->si(), 0.005, 1e-12);
    EXPECT_NEAR(o.greatest->si(), 0.025, 1e-12);
}

TEST(Curve, BelowTheFirstGateItNeedNotOpen) {
    const auto o = opening(blade, 50_A, 44_A); // a charger at its limit through a 50 A link
    EXPECT_FALSE(o.greatest);
    EXPECT_EQ(o.least, 360000_s);
    const auto between = opening(blade, 10_A, 12_A);
    EXPECT_FALSE(between.greatest) << "above 1.1 times, not yet 1.35";
    EXPECT_LT(*between.least, 360000_s);
    EXPECT_FALSE(opening(blade, 0_A, 12_A).least);
    EXPECT_FALSE(opening(blade, 10_A, 0_A).least);
    EXPECT_FALSE(opening(type_of({}), 10_A, 50_A).greatest);
}

TEST(Curve, AnEdgeMayHaveFewerGates) {
    // Class T: at 1.1 holds; at 1.35 within an hour, at 2.0 within 240 s; no least times printed.
    const auto t = type_of({{1.1, {}, {}}, {1.35, {}, 3600_s}, {2.0, {}, 240_s}});
    const auto o = opening(t, 60_A, 240_A);
    EXPECT_FALSE(o.least) << "at once is not excluded";
    EXPECT_NEAR(o.greatest->si(), 60, 1e-9) << "twice the last gate: a quarter of 240 s";
    EXPECT_FALSE(opening(t, 60_A, 70_A).greatest);
}

TEST(Curve, NeverSlowerAtMoreCurrent) {
    for (const auto* type : {&blade, &large, &strip51, &strip30}) {
        double least = 1e9, greatest = 1e9;
        for (double x = 0.5; x < 20; x *= 1.01) {
            const auto o = opening(*type, 10_A, Current::si(10 * x));
            EXPECT_LE(o.least->si(), least * (1 + 1e-9));
            least = o.least->si();
            if (!o.greatest) continue;
            EXPECT_LE(o.greatest->si(), greatest * (1 + 1e-9));
            EXPECT_LE(least, o.greatest->si());
            greatest = o.greatest->si();
        }
    }
}

TEST(Curve, BreakingCapacityOfTheVoltage) {
    // Stud block, makers' data: 10 kA at 14 V, 5 kA at 32 V, 2 kA at 58 V.
    auto block = type_of({});
    block.breaking = {{14_V, 10000_A}, {32_V, 5000_A}, {58_V, 2000_A}};
    EXPECT_EQ(breaking_capacity(block, 12_V), 10000_A);
    EXPECT_EQ(breaking_capacity(block, 14_V), 10000_A);
    EXPECT_EQ(breaking_capacity(block, 14.4_V), 5000_A) << "the higher voltage's row holds";
    EXPECT_EQ(breaking_capacity(block, 57.6_V), 2000_A);
    EXPECT_FALSE(breaking_capacity(block, 60_V));
    EXPECT_FALSE(breaking_capacity(type_of({}), 12_V)) << "not known";
}

TEST(Withstand, PrintedJouleIntegrals) {
    // k2S2 in 10^6 A2s as printed in the Electrical Installation Guide, fig. G53; k 115 and 143.
    struct Row {
        double mm2, pvc, xlpe;
    };
    catalogue::Insulation pvc, xlpe, unknown;
    pvc.k_A_sqrt_s_per_mm2 = 115;
    xlpe.k_A_sqrt_s_per_mm2 = 143;
    for (const auto& row : {Row{1.5, 0.0297, 0.0460}, Row{2.5, 0.0826, 0.1278}, Row{4, 0.2116, 0.3272},
                            Row{6, 0.4761, 0.7362}, Row{10, 1.3225, 2.0450}, Row{16, 3.3856, 5.2350},
                            Row{25, 8.2656, 12.7806}, Row{35, 16.2006, 25.050}}) {
        const Area area = Area::si(row.mm2 / 1e6);
        EXPECT_NEAR(withstand(pvc, area)->si() / 1e6, row.pvc, 2e-4) << row.mm2;
        EXPECT_NEAR(withstand(xlpe, area)->si() / 1e6, row.xlpe, 2e-4) << row.mm2;
    }
    EXPECT_FALSE(withstand(unknown, 16_mm2));
}

// 16 mm2 between two batteries, 1131 A into a fault: (115 x 16 / 1131)^2 = 2.65 s by hand.
TEST(Withstand, TimeToTheLimit) {
    catalogue::Insulation pvc;
    pvc.k_A_sqrt_s_per_mm2 = 115;
    EXPECT_NEAR(stands_for(pvc, 16_mm2, 1131_A)->si(), 2.65, 0.01);
    EXPECT_FALSE(stands_for(pvc, 16_mm2, 0_A));
    EXPECT_FALSE(stands_for({}, 16_mm2, 100_A));
}

} // namespace
