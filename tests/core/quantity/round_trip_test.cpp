#include "core/quantity/parse.h"
#include "core/quantity/print.h"
#include "tests/support/property.h"

namespace fl {
namespace {

// What a file holds is read back to the very same bits, over the range a document allows.
TEST(RoundTrip, ShortestReadsBackToTheSameBits) {
    test::property(20000, [](int mantissa, unsigned char exponent) {
        double value = mantissa;
        for (int i = 0; i < exponent % 12; ++i) value /= 10;
        const Area area = from_field<Area>(value);
        const Result<Area> back = parse<Area>(shortest(area) + " mm2");
        RC_ASSERT(back.has_value());
        RC_ASSERT(back->si() == area.si());
    });
}

// No byte string is read as NaN, infinity, or with a Problem that says nothing.
TEST(RoundTrip, AnyBytesGiveAFiniteValueOrAProblem) {
    test::property(20000, [](const std::string& bytes) {
        const Result<Current> read = parse<Current>(bytes);
        if (read)
            RC_ASSERT(read->si() - read->si() == 0.0);
        else
            RC_ASSERT(!read.error().code.empty() && !read.error().wrong.empty());
    });
}

// By hand: a file holds a resistance in mohm, and 1e306 ohm in mohm is beyond what a double holds.
TEST(RoundTrip, WhatNoUnitCanHoldIsRefused) {
    for (const char* typed : {"1e306 ohm", "-1e306 ohm", "1e16 ohm", "1e-31 ohm", "1e-400 ohm"}) {
        const Result<Resistance> read = parse<Resistance>(typed);
        ASSERT_FALSE(read.has_value()) << typed;
        EXPECT_EQ(read.error().code, "quantity.range") << typed;
    }
    EXPECT_EQ(parse<Current>("1e-31 A").error().code, "quantity.range");
    EXPECT_TRUE(parse<Resistance>("1e15 ohm").has_value());
    EXPECT_TRUE(parse<Current>("0 A").has_value());
}

} // namespace
} // namespace fl
