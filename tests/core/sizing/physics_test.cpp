#include "core/base/resource.h"
#include "core/derive/build.h"
#include "core/quantity/unit.h"
#include "core/sizing/sizing.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <map>
#include <string>

using namespace fl;
using namespace fl::sizing;

namespace {

// The constants in the code are those of the table, where their source stands.
TEST(Physics, ConstantsAreTheTables) {
    const auto text = resource("catalogue/conductors.json");
    ASSERT_TRUE(text);
    std::map<std::string, double> material;
    const nlohmann::json file = nlohmann::json::parse(*text);
    for (const auto& row : file.at("material"))
        material[row.at("id").get<std::string>()] = row.at("value").get<double>();
    EXPECT_DOUBLE_EQ(annealed_copper_ohm_mm2_per_m * 1e3, material.at("resistivity_20C"));
    const auto zero = Temperature::celsius(material.at("zero_resistance_temperature"));
    EXPECT_EQ(at_temperature(1_ohm, zero).si(), 0);
    // k² is proportional to the heat capacity: by hand, k(0 → T) from the table's constants
    const double b = -zero.celsius();
    const double k = std::sqrt(material.at("heat_capacity") * (b + 20) /
                               (material.at("resistivity_20C") * 1e-6) * std::log(1 + 100 / b));
    EXPECT_NEAR(adiabatic_k(0_degC, 100_degC), k, 1e-9 * k);
}

TEST(Physics, Resistance) {
    // by hand: 0.0172 · 10 / 2 = 0.086; 304.5/254.5 = 1.196464
    EXPECT_DOUBLE_EQ(plain_resistance(2_mm2, 10_m, 0.0172).si(), 0.086);
    EXPECT_DOUBLE_EQ(plain_drop(2_mm2, 10_m, 5_A, 0.0172).si(), 0.43);
    EXPECT_NEAR(at_temperature(1_ohm, 70_degC).si(), 1.196464, 1e-6);
    EXPECT_EQ(at_temperature(1_ohm, 20_degC).si(), 1);
    // IEC 60228 class 5: 7.98 mΩ/m at 2.5 mm²
    EXPECT_NEAR(resistance(WireSize::mm2(2.5), 10_m, 20_degC)->si(), 0.0798, 1e-12);
    EXPECT_NEAR(resistance(WireSize::mm2(2.5), 10_m, 70_degC)->si(), 0.0798 * 1.196464, 1e-7);
    EXPECT_EQ(resistance(WireSize::mm2(0.2), 10_m, 70_degC), std::nullopt);
    EXPECT_NEAR(drop(WireSize::mm2(2.5), 10_m, 10_A, 20_degC)->si(), 0.798, 1e-12);
    EXPECT_EQ(drop(WireSize::mm2(0.2), 10_m, 10_A, 20_degC), std::nullopt);
}

TEST(Physics, TheWhyOfAResistanceHasTheSameBits) {
    for (const WireSize& size :
         {WireSize::mm2(0.2), WireSize::mm2(1.5), WireSize::gauge({4}), WireSize::mm2(3), WireSize::mm2(70)})
        for (const double at_C : {-40.0, 20.0, 20.1, 70.0, 104.7}) {
            const auto at = Temperature::celsius(at_C);
            const auto number = resistance(size, 4.35_m, at);
            const auto why = why_resistance(size, 4.35_m, at);
            EXPECT_TRUE(derive::same_bits(why.value, number ? derive::Value(*number)
                                                            : derive::Value(std::string("not known"))));
            EXPECT_EQ(number.has_value(), size.area > 0.4_mm2);
        }
}

TEST(Physics, Areas) {
    // by hand: 0.0172 · 10 · 5 / 0.43 = 2; 7 strands of 0.52 mm: 7 · 0.21237 = 1.48660
    EXPECT_NEAR(to_field(area_for_drop(10_m, 5_A, 0.43_V, 0.0172)), 2, 1e-12);
    EXPECT_NEAR(to_field(area_of_strands(7, 0.52_mm)), 1.48660, 1e-5);
    // by hand: sqrt(1000² · 0.1)/100 = 3.16228
    EXPECT_NEAR(to_field(area_to_withstand(1000_A, 0.1_s, 100)), 3.16228, 1e-5);
    EXPECT_NEAR(to_field(area_to_withstand(Joule::si(1e5), 100)), 3.16228, 1e-5);
}

TEST(Physics, AmbientFactor) {
    // by hand: sqrt(20/40)
    EXPECT_NEAR(ambient_factor(70_degC, 50_degC, 70_degC, 30_degC), 0.7071068, 1e-7);
    EXPECT_EQ(ambient_factor(70_degC, 30_degC, 70_degC, 30_degC), 1);
    EXPECT_EQ(ambient_factor(70_degC, 70_degC, 70_degC, 30_degC), 0);
    EXPECT_EQ(ambient_factor(70_degC, 90_degC, 70_degC, 30_degC), 0);
}

} // namespace
