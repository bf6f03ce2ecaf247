#include "core/listing/curve_sources.h"
#include "core/listing/tables.h"
#include "core/listing/through.h"
#include "tests/core/network/draw.h"

#include <gtest/gtest.h>

#include <algorithm>

using namespace fl;
using namespace fl::literals;
using fl::test::Draw;

namespace {

/// Two batteries, each behind a fuse, on one bar; a fuse box of two ways with a load on the first.
Draw two_banks() {
    Draw d;
    plan::Battery b;
    b.chemistry = plan::Chemistry::lead_agm;
    b.nominal = 12_V;
    b.capacity = 100_Ah;
    d.add("G1", b);
    d.add("G2", b);
    auto strip = fl::test::fuse_of(100);
    strip.type = "ISO8820-5-SF30";
    d.add("F1", strip);
    d.add("F2", strip);
    plan::FuseBox box = fl::test::box_of({10, 0});
    box.ways[0].type = "ISO8820-3-C";
    d.add("F3", box);
    d.add("W1", plan::Busbar{});
    d.add("E1", plan::Load{});
    d.wire("K1", "G1.+", "F1.1", 0.2_m, 25);
    d.wire("K2", "F1.2", "W1.1", 1_m, 25);
    d.wire("K3", "G2.+", "F2.1", 0.2_m, 25);
    d.wire("K4", "F2.2", "W1.2", 1_m, 25);
    d.wire("K5", "W1.3", "F3.in", 1_m, 10);
    d.wire("K6", "F3.1", "E1.+", 4_m, 2.5);
    d.wire("K7", "E1.-", "G1.-", 4_m, 2.5);
    d.wire("K8", "G1.-", "G2.-", 1_m, 25);
    return d;
}

const std::vector<std::string>* row(const listing::Listing& table, std::string_view first,
                                    std::string_view second) {
    for (const auto& r : table.rows)
        if (r[0] == first && r[1] == second) return &r;
    return nullptr;
}

TEST(ThroughListing, EveryDeviceInEachDirection) {
    const Draw d = two_banks();
    const auto a = assess::assess(d.in);
    const auto table = listing::through(*a, fault::through_devices(a->installation, a->network));
    // F1 by G1 towards the bar, and by G2 the other way, into a short on G1's side.
    const auto *out = row(table, "F1", "F1.2"), *back = row(table, "F1", "F1.1");
    ASSERT_TRUE(out && back);
    EXPECT_EQ((*out)[3], "F1.2") << "the greatest right behind it";
    EXPECT_EQ((*back)[3], "F1.1") << "and so the other way";
    EXPECT_EQ((*back)[4].find("G1 weak"), std::string::npos);
    // The way feeds only: its least is at the load, the last before which nothing else opens.
    const auto* way = row(table, "F3 way 1", "F3.1");
    ASSERT_TRUE(way);
    EXPECT_EQ((*way)[6], "E1.+");
    EXPECT_EQ((*way)[7], "G1 weak, G2 weak");
    EXPECT_FALSE(row(table, "F3 way 1", "F3.in"));
    EXPECT_FALSE(row(table, "F3 way 2", "F3.2")) << "no link in it";
}

TEST(CurveSources, OneRowForEachOrigin) {
    const Draw d = two_banks();
    const auto table = listing::curve_sources(*assess::assess(d.in));
    ASSERT_EQ(table.rows.size(), 2u);
    EXPECT_EQ(table.rows[0][0], "F1, F2");
    EXPECT_EQ(table.rows[0][1], "memory");
    EXPECT_NE(table.rows[0][2].find("ISO 8820-5"), std::string::npos);
    EXPECT_EQ(table.rows[1][0], "F3 way 1");
    EXPECT_EQ(table.rows[1][1], "second hand, memory");
}

} // namespace
