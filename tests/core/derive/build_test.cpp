#include "core/derive/build.h"

#include <gtest/gtest.h>

using namespace fl;
using namespace fl::derive;

namespace {

TEST(Derivation, AStepKeepsItsInputs) {
    const Derivation why =
        step("U", "drop", "I · R", 0.5_V,
             {leaf("I", "current", 5_A, Leaf::entered, "label"),
              step("R", "resistance", "r · L", 0.1_ohm, {leaf("L", "length", 2_m, Leaf::assumed, "run")})});
    EXPECT_EQ(why.leaf, Leaf::solved);
    EXPECT_EQ(why.inputs[1].formula, "r · L");
    const auto ends = leaves(why);
    ASSERT_EQ(ends.size(), 2u);
    EXPECT_EQ(ends[0]->symbol, "I");
    EXPECT_EQ(ends[0]->source, "label");
    EXPECT_EQ(ends[1]->symbol, "L");
    EXPECT_EQ(ends[1]->leaf, Leaf::assumed);
    EXPECT_EQ(not_known("U", "drop", "I · R", {}).value, Value(std::string("not known")));
}

TEST(Derivation, SameBitsIsStricterThanEqual) {
    EXPECT_TRUE(same_bits(Value(0.1_V), Value(0.1_V)));
    EXPECT_FALSE(same_bits(Value(0.0_V), Value(-0.0_V)));
    EXPECT_EQ(Value(0.0_V), Value(-0.0_V));
    EXPECT_FALSE(same_bits(Value(Voltage::si(0.1 + 0.2)), Value(0.3_V)));
    EXPECT_FALSE(same_bits(Value(1_V), Value(1_A)));
    EXPECT_TRUE(same_bits(Value(std::string("F1")), Value(std::string("F1"))));
    EXPECT_FALSE(same_bits(Value(std::string("F1")), Value(std::string("F2"))));
    EXPECT_TRUE(same_bits(Value(WireSize::gauge({6})), Value(WireSize::gauge({6}))));
    EXPECT_FALSE(same_bits(Value(WireSize::gauge({6})), Value(WireSize{Awg{6}.area(), {}})));
    EXPECT_FALSE(same_bits(Value(20_degC), Value(Temperature::celsius(20 + 1e-14))));
    EXPECT_TRUE(same_bits(Value(std::int64_t{3}), Value(std::int64_t{3})));
}

} // namespace
