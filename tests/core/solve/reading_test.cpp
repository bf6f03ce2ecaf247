#include "core/solve/reading.h"

#include <gtest/gtest.h>

using namespace fl::solve;

namespace {

// By hand: 12 V behind 0.1 ohm, 0.5 ohm of lead, 0.6 ohm of load: 10 A, 1 V, 5 V, 6 V.
Circuit loop() {
    Circuit c;
    c.nodes = 4; // 3 lies alone
    c.batteries.push_back({.plus = 0, .minus = 2, .emf_V = 12, .discharge_ohm = 0.1, .charge_ohm = 0.1});
    c.resistors.push_back({.a = 0, .b = 1, .r20_ohm = 0.5, .thermal = {}});
    c.loads.push_back({.plus = 1, .minus = 2, .value = 0.6});
    return c;
}

TEST(Reading, VoltageAndPower) {
    const Circuit c = loop();
    const Solution s = operating_point(c);
    EXPECT_NEAR(voltage(s, 0, 2).value(), 11, 1e-9);
    EXPECT_NEAR(voltage(s, 2, 1).value(), -6, 1e-9);
    EXPECT_EQ(voltage(s, 0, 3), std::nullopt); // another island: not defined
    EXPECT_EQ(voltage(s, 0, 4), std::nullopt);
    EXPECT_EQ(voltage(s, -1, 0), std::nullopt);
    EXPECT_NEAR(power(c, s, {ElementKind::resistor, 0}).value(), 50, 1e-7);
    EXPECT_NEAR(power(c, s, {ElementKind::load, 0}).value(), 60, 1e-7);
    EXPECT_NEAR(power(c, s, {ElementKind::battery, 0}).value(), -110, 1e-7);
    EXPECT_EQ(power(c, s, {ElementKind::load, 1}), std::nullopt);
    EXPECT_EQ(power(c, s, {}), std::nullopt);
    EXPECT_EQ(power(c, Solution{}, {ElementKind::load, 0}), std::nullopt);
}

// By hand: the converter gives 14 V · 2 A = 28 W and loses its 1 W and 0.1 of what it gives.
TEST(Reading, AConverterTakesItsLoss) {
    Circuit c;
    c.nodes = 3;
    c.batteries.push_back({.plus = 0, .minus = 2, .emf_V = 12, .discharge_ohm = 0.01, .charge_ohm = 0.01});
    c.converters.push_back({.in_plus = 0,
                            .in_minus = 2,
                            .out_plus = 1,
                            .out_minus = 2,
                            .set_V = 14,
                            .droop_ohm = 1e-6,
                            .p0_W = 1,
                            .k1 = 0.1});
    c.loads.push_back({.plus = 1, .minus = 2, .value = 7});
    const Solution s = operating_point(c);
    ASSERT_TRUE(s.usable);
    EXPECT_NEAR(power(c, s, {ElementKind::converter, 0}).value(), 3.8, 1e-3);
    double sum = 0; // what is taken is given
    for (const Element e :
         {Element{ElementKind::battery, 0}, {ElementKind::converter, 0}, {ElementKind::load, 0}})
        sum += power(c, s, e).value();
    EXPECT_NEAR(sum, 0, 1e-6);
}

} // namespace
