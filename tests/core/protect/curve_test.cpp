#include "core/protect/curve.h"
#include "core/quantity/unit.h"

#include <gtest/gtest.h>

#include <cmath>

using namespace fl;
using namespace fl::literals;
using namespace fl::protect;

namespace {

const catalogue::FuseType& type(const char* id) {
    return *catalogue::fuse_type(id);
}

struct Row {
    const char* type;
    double multiple;
    std::optional<double> least_s, greatest_s;
    double from_A, to_A;
};

// Typed from the published extracts, not from our tables: ISO 8820-3 types C and F from sheets that declare
// conformity (3.5 and 6.0 from memory), type E as DIN 72581-3 form E, ISO 8820-5 SF 51 as family 1 and SF 30
// as family 2 (from memory).
const Row printed[] = {
    {"ISO8820-3-C", 1.1, 360000, {}, 1, 30},      {"ISO8820-3-C", 1.0, 360000, {}, 35, 40},
    {"ISO8820-3-C", 1.35, 0.75, 600, 1, 40},      {"ISO8820-3-C", 2.0, 0.15, 5, 1, 40},
    {"ISO8820-3-C", 3.5, 0.04, 0.5, 1, 40},       {"ISO8820-3-C", 6.0, 0.02, 0.1, 1, 30},
    {"ISO8820-3-C", 6.0, 0.02, 0.15, 35, 40},     {"ISO8820-3-F", 1.1, 360000, {}, 2, 30},
    {"ISO8820-3-F", 1.35, 0.75, 600, 2, 30},      {"ISO8820-3-F", 2.0, 0.15, 5, 2, 30},
    {"ISO8820-3-F", 3.5, 0.04, 0.5, 2, 30},       {"ISO8820-3-F", 6.0, 0.02, 0.1, 2, 30},
    {"ISO8820-3-E", 1.0, 360000, {}, 20, 100},    {"ISO8820-3-E", 1.35, 60, 1800, 20, 100},
    {"ISO8820-3-E", 2.0, 2, 60, 20, 100},         {"ISO8820-3-E", 3.5, 0.2, 7, 20, 100},
    {"ISO8820-3-E", 6.0, 0.04, 1, 20, 100},       {"ISO8820-5-SF51", 1.0, 14400, {}, 60, 500},
    {"ISO8820-5-SF51", 1.35, 120, 1800, 60, 500}, {"ISO8820-5-SF51", 2.0, 1, 15, 60, 500},
    {"ISO8820-5-SF51", 3.5, 0.3, 5, 60, 500},     {"ISO8820-5-SF51", 5.0, 0.1, 1, 60, 500},
    {"ISO8820-5-SF30", 1.1, 14400, {}, 30, 200},  {"ISO8820-5-SF30", 1.5, 90, 3600, 30, 200},
    {"ISO8820-5-SF30", 2.0, 3, 100, 30, 200},     {"ISO8820-5-SF30", 3.0, 0.3, 3, 30, 200},
    {"ISO8820-5-SF30", 5.0, 0.1, 1, 30, 200},
};

TEST(Curve, MeetsEveryPrintedGate) {
    for (const Row& row : printed) {
        int held = 0;
        for (const Current rating : type(row.type).ratings) {
            if (rating.si() < row.from_A || rating.si() > row.to_A) continue;
            ++held;
            const auto o = opening(type(row.type), rating, rating * row.multiple);
            SCOPED_TRACE(testing::Message() << row.type << " " << rating.si() << " A x " << row.multiple);
            ASSERT_EQ(bool(o.least), bool(row.least_s));
            EXPECT_NEAR(o.least->si() / *row.least_s, 1, 1e-5);
            ASSERT_EQ(bool(o.greatest), bool(row.greatest_s));
            if (row.greatest_s) {
                EXPECT_NEAR(o.greatest->si() / *row.greatest_s, 1, 1e-5);
            }
        }
        EXPECT_GE(held, 2) << row.type << " has ratings for this gate";
    }
}

// A converter at its limit of 24 A and blade links of 5, 7.5, 10, 15 A: 4.8, 3.2, 2.4 and 1.6 times rating.
// By hand on the gates of types C and F, log-log:
//   4.8: 0.04 (0.02/0.04)^u, u = ln(4.8/3.5)/ln(6/3.5) = 0.5861: 0.0266 s; 0.5 (0.1/0.5)^u = 0.195 s
//   3.2: u = ln(3.2/2)/ln(3.5/2) = 0.8399: 0.15 (0.04/0.15)^u = 0.0494 s; 5 (0.5/5)^u = 0.723 s
//   2.4: u = ln(1.2)/ln(1.75) = 0.3258: 0.0975 s; 2.361 s
TEST(Curve, BetweenGatesLogLog) {
    const auto check = [](double rating, double least, double greatest) {
        const auto o = opening(type("ISO8820-3-C"), Current::si(rating), 24_A);
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
    const auto small = opening(type("ISO8820-5-SF51"), 250_A, 350_A),
               right = opening(type("ISO8820-5-SF51"), 300_A, 350_A);
    EXPECT_NEAR(small.least->si(), 77, 1);
    EXPECT_NEAR(right.least->si(), 1230, 10);
    EXPECT_FALSE(right.greatest);
    EXPECT_TRUE(small.greatest);
}

TEST(Curve, BeyondTheLastGateKeepsItsJouleIntegral) {
    // 12 times rating is twice the last gate: a quarter of its times.
    const auto o = opening(type("ISO8820-3-C"), 10_A, 120_A);
    EXPECT_NEAR(o.least->si(), 0.005, 1e-12);
    EXPECT_NEAR(o.greatest->si(), 0.025, 1e-12);
}

TEST(Curve, BelowTheFirstGateItNeedNotOpen) {
    const auto o = opening(type("ISO8820-3-E"), 50_A, 44_A); // a charger at its limit
    EXPECT_FALSE(o.greatest);
    EXPECT_EQ(o.least, 360000_s);
    const auto between = opening(type("ISO8820-3-C"), 10_A, 12_A);
    EXPECT_FALSE(between.greatest) << "above 1.1 times, not yet 1.35";
    EXPECT_LT(*between.least, 360000_s);
    EXPECT_FALSE(opening(type("ISO8820-3-C"), 0_A, 12_A).least);
    EXPECT_FALSE(opening(type("ISO8820-3-C"), 10_A, 0_A).least);
    EXPECT_FALSE(opening(type("ISO8820-4-B"), 60_A, 500_A).greatest) << "no gates known";
    EXPECT_FALSE(opening(type("ISO8820-3-C"), 50_A, 500_A).least) << "not made with 50 A";
}

// gG 63 A, IEC 60269-1: conventional currents 1.25 (holds 1 h) and 1.6 (opens within 1 h); gates at other
// multiples for each edge, so each edge runs between its own.
TEST(Curve, AnEdgeMayHaveItsOwnGates) {
    const auto& g = type("IEC60269-gG");
    const auto between = opening(g, 63_A, 63_A * 1.5);
    EXPECT_TRUE(between.least);
    EXPECT_LT(*between.least, 3600_s);
    EXPECT_FALSE(between.greatest) << "need not open below 1.6";
    EXPECT_NEAR(opening(g, 63_A, 63_A * 1.6).greatest->si(), 3600, 1);
    // Class T need not open at 1.1; no least time is printed there, that of the next gate holds.
    const auto t = opening(type("UL248-15-T"), 60_A, 66_A);
    EXPECT_FALSE(t.greatest);
    EXPECT_EQ(t.least, opening(type("UL248-15-T"), 60_A, 81_A).least);
}

TEST(Curve, NeverSlowerAtMoreCurrent) {
    int curves = 0;
    for (const auto id : catalogue::fuse_type_ids()) {
        const auto& t = *catalogue::fuse_type(id);
        for (const Current rating : t.ratings) {
            double least = 1e9, greatest = 1e9;
            for (double x = 0.5; x < 20; x *= 1.03) {
                const auto o = opening(t, rating, rating * x);
                if (o.least) {
                    EXPECT_LE(o.least->si(), least * (1 + 1e-9)) << id << " " << rating.si() << " A x " << x;
                    least = o.least->si();
                }
                if (!o.greatest) continue;
                EXPECT_LE(o.greatest->si(), greatest * (1 + 1e-9))
                    << id << " " << rating.si() << " A x " << x;
                EXPECT_LE(least, o.greatest->si()) << id << " " << rating.si() << " A x " << x;
                greatest = o.greatest->si();
            }
            curves += greatest < 1e9;
        }
    }
    EXPECT_GT(curves, 50);
}

TEST(Curve, BreakingCapacityOfTheVoltage) {
    // Stud block, makers' data: 10 kA at 14 V, 5 kA at 32 V, 2 kA at 58 V.
    const auto& block = type("STUD-BLOCK");
    EXPECT_EQ(breaking_capacity(block, 12_V), 10000_A);
    EXPECT_EQ(breaking_capacity(block, 14_V), 10000_A);
    EXPECT_EQ(breaking_capacity(block, 14.4_V), 5000_A) << "the higher voltage's row holds";
    EXPECT_EQ(breaking_capacity(block, 57.6_V), 2000_A);
    EXPECT_FALSE(breaking_capacity(block, 60_V));
    // ISO 8820-3 and -5: 1000 A and 2000 A. A 32 V strip link is not for a 36 V system, charging at 43 V.
    EXPECT_EQ(breaking_capacity(type("ISO8820-3-C"), 12_V), 1000_A);
    EXPECT_EQ(breaking_capacity(type("ISO8820-5-SF30"), 28.8_V), 2000_A);
    EXPECT_FALSE(breaking_capacity(type("ISO8820-5-SF30"), 43_V));
    EXPECT_FALSE(breaking_capacity(type("STRIP-51-70V"), 12_V)) << "not known";
}

TEST(Withstand, PrintedJouleIntegrals) {
    // k2S2 in 10^6 A2s as printed in the Electrical Installation Guide, fig. G53; k 115 and 143.
    struct Heat {
        double mm2, pvc, xlpe;
    };
    catalogue::Insulation pvc, xlpe, unknown;
    pvc.k_A_sqrt_s_per_mm2 = 115;
    xlpe.k_A_sqrt_s_per_mm2 = 143;
    for (const auto& row : {Heat{1.5, 0.0297, 0.0460}, Heat{2.5, 0.0826, 0.1278}, Heat{4, 0.2116, 0.3272},
                            Heat{6, 0.4761, 0.7362}, Heat{10, 1.3225, 2.0450}, Heat{16, 3.3856, 5.2350},
                            Heat{25, 8.2656, 12.7806}, Heat{35, 16.2006, 25.050}}) {
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
