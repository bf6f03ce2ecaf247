#include "core/protect/order.h"
#include "tests/support/property.h"

#include <gtest/gtest.h>

#include <cstdio>
#include <utility>

using namespace fl;
using namespace fl::literals;
using protect::Order;

namespace {

Order order(const char* lower, double low_A, const char* upper, double up_A, double most_A,
            double ratio = 1) {
    return protect::order_of_opening(*catalogue::fuse_type(lower), Current::si(low_A),
                                     *catalogue::fuse_type(upper), Current::si(up_A), Current::si(most_A),
                                     ratio)
        .value_or(Order{});
}
constexpr const char *c = "ISO8820-3-C", *e = "ISO8820-3-E", *gG = "IEC60269-gG";

// The least ratios that the gates of these types guarantee, worked out from the gates by hand: C over C 2.8
// (slowest 0.1 s at 6 against quickest 0.15 s at 2.0, 5 s at 2.0 against 0.75 s at 1.35 ...), E over C 1.6,
// E over E 5.
TEST(OrderOfOpening, GatesGuaranteeTheseRatios) {
    EXPECT_EQ(order(c, 10, c, 28, 10000).kind, Order::Kind::full);
    EXPECT_NE(order(c, 10, c, 26, 10000).kind, Order::Kind::full);
    EXPECT_EQ(order(c, 25, e, 40, 10000).kind, Order::Kind::full);
    EXPECT_NE(order(c, 26, e, 40, 10000).kind, Order::Kind::full);
    EXPECT_EQ(order(e, 20, e, 100, 10000).kind, Order::Kind::full);
    EXPECT_NE(order(e, 20, e, 80, 10000).kind, Order::Kind::full);
}

// gG on gG: 1.6 to 1 by the fuse makers' notes.
TEST(OrderOfOpening, GgPairsOfOnePointSix) {
    const std::pair<double, double> pairs[] = {{16, 25},   {20, 32},   {25, 40},   {32, 50},   {40, 63},
                                               {50, 80},   {63, 100},  {80, 125},  {100, 160}, {125, 200},
                                               {160, 250}, {200, 315}, {250, 400}, {315, 500}, {400, 630}};
    for (const auto& [low, up] : pairs)
        EXPECT_EQ(order(gG, low, gG, up, 20000).kind, Order::Kind::full) << low << " " << up;
}

// C 10 A behind C 15 A. At 13.5 A (1.35) the lower one may take 600 s; the upper one holds 15 A. Above 15 A
// it may open first: at 16.5 A (1.1 of it) it holds 360 000 s, and the lower one (1.65) opens within some 40
// s; at 20 A the lower one may take 5 s (2.0), the upper one opens after 0.8 s at 1.33 at the earliest.
TEST(OrderOfOpening, NeighbouringRatingsOnlyInPart) {
    const Order o = order(c, 10, c, 15, 1000);
    ASSERT_EQ(o.kind, Order::Kind::partial);
    EXPECT_GT(o.up_to, 16.5_A);
    EXPECT_LT(o.up_to, 20_A);
    // A short of no more than that is fully in order.
    EXPECT_EQ(order(c, 10, c, 15, 16).kind, Order::Kind::full);
    EXPECT_EQ(order(c, 15, c, 10, 1000).kind, Order::Kind::none); // the wrong way about
    // Half of it comes another way: the upper one carries less, and opens later.
    const Order half = order(c, 10, c, 15, 1000, 0.5);
    EXPECT_TRUE(half.kind == Order::Kind::full || half.up_to > o.up_to);
}

// Against the definition, current by current.
TEST(OrderOfOpening, EqualsEachCurrentTriedInTurn) {
    int full = 0, partial = 0, none = 0;
    fl::test::property(400, [&] {
        const char* types[] = {c, e, "ISO8820-5-SF30", "ISO8820-5-SF51", "UL248-15-T", gG};
        const auto& lower = *catalogue::fuse_type(types[*rc::gen::inRange(0, 6)]);
        const auto& upper = *catalogue::fuse_type(types[*rc::gen::inRange(0, 6)]);
        const Current low = *rc::gen::elementOf(lower.ratings), up = *rc::gen::elementOf(upper.ratings);
        if (&lower == &upper && lower.id == gG) return; // goes by the makers' word, above
        const double most_A = *rc::gen::inRange(20, 5000), ratio = 0.1 * *rc::gen::inRange(3, 21);
        const auto said = protect::order_of_opening(lower, low, upper, up, Current::si(most_A), ratio);
        if (!said) return;
        ++(said->kind == Order::Kind::full ? full : said->kind == Order::Kind::none ? none : partial);
        const double good_A = said->kind == Order::Kind::full   ? most_A
                              : said->kind == Order::Kind::none ? 0
                                                                : said->up_to.si();
        for (int n = 1; n <= 200; ++n) {
            const double i_A = good_A * n / 200 * (1 - 1e-6);
            const auto slow = protect::opening(lower, low, Current::si(i_A)).greatest;
            const auto quick = protect::opening(upper, up, Current::si(i_A * ratio)).least;
            // The upper one never begins while the lower one may still be opening.
            if (slow && i_A * ratio > up.si() * (1 + 1e-6)) RC_ASSERT(quick && *slow < *quick * (1 + 1e-6));
        }
    });
    std::printf("[ counted  ] full %d, partial %d, none %d\n", full, partial, none);
    EXPECT_GT(full, 5);
}

} // namespace
