#include "core/quantity/parse.h"
#include "core/quantity/print.h"
#include "core/quantity/quantity.h"

#include <gtest/gtest.h>

#include <type_traits>

using namespace fl;

// Dimensions are the compiler's business: these are its assertions.
static_assert(std::is_same_v<decltype(Voltage{} / Current{}), Resistance>);
static_assert(std::is_same_v<decltype(Current{} * Resistance{}), Voltage>);
static_assert(std::is_same_v<decltype(Voltage{} * Current{}), Power>);
static_assert(std::is_same_v<decltype(Current{} * Time{}), Charge>);
static_assert(std::is_same_v<decltype(Voltage{} / Voltage{}), double>);
static_assert(!std::is_convertible_v<double, Voltage> && !std::is_constructible_v<Voltage, double>);
static_assert(!std::is_invocable_v<std::plus<>, Temperature, Temperature>);
static_assert(30_degC - 20_degC == 10_K);

namespace {

struct Typed {
    const char* text;
    double expected; // in the field unit
};

TEST(Parse, WhatAFitterTypes) {
    // by hand: 12 ft = 12 * 0.3048 m
    for (auto [text, metres] : {Typed{"3.5 m", 3.5},
                                {"3,5m", 3.5},
                                {"12 ft", 3.6576},
                                {"350 cm", 3.5},
                                {"4.3", 4.3},
                                {"0,125", 0.125}})
        EXPECT_DOUBLE_EQ(to_field(parse<Length>(text).value()), metres) << text;
    for (auto [text, amps] : {Typed{"60A", 60}, {"60 amps", 60}, {"500 mA", 0.5}, {"1.2kA", 1200}, {"5", 5}})
        EXPECT_DOUBLE_EQ(to_field(parse<Current>(text).value()), amps) << text;
    EXPECT_DOUBLE_EQ(parse<Power>("1.2 kW")->si(), 1200);
    EXPECT_DOUBLE_EQ(to_field(parse<Charge>("200Ah").value()), 200);
    EXPECT_DOUBLE_EQ(to_field(parse<Resistance>("0.5").value()), 0.5); // a bare resistance is in mΩ
    EXPECT_DOUBLE_EQ(parse<Resistance>("2.4 ohm")->si(), 2.4);
    EXPECT_DOUBLE_EQ(parse<Temperature>("−10 °C")->celsius(), -10);
    EXPECT_DOUBLE_EQ(parse<Ratio>("80%")->si(), 0.8);
}

TEST(Parse, SizesOfConductors) {
    EXPECT_EQ(parse_size("2,5 mm2")->area, 2.5_mm2);
    EXPECT_EQ(parse_size("2.5")->area, 2.5_mm2);
    for (const char* six : {"6 AWG", "AWG 6", "awg6", "#6"}) EXPECT_EQ(parse_size(six)->awg, Awg{6}) << six;
    EXPECT_EQ(parse_size("2/0")->awg, Awg{-1});
    EXPECT_EQ(parse_size("4/0")->awg, Awg{-3});
    // 13.3 mm² and 107 mm²: printed in 33 CFR 183.425 Table 5's area column of common wire tables
    EXPECT_NEAR(to_field(parse_size("6 AWG")->area), 13.3, 0.05);
    EXPECT_NEAR(to_field(parse_size("4/0")->area), 107.2, 0.05);
    EXPECT_EQ(parse_size("4 mm").error().code, "size.mm");
    EXPECT_EQ(parse_size("7/0").error().code, "size.awg");
    EXPECT_EQ(parse_size("30 AWG").error().code, "size.awg");
}

TEST(Parse, SaysWhatWasExpected) {
    const auto wrong = parse<Length>("60 A").error();
    EXPECT_EQ(wrong.code, "quantity.unit");
    EXPECT_EQ(
        line(wrong),
        "60 A: this is a current, where a length was expected: write a length, for example 3.5 m or 12 ft");
    EXPECT_EQ(parse<Current>("1,200").error().code, "quantity.comma");
    EXPECT_EQ(parse<Current>("").error().code, "quantity.empty");
    EXPECT_EQ(parse<Current>("twelve").error().code, "quantity.number");
    EXPECT_EQ(parse<Current>("1.2.3").error().code, "quantity.number");
    EXPECT_EQ(parse<Current>("nan").error().code, "quantity.number");
    EXPECT_EQ(parse<Current>("inf A").error().code, "quantity.number");
    EXPECT_EQ(parse<Current>("1e999").error().code, "quantity.range");
    EXPECT_EQ(parse<Charge>("5 parsecs").error().code, "quantity.unit");
}

TEST(Print, AsAFitterReads) {
    EXPECT_EQ(text(75.6_A), "75.6 A");
    EXPECT_EQ(text(Current::si(0.0304)), "30 mA");
    EXPECT_EQ(text(0_A), "0 A");
    EXPECT_EQ(text(Current::si(-0.00001)), "−0.01 mA");
    EXPECT_EQ(text(2140_A), "2.14 kA");
    EXPECT_EQ(text(0.47_V, Style{','}), "0,47 V");
    EXPECT_EQ(text(2.5_mm2), "2.5 mm²");
    EXPECT_EQ(text(1200_W), "1.2 kW");
    EXPECT_EQ(text(Resistance::si(0.0381)), "38.1 mΩ");
    EXPECT_EQ(text(2700_s), "45 min");
    EXPECT_EQ(text(Ratio::si(0.0561)), "5.6 %");
    EXPECT_EQ(text(Temperature::celsius(-10)), "−10 °C");
    EXPECT_EQ(text(WireSize::gauge(Awg{-1})), "2/0 AWG");
    EXPECT_EQ(significant(9.996, 3), "10");
    EXPECT_EQ(fixed(2.675, 2), "2.68");
    EXPECT_EQ(fixed(-0.001, 2), "0.00");
    EXPECT_EQ(text(Voltage::si(1.0 / 0.0)), "not known");
}

TEST(Print, ShortestReadsBackToTheSameValue) {
    for (double typed : {2.5, 0.75, 4.3, 0.1, 1.21, 0.386, 95.0, 107.219, 1e-9, 123456.789}) {
        EXPECT_EQ(shortest(from_field<Area>(typed)), shortest(typed)) << typed;
        EXPECT_EQ(shortest(from_field<Charge>(typed)), shortest(typed)) << typed;
        EXPECT_EQ(shortest(from_field<Resistance>(typed)), shortest(typed)) << typed;
        EXPECT_EQ(shortest(from_field<Temperature>(typed)), shortest(typed)) << typed;
    }
}

} // namespace
