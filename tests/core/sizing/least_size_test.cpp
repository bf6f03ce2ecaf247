#include "core/quantity/unit.h"
#include "core/sizing/sizing.h"

#include <gtest/gtest.h>

#include <map>

using namespace fl;
using namespace fl::sizing;

namespace {

Lie pvc(Temperature ambient = 30_degC) {
    Lie made;
    made.insulation = catalogue::insulation("PVC70");
    made.table = catalogue::ampacity_table("vde0298-4-t11/multicore");
    made.ambient = ambient;
    return made;
}

Needs running(Current current) {
    Needs needs;
    needs.running = current;
    needs.minimum = WireSize::mm2(1);
    return needs;
}

double area(const std::optional<WireSize>& size) {
    return size ? to_field(size->area) : -1;
}

std::map<std::string, double> by_code(const Size& size) {
    std::map<std::string, double> out;
    for (const Demand& demand : size.demands) out[demand.code] = area(demand.least);
    return out;
}

// By hand from DIN VDE 0298-4 Table 11 (2.5: 26 A, 4: 34 A), IEC 60228 class 5 (10: 1.91, 16: 1.21 mΩ/m) and
// k = 115: 0.36 V / (20 A · 10 m) = 1.8 mΩ/m; sqrt(1e6)/115 = 8.70 mm².
TEST(LeastSize, EachDemandAndTheOneThatGoverns) {
    Needs needs = running(20_A);
    needs.device = 30_A;
    needs.drop = 0.36_V;
    needs.loop = 10_m;
    needs.let_through = Joule::si(1e6);
    const Size size = least_size(needs, pvc());
    EXPECT_EQ(by_code(size),
              (std::map<std::string, double>{
                  {"current", 2.5}, {"protection", 4}, {"drop", 16}, {"withstand", 10}, {"minimum", 1}}));
    EXPECT_EQ(area(size.least), 16);
    EXPECT_EQ(size.governing, "drop");
    for (const Demand& demand : size.demands) EXPECT_FALSE(demand.by.empty());
}

TEST(LeastSize, WhatIsNotGivenAsksForNothing) {
    Needs needs = running(0.5_A);
    const Size size = least_size(needs, pvc());
    // 0.75 is the first row of the table: below it nothing is known
    EXPECT_EQ(by_code(size), (std::map<std::string, double>{{"current", 0.75}, {"minimum", 1}}));
    EXPECT_EQ(size.governing, "minimum");
    needs.drop = 0.1_V; // over no known length
    EXPECT_FALSE(by_code(least_size(needs, pvc())).contains("drop"));
    needs.let_through = Joule::si(1e6);
    Lie no_k = pvc();
    no_k.insulation = catalogue::insulation("PVC105");
    EXPECT_FALSE(by_code(least_size(needs, no_k)).contains("withstand"));
}

TEST(LeastSize, TheDevicesMultipleCounts) {
    Needs needs = running(10_A);
    needs.device = 39_A;
    EXPECT_EQ(by_code(least_size(needs, pvc())).at("protection"), 6); // 44 A
    needs.device_multiple = 1.5;                                      // of 26 A is 39 A
    EXPECT_EQ(by_code(least_size(needs, pvc())).at("protection"), 2.5);
    needs.device = 39.1_A;
    EXPECT_EQ(by_code(least_size(needs, pvc())).at("protection"), 4);
}

// 0.26 V / (20 A · 10 m) = 1.3 mΩ/m. At 20 °C 16 mm² has 1.21; at 70 °C 1.21 · 1.1965 = 1.448, so 25 mm²;
// with 20 A in 16 mm² at 30 °C the copper has 32 °C: 1.267. Plain copper: 17.241/1.3 = 13.3 mm².
TEST(LeastSize, DropIsJudgedAtTheTemperatureOfTheJobRules) {
    Needs needs = running(20_A);
    needs.drop = 0.26_V;
    needs.loop = 10_m;
    needs.temperature = plan::ConductorTemperature::plain_20C;
    EXPECT_EQ(by_code(least_size(needs, pvc())).at("drop"), 16);
    needs.temperature = plan::ConductorTemperature::rated;
    EXPECT_EQ(by_code(least_size(needs, pvc())).at("drop"), 25);
    needs.temperature = plan::ConductorTemperature::solved;
    EXPECT_EQ(by_code(least_size(needs, pvc())).at("drop"), 16);
    EXPECT_EQ(by_code(least_size(needs, pvc(60_degC))).at("drop"), 25); // at 62 °C 1.411
    needs.temperature = plan::ConductorTemperature::plain_20C;
    needs.drop = 0.36_V; // class 5 asks 16 mm² (10 has 1.91), plain copper 9.58 mm²
    needs.ideal_copper = true;
    EXPECT_EQ(by_code(least_size(needs, pvc())).at("drop"), 10);
}

TEST(LeastSize, NoSizeOfTheTableIsNoSize) {
    const Size size = least_size(running(600_A), pvc()); // 300 mm²: 523 A
    EXPECT_EQ(size.least, std::nullopt);
    EXPECT_EQ(size.governing, "current");
}

TEST(LeastSize, InGauges) {
    Needs needs = running(50_A);
    needs.gauges = true;
    needs.minimum = WireSize::gauge({16});
    Lie at = pvc();
    at.insulation = catalogue::insulation("PVC105");
    at.table = catalogue::ampacity_table("33cfr183-t5/105"); // 12 AWG 45 A, 10 AWG 60 A
    const Size size = least_size(needs, at);
    EXPECT_EQ(size.least, WireSize::gauge({10}));
    EXPECT_EQ(size.governing, "current");
}

TEST(LeastSize, LastBitsDoNotDecide) {
    EXPECT_EQ(by_code(least_size(running(Current::si(26 * (1 + 1e-9))), pvc())).at("current"), 2.5);
    EXPECT_EQ(by_code(least_size(running(Current::si(26.001)), pvc())).at("current"), 4);
}

TEST(NextSize, IsTheSmallestThatIsLargeEnough) {
    EXPECT_EQ(next_size(1.8_mm2, false), WireSize::mm2(2.5));
    EXPECT_EQ(next_size(2.5_mm2, false), WireSize::mm2(2.5));
    EXPECT_EQ(next_size(2.5_mm2, true), WireSize::gauge({12})); // 3.31 mm²
    EXPECT_EQ(next_size(1000_mm2, false), std::nullopt);
    // by hand: 0.0178 · 20 m · 10 A / 0.6 V = 5.93 mm²
    EXPECT_EQ(size_for_drop(20_m, 10_A, 0.6_V, 0.0178, false), WireSize::mm2(6));
}

// ISO 8820-3 type C, ratings up to 40 A.
TEST(NextRating, IsTheSmallestThatIsLargeEnough) {
    const auto* type = catalogue::fuse_type("ISO8820-3-C");
    ASSERT_TRUE(type);
    EXPECT_EQ(next_rating(*type, 14.7_A), 15_A);
    EXPECT_EQ(next_rating(*type, 40_A), 40_A);
    EXPECT_EQ(next_rating(*type, 41_A), std::nullopt);
    EXPECT_EQ(rating_for(*type, 12_A, 0.8), 15_A);
    EXPECT_EQ(rating_for(*type, 12.1_A, 0.8), 20_A);
    EXPECT_EQ(rating_for(*type, 12_A, 0), std::nullopt);
}

} // namespace
