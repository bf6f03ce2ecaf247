#include "core/edit/edit.h"
#include "core/file/file.h"
#include "core/protect/curve.h"
#include "core/protect/device_curve.h"
#include "tests/core/network/draw.h"

#include <gtest/gtest.h>

#include <string>

// A device's own operating times: in the document, checked, and used.

using namespace fl;
using namespace fl::literals;
using fl::test::Draw;

namespace {

plan::CurvePoint point(double ampere, std::optional<double> least_s, std::optional<double> greatest_s) {
    plan::CurvePoint p;
    p.current = Current::si(ampere);
    if (least_s) p.least = Time::si(*least_s);
    if (greatest_s) p.greatest = Time::si(*greatest_s);
    return p;
}

plan::Installation with(std::vector<plan::CurvePoint> curve) {
    Draw d;
    auto fuse = fl::test::fuse_of(100);
    fuse.type = "ISO8820-5-SF30";
    fuse.curve = std::move(curve);
    d.add("F1", fuse);
    return d.in;
}

std::string wrong(std::vector<plan::CurvePoint> curve) {
    std::string all;
    for (const Problem& p : edit::faults(with(std::move(curve))))
        all += p.code + " " + p.where + ": " + p.wrong + " (" + p.right + ")\n";
    return all;
}

TEST(OwnCurve, RightOnesPass) {
    EXPECT_EQ(wrong({}), "");
    EXPECT_EQ(wrong({point(110, 14400, {}), point(150, 90, 3600), point(500, 0.1, 1)}), "");
    EXPECT_EQ(wrong({point(150, {}, 3600), point(500, 0.1, {})}), "") << "an edge need not be everywhere";
}

TEST(OwnCurve, WrongOnesSayWhatIsRight) {
    EXPECT_EQ(wrong({point(150, 90, 3600)}),
              "valid.curve F1 curve.1: a curve of one point says nothing between (at least two points)\n");
    EXPECT_NE(
        wrong({point(500, 0.1, 1), point(150, 0.05, 0.5)}).find("is not above that of the point before"),
        std::string::npos);
    EXPECT_NE(wrong({point(150, 1, 10), point(500, 2, 5)}).find("it takes longer, 2 s, than at less current"),
              std::string::npos);
    EXPECT_NE(
        wrong({point(150, 20, 10), point(500, 1, 5)}).find("the least time, 20 s, is above the greatest"),
        std::string::npos);
    EXPECT_NE(wrong({point(150, {}, {}), point(500, 1, 5)}).find("F1 curve.1: the point has no time"),
              std::string::npos);
    EXPECT_NE(wrong({point(0, 1, 5), point(500, 1, 5)}).find("a current above 0 A"), std::string::npos);
    // Compared with the last point that has the edge.
    EXPECT_NE(wrong({point(150, 1, {}), point(300, {}, 5), point(500, 2, 3)}).find("curve.3"),
              std::string::npos);
}

TEST(OwnCurve, IsKeptInTheDocument) {
    const auto in = with({point(150, 90, 3600), point(500, 0.1, 1)});
    const auto text = file::save(in);
    ASSERT_TRUE(text);
    EXPECT_NE(text->find("\"curve\""), std::string::npos) << *text;
    EXPECT_NE(text->find("\"greatest_s\": 3600"), std::string::npos) << *text;
    const auto read = file::load(*text);
    ASSERT_TRUE(read) << *text;
    EXPECT_EQ(read->components, in.components);
}

TEST(OwnCurve, IsWhatTheDeviceDoes) {
    Draw d;
    auto fuse = fl::test::fuse_of(100);
    fuse.type = "ISO8820-5-SF30";
    d.add("F1", fuse);
    fuse.curve = {point(150, 90, 600), point(500, 0.1, 0.2)};
    d.add("F2", fuse);
    plan::Breaker breaker;
    breaker.rating = 50_A;
    breaker.reset = plan::BreakerReset::electronic;
    d.add("Q1", breaker);
    const auto net = network::build(d.in);
    const auto branch = [&](std::string_view name) {
        for (const auto& b : net.branches)
            if (b.component == plan::find(d.in, name)->id) return b;
        ADD_FAILURE() << name;
        return network::Branch{};
    };
    EXPECT_FALSE(protect::own_type(d.in, branch("F1")));
    const auto own = protect::own_type(d.in, branch("F2"));
    ASSERT_TRUE(own);
    EXPECT_NEAR(protect::opening(*own, 100_A, 500_A).greatest->si(), 0.2, 1e-6);
    EXPECT_EQ(protect::curve_provenance(d.in, branch("F1")).basis, "memory");
    EXPECT_EQ(protect::curve_provenance(d.in, branch("F2")).basis, "entered");
    EXPECT_NE(protect::curve_provenance(d.in, branch("F2")).citations.find("typed"), std::string::npos);
    EXPECT_EQ(protect::curve_provenance(d.in, branch("Q1")).basis, "") << "nobody knows";
}

} // namespace
