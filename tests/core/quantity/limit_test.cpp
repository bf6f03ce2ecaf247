#include "core/quantity/limit.h"

#include <gtest/gtest.h>

using namespace fl;

namespace {

TEST(Limit, HasAMillionthInHand) {
    EXPECT_FALSE(above(30.0, 30.0));
    EXPECT_FALSE(above(30.00002, 30.0));
    EXPECT_TRUE(above(30.00004, 30.0));
    EXPECT_TRUE(above(1e-9, 0.0)); // of nothing a millionth is nothing
    EXPECT_FALSE(above(-10.000001, -10.0));
    EXPECT_FALSE(above(-9.999991, -10.0));
    EXPECT_TRUE(above(-9.99998, -10.0));
    EXPECT_TRUE(above(31_A, 30_A));
    EXPECT_FALSE(above(30_A, 31_A));
}

} // namespace
