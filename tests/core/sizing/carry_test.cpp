#include "core/derive/build.h"
#include "core/sizing/sizing.h"

#include <gtest/gtest.h>

using namespace fl;
using namespace fl::sizing;

namespace {

Lie lie(const char* insulation, const char* table, Temperature ambient) {
    Lie made;
    made.insulation = catalogue::insulation(insulation);
    made.table = catalogue::ampacity_table(table);
    made.ambient = ambient;
    return made;
}

const char* const multicore = "vde0298-4-t11/multicore";

double amps(const WireSize& size, const Lie& at) {
    const auto carried = may_carry(size, at);
    return carried ? carried->si() : -1;
}

// DIN VDE 0298-4 Table 11: 2.5 mm² multicore 26 A at 30 °C; Table 17: 0.71 at 50 °C.
TEST(MayCarry, TakesEveryFactor) {
    Lie at = lie("PVC70", multicore, 30_degC);
    EXPECT_DOUBLE_EQ(amps(WireSize::mm2(2.5), at), 26);
    at.ambient = 50_degC;
    EXPECT_DOUBLE_EQ(amps(WireSize::mm2(2.5), at), 26 * 0.71);
    at.loaded_conductors = 3; // IEC 60364-5-52 Table B.52.17: 0.70
    EXPECT_DOUBLE_EQ(amps(WireSize::mm2(2.5), at), 26 * 0.71 * 0.70);
    at.in_insulation = 0.4_m; // IEE guide: 0.55
    EXPECT_DOUBLE_EQ(amps(WireSize::mm2(2.5), at), 26 * 0.71 * 0.70 * 0.55);
    at.ambient = 70_degC;
    EXPECT_EQ(amps(WireSize::mm2(2.5), at), 0);
}

TEST(MayCarry, BetweenRowsTheNextSmallerRow) {
    const Lie metric = lie("PVC70", multicore, 30_degC);
    EXPECT_EQ(amps(WireSize::mm2(3), metric), 26);
    EXPECT_EQ(amps(WireSize::gauge({6}), metric), 61); // 13.3 mm²: the row of 10
    EXPECT_EQ(may_carry(WireSize::mm2(0.5), metric), std::nullopt);
    EXPECT_EQ(amps(WireSize::mm2(400), metric), 523); // beyond the last row, 300
    // 33 CFR 183.425 Table 5, 105 °C: 6 AWG 120 A, 4 AWG 160 A
    const Lie gauge = lie("PVC105", "33cfr183-t5/105", 30_degC);
    EXPECT_EQ(amps(WireSize::gauge({6}), gauge), 120);
    EXPECT_EQ(amps(WireSize::mm2(16), gauge), 120);
    EXPECT_EQ(amps(WireSize::mm2(25), gauge), 160);
    EXPECT_EQ(may_carry(WireSize::mm2(0.75), gauge), std::nullopt);
}

// A 105 °C insulation in a 70 °C column, by hand: sqrt((105 - Ta)/(70 - 30)), not above the tabulated 26 A.
TEST(MayCarry, AHotterInsulationKeepsTheColumnsCurrent) {
    EXPECT_NEAR(amps(WireSize::mm2(2.5), lie("PVC105", multicore, 85_degC)), 18.385, 5e-4);
    EXPECT_EQ(amps(WireSize::mm2(2.5), lie("PVC105", multicore, 50_degC)), 26);
    EXPECT_EQ(amps(WireSize::mm2(2.5), lie("PVC105", multicore, 30_degC)), 26);
    EXPECT_DOUBLE_EQ(amps(WireSize::mm2(2.5), lie("PVC105", multicore, 20_degC)), 26 * 1.12);
    EXPECT_EQ(amps(WireSize::mm2(2.5), lie("PVC105", multicore, 105_degC)), 0);
}

// By hand: sqrt((60 - 30)/(70 - 30)) = 0.86603.
TEST(MayCarry, ACoolerInsulationCarriesLess) {
    EXPECT_NEAR(amps(WireSize::mm2(2.5), lie("class60", multicore, 30_degC)), 26 * 0.8660254, 1e-6);
}

// DIN VDE 0298-4 Table 11, column 2: what holds in free air only must say so.
TEST(MayCarry, FreeAirIsMarked) {
    EXPECT_TRUE(catalogue::ampacity_table("vde0298-4-t11/free-air")->free_air);
    EXPECT_FALSE(catalogue::ampacity_table(multicore)->free_air);
    EXPECT_FALSE(catalogue::ampacity_table("33cfr183-t5/105")->free_air);
}

TEST(MayCarry, NotKnownWithoutTableOrInsulation) {
    EXPECT_EQ(may_carry(WireSize::mm2(2.5), Lie{}), std::nullopt);
    Lie none = lie("PVC70", multicore, 30_degC);
    none.table = nullptr;
    EXPECT_EQ(may_carry(WireSize::mm2(2.5), none), std::nullopt);
    EXPECT_EQ(why_may_carry(WireSize::mm2(2.5), none).value, derive::Value(std::string("not known")));
}

// Every column, insulation, ambient, grouping and size: the why ends with the very number, and rests on
// what was entered or read off a table.
TEST(MayCarry, TheWhyHasTheSameBits) {
    int checked = 0;
    for (const auto table : catalogue::ampacity_table_ids())
        for (const auto insulation : catalogue::insulation_ids())
            for (const double ambient_C : {-10.0, 20.0, 30.0, 37.0, 60.0, 85.0, 104.0})
                for (const int n : {1, 2, 7, 30}) {
                    Lie at;
                    at.insulation = catalogue::insulation(insulation);
                    at.table = catalogue::ampacity_table(table);
                    at.ambient = Temperature::celsius(ambient_C);
                    at.loaded_conductors = n;
                    if (n == 2) at.in_insulation = 0.3_m;
                    for (const WireSize& size :
                         {WireSize::mm2(0.5), WireSize::mm2(7), WireSize::gauge({8}), WireSize::mm2(95)}) {
                        const auto number = may_carry(size, at);
                        const auto why = why_may_carry(size, at);
                        const derive::Value expected =
                            number ? derive::Value(*number) : derive::Value(std::string("not known"));
                        ASSERT_TRUE(derive::same_bits(why.value, expected)) << table << " " << insulation;
                        for (const auto* leaf : derive::leaves(why)) {
                            EXPECT_NE(leaf->leaf, derive::Leaf::solved) << leaf->symbol;
                            EXPECT_FALSE(leaf->source.empty()) << leaf->symbol;
                        }
                        checked += number.has_value();
                    }
                }
    EXPECT_GT(checked, 1000);
}

TEST(MayCarry, TheWhyNamesTheRowAndTheTable) {
    const auto why = why_may_carry(WireSize::mm2(3), lie("PVC70", multicore, 50_degC));
    ASSERT_EQ(why.inputs.size(), 4u);
    EXPECT_EQ(why.inputs[0].value, derive::Value(26_A));
    EXPECT_EQ(why.inputs[0].inputs[1].value, derive::Value(WireSize::mm2(2.5)));
    EXPECT_NE(why.inputs[0].source.find("0298-4"), std::string::npos);
    EXPECT_EQ(why.inputs[1].value, derive::Value(Ratio::si(0.71)));
}

// At the tabulated current and the table's ambient a conductor is at its column's limit, by definition.
TEST(ConductorTemperature, FollowsTheTable) {
    Lie at = lie("PVC70", multicore, 30_degC);
    EXPECT_NEAR(temperature(WireSize::mm2(2.5), at, 26_A)->celsius(), 70, 1e-9);
    EXPECT_EQ(temperature(WireSize::mm2(2.5), at, 0_A)->celsius(), 30);
    // by hand: no steady state from q = 304.5/40 on, 2.759 times the tabulated current
    EXPECT_TRUE(temperature(WireSize::mm2(2.5), at, 71.5_A));
    EXPECT_EQ(temperature(WireSize::mm2(2.5), at, 72_A), std::nullopt);
    at.loaded_conductors = 3; // 0.70 of it bunched
    EXPECT_NEAR(temperature(WireSize::mm2(2.5), at, 18.2_A)->celsius(), 70, 1e-9);
    EXPECT_EQ(temperature(WireSize::mm2(0.5), at, 5_A)->celsius(), 30); // no row: its ambient
}

} // namespace
