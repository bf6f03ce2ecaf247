#include "core/listing/chart.h"
#include "core/quantity/unit.h"
#include "core/sizing/endure.h"
#include "tests/support/assessed.h"
#include "tests/support/case.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace fl::listing {
namespace {

using namespace fl::literals;
using test::assessed;

// One battery, a blade link of 10 A, one load with a starting current.
constexpr std::string_view pump = R"(
rules     van 12V plain-copper
battery   G1 lead service 12V 70Ah resistance=10mohm "Service battery"
load      E1 5A inrush=20A "Pump"
wire      W1 G1:+ E1:+ 4.3m 2.5mm2 PVC70
return    W2 E1:- G1:- 4.3m 2.5mm2 PVC70
fuse      F1 ISO8820-3-C 10A on=W1 at=0.2m
expect    only 0 findings
)";

plan::ComponentId id(const assess::Assessment& a, std::string_view designation) {
    for (const plan::Component& c : a.installation.components)
        if (c.designation == designation) return c.id;
    ADD_FAILURE() << "no " << designation;
    return {};
}
plan::Subject wire(const assess::Assessment& a, const char* designation) {
    return plan::Subject::of(plan::find_conductor(a.installation, designation)->id);
}
std::vector<Chain> chains_of(const assess::Assessment& a, const char* designation) {
    return chains(a, plan::Subject::of(id(a, designation)));
}

void expect_points(const std::vector<ChartPoint>& points, const std::vector<std::pair<double, double>>& A_s) {
    ASSERT_EQ(points.size(), A_s.size());
    for (std::size_t i = 0; i < points.size(); ++i) {
        EXPECT_NEAR(points[i].current.si() / A_s[i].first, 1, 1e-4) << i;
        EXPECT_NEAR(points[i].time.si() / A_s[i].second, 1, 1e-3) << i;
    }
}

const ChartMark* mark(const Chart& chart, ChartMark::Kind kind) {
    const auto found = std::find_if(chart.marks.begin(), chart.marks.end(),
                                    [&](const ChartMark& m) { return m.kind == kind; });
    return found == chart.marks.end() ? nullptr : &*found;
}

// The same chain whatever of it is chosen, and on from the fuse to where its conductor ends.
TEST(Chains, LeadFromTheSourceToWhatIsChosen) {
    const auto a = assessed(pump);
    const auto to_load = chains_of(*a, "E1");
    ASSERT_EQ(to_load.size(), 1U);
    EXPECT_EQ(to_load[0].source, id(*a, "G1"));
    EXPECT_EQ(to_load[0].branches.size(), 3U) << "0.2 m, the fuse, the rest";
    EXPECT_EQ(chains_of(*a, "F1")[0].branches, to_load[0].branches);
    EXPECT_EQ(chains(*a, wire(*a, "W1"))[0].branches, to_load[0].branches);
    EXPECT_EQ(chains(*a, wire(*a, "W1a"))[0].branches.size(), 1U) << "no device before it";
    EXPECT_TRUE(chains(*a, wire(*a, "W2")).empty()) << "return";
    EXPECT_TRUE(chains_of(*a, "G1").empty()) << "nothing feeds the only source";
    EXPECT_TRUE(chains(*a, {}).empty());
}

// Gates of ISO 8820-3 type C times 10 A; beyond 60 A I2t stays: 0.02 s x (60/I)^2.
TEST(ChartOf, ADeviceIsItsGatesAndAConstantJouleIntegral) {
    const auto a = assessed(pump);
    const Chart c = chart(*a, chains_of(*a, "E1")[0]);
    EXPECT_EQ(c.title, "G1 Service battery to E1 Pump");
    ASSERT_EQ(c.devices.size(), 1U);
    const ChartDevice& f1 = c.devices[0];
    EXPECT_EQ(f1.name, "F1");
    EXPECT_EQ(f1.what, "10 A blade standard");
    EXPECT_NE(f1.source.find("ISO 8820-3"), std::string::npos);
    const double to = c.to.si(), over = 3600 / (to * to); // the last but one point is right behind the gate
    expect_points(f1.least, {{11, 360000},
                             {13.5, 0.75},
                             {16, 0.25},
                             {20, 0.15},
                             {35, 0.04},
                             {60, 0.02},
                             {60, 0.02},
                             {to, 0.02 * over}});
    expect_points(f1.greatest,
                  {{13.5, 600}, {16, 50}, {20, 5}, {35, 0.5}, {60, 0.1}, {60, 0.1}, {to, 0.1 * over}});
}

// UL 248-15 class T: it need not open at 1.1 times; the first printed time is at 1.35 times, 60 s at least.
TEST(ChartOf, WhereNoLeastTimeIsPrintedTheNextOneHolds) {
    std::string with_t(pump);
    with_t.replace(with_t.find("ISO8820-3-C 10A"), 15, "UL248-15-T 60A");
    const auto a = assessed(with_t);
    const ChartDevice f1 = chart(*a, chains_of(*a, "E1")[0]).devices[0];
    ASSERT_GT(f1.least.size(), 2U);
    EXPECT_NEAR(f1.least[0].current.si(), 66, 1e-9);
    EXPECT_NEAR(f1.least[1].current.si(), 81, 1e-9);
    EXPECT_EQ(f1.least[0].time, f1.least[1].time);
    EXPECT_NEAR(f1.greatest[0].current.si(), 81, 1e-9);
}

// (115 x 2.5)^2 = 82656 A2s: 5 s at 128.6 A, 1 ms at 9092 A; above 5 s the line goes on to what the conductor
// may carry.
TEST(ChartOf, AConductorIsItsWithstandAndWhatItMayCarry) {
    const auto a = assessed(pump);
    const Chart c = chart(*a, chains_of(*a, "E1")[0]);
    ASSERT_EQ(c.conductors.size(), 1U) << "both pieces stand the same";
    const ChartConductor& w1 = c.conductors[0];
    EXPECT_EQ(w1.name, "W1a, W1");
    EXPECT_EQ(w1.size, "2.5 mm²");
    expect_points(w1.adiabatic, {{128.574, 5}, {9091.5, 1e-3}});
    const Current may = a->may_carry[static_cast<std::size_t>(a->network.branch_of(w1.conductors.back()))];
    EXPECT_EQ(w1.lasting, may);
    ASSERT_GT(w1.slower.size(), 5U);
    EXPECT_NEAR(w1.slower.back().time.si(), 5, 1e-6);
    EXPECT_NEAR(w1.slower.back().current.si(), 128.574, 1e-2);
    for (std::size_t i = 1; i < w1.slower.size(); ++i) {
        EXPECT_LT(w1.slower[i - 1].current, w1.slower[i].current);
        EXPECT_GE(w1.slower[i - 1].time, w1.slower[i].time);
        // The same as the rules judge by (tests/core/sizing/endure_test).
        EXPECT_NEAR(w1.slower[i].time / *sizing::endures(w1.wire, w1.lie, w1.slower[i].current), 1, 1e-9);
    }
    EXPECT_GT(w1.slower.front().current, may) << "what it stands for hours is more than it may carry";
}

TEST(ChartOf, MarksAreWhatTheLastDeviceSees) {
    const auto a = assessed(pump);
    const Chain chain = chains_of(*a, "E1")[0];
    const Chart c = chart(*a, chain);
    ASSERT_TRUE(mark(c, ChartMark::Kind::lasting));
    EXPECT_NEAR(mark(c, ChartMark::Kind::lasting)->current.si(), 5, 1e-6);
    const ChartMark* inrush = mark(c, ChartMark::Kind::starting);
    ASSERT_TRUE(inrush);
    EXPECT_EQ(inrush->name, "inrush of E1 Pump");
    EXPECT_EQ(inrush->current, 20_A);
    const ChartMark *least = mark(c, ChartMark::Kind::least_fault),
                    *largest = mark(c, ChartMark::Kind::largest_fault);
    ASSERT_TRUE(least && largest);
    // One source, so all of it comes through the fuse.
    EXPECT_NEAR(least->current.si(), a->faults[static_cast<std::size_t>(chain.end)].least->total.si(), 1e-6);
    EXPECT_EQ(least->name, "least fault, far end of W1");
    EXPECT_EQ(largest->name, "largest fault right behind F1");
    EXPECT_GT(largest->current, least->current);
    ASSERT_EQ(least->opens.size(), 1U);
    // Beyond 6 x 10 A: 0.1 s x (60/I)^2.
    EXPECT_NEAR(least->opens[0].opens.greatest->si(), 360 / std::pow(least->current.si(), 2), 1e-6);
    EXPECT_TRUE(std::is_sorted(c.marks.begin(), c.marks.end(),
                               [](const auto& x, const auto& y) { return x.current < y.current; }));
}

// The least current is 5 A: 4 A with a fifth of room, 2 A in the row 1, 2, 5.
TEST(ChartOf, ItsFrameIsInTheRowOfOneTwoFive) {
    const auto a = assessed(pump);
    const Chart c = chart(*a, chains_of(*a, "E1")[0]);
    EXPECT_EQ(c.from, 2_A);
    const double largest = mark(c, ChartMark::Kind::largest_fault)->current.si();
    EXPECT_GE(c.to.si(), largest * 1.5);
    const double mantissa = c.to.si() / std::pow(10, std::floor(std::log10(c.to.si()) + 1e-9));
    EXPECT_TRUE(std::fabs(mantissa - 1) < 1e-9 || std::fabs(mantissa - 2) < 1e-9 ||
                std::fabs(mantissa - 5) < 1e-9)
        << c.to.si();
}

// By hand on the gates of 10 A type C: 12 times is twice the last gate, a quarter of its times; 1.2 times is
// between 1.1 (100 h) and 1.35 (0.75 s), u = 0.42486: 360000 (0.75/360000)^u = 1388 s.
TEST(ChartText, SaysWhenADeviceOpens) {
    const auto a = assessed(pump);
    const ChartDevice f1 = chart(*a, chains_of(*a, "E1")[0]).devices[0];
    EXPECT_EQ(opening_text(opening(f1, 120_A)), "5 ms to 25 ms");
    EXPECT_EQ(opening_text(opening(f1, 20_A)), "150 ms to 5 s");
    EXPECT_EQ(opening_text(opening(f1, 12_A)), "need not open, not before 23 min");
    EXPECT_EQ(opening_text(opening(f1, 5_A)), "need not open, not before 100 h");
    EXPECT_EQ(opening_text(opening(f1, 600_A)), "up to 1 ms") << "0.1 s x (60/600)^2";
    EXPECT_EQ(opening_text(opening(f1, 700_A)), "under 1 ms");
    EXPECT_EQ(opening_text(opening(f1, 400_A)), "up to 2.3 ms") << "0.1 s x (60/400)^2";
    EXPECT_EQ(opening_text({}), "not known");
}

// 82656 A2s: 287.5 A 1 s, 9200 A 0.98 ms.
TEST(ChartText, SaysWhatAConductorStands) {
    const auto a = assessed(pump);
    ChartConductor w1 = chart(*a, chains_of(*a, "E1")[0]).conductors[0];
    EXPECT_EQ(withstand_text(w1, 5_A), "carries it lastingly");
    EXPECT_EQ(withstand_text(w1, *w1.lasting * 1.1), "stands it for hours, more than it may carry");
    EXPECT_EQ(withstand_text(w1, 287.5_A), "stands 1 s");
    EXPECT_EQ(withstand_text(w1, 9200_A), "stands less than 1 ms");
    w1.lie.insulation = catalogue::insulation("class60"); // no accepted k
    EXPECT_EQ(withstand_text(w1, 91_A), "not known");
}

// An engine's starting lead behind a link: 12.7 V over 24 mohm of the starter and the battery's 6 mohm is
// 424 A at most, copper takes a little of it; for a short time only.
TEST(ChartOf, CrankingIsAStartingCurrent) {
    const auto a = assessed(R"(
rules     van 12V plain-copper
battery   G1 lead starter 12V 70Ah resistance=6mohm
starter   M1 24mohm
wire      W1 G1:+ M1:+ 1.5m 35mm2
return    W2 M1:- G1:- 1.5m 35mm2
fuse      F1 ISO8820-5-SF51 300A on=W1 at=0.2m
expect    only 0 findings
)");
    const Chart c = chart(*a, chains_of(*a, "M1")[0]);
    const ChartMark* cranking = mark(c, ChartMark::Kind::starting);
    ASSERT_TRUE(cranking);
    EXPECT_EQ(cranking->name, "for a short time: cranking");
    EXPECT_GT(cranking->current, 330_A);
    EXPECT_LT(cranking->current, 424_A);
    ASSERT_EQ(cranking->opens.size(), 1U);
    // 300 A of family 1: below 1.35 times it need not open.
    EXPECT_FALSE(cranking->opens[0].opens.greatest);
    EXPECT_FALSE(mark(c, ChartMark::Kind::lasting)) << "nothing lasting flows";
}

constexpr std::string_view two_batteries = R"(
rules     van 12V plain-copper
battery   G1 lead starter 12V 70Ah resistance=6mohm
battery   G2 lead service 12V 70Ah resistance=6mohm
bar       W20 plus 4
bar       W21 minus 4
load      E1 5A
wire      W1 G1:+ W20:1 1m 16mm2
wire      W2 G2:+ W20:2 3m 16mm2
wire      W3 W20:3 E1:+ 2m 2.5mm2
return    W4 G1:- W21:1 1m 16mm2
return    W5 G2:- W21:2 3m 16mm2
return    W6 E1:- W21:3 2m 2.5mm2
fuse      F1 ISO8820-5-SF30 80A on=W1 at=0.1m
fuse      F2 ISO8820-5-SF30 80A on=W2 at=0.1m
fuse      F3 ISO8820-3-C 15A on=W3 at=0.1m
expect    only 0 findings
)";

// Both feed a short behind F3; F1 carries what G1 gives, F3 the sum.
TEST(ChartOf, EachDeviceSeesItsShare) {
    const auto a = assessed(two_batteries);
    const auto all = chains_of(*a, "E1");
    ASSERT_EQ(all.size(), 2U);
    EXPECT_EQ(all[0].source, id(*a, "G1")) << "shorter, so it gives more";
    const Chart c = chart(*a, all[0]);
    ASSERT_EQ(c.devices.size(), 2U);
    EXPECT_EQ(c.devices[0].name, "F1");
    EXPECT_EQ(c.devices[1].name, "F3");
    // In the largest each gives all it can: F1 what G1 has in it, F3 the sum.
    const ChartMark* largest = mark(c, ChartMark::Kind::largest_fault);
    ASSERT_EQ(largest->opens.size(), 2U);
    // The short right behind F3 is before its conductor, so there is more than at the end of that.
    EXPECT_GT(largest->opens[1].current->si(),
              a->faults[static_cast<std::size_t>(all[0].end)].largest->total.si());
    EXPECT_GT(largest->opens[0].current->si(), largest->opens[1].current->si() * 0.5)
        << "the nearer one gives more";
    EXPECT_LT(largest->opens[0].current->si(), largest->opens[1].current->si());
    // In the least F1 sees less than half: G2 may hold the voltage up.
    const ChartMark* least = mark(c, ChartMark::Kind::least_fault);
    ASSERT_EQ(least->opens.size(), 2U);
    EXPECT_LT(least->opens[0].current->si(), least->opens[1].current->si() * 0.5);
    EXPECT_EQ(least->current, *least->opens[1].current);
    const Listing table = chart_table(c);
    ASSERT_EQ(table.rows.size(), 4U) << "two devices, two sizes";
    EXPECT_NE(table.rows[0].back().find(", sees "), std::string::npos) << table.rows[0].back();
    EXPECT_EQ(table.rows[1].back().find(", sees "), std::string::npos) << table.rows[1].back();
}

// From the charger's side, a battery's own post: the least comes from the battery alone.
TEST(ChartOf, AFaultThatItMaySeeNothingOfHasNoLine) {
    const auto a = assessed(test::source_file("tests/fixtures/demo/bicycle_workshop.case"));
    const auto all = chains_of(*a, "G2");
    ASSERT_FALSE(all.empty());
    EXPECT_EQ(all[0].source, id(*a, "T1"));
    const Chart c = chart(*a, all[0]);
    EXPECT_FALSE(mark(c, ChartMark::Kind::least_fault));
    EXPECT_TRUE(std::any_of(c.notes.begin(), c.notes.end(), [](const std::string& note) {
        return note.find("may see nothing of the least fault") != std::string::npos;
    }));
}

TEST(ChartOf, WhatCannotBeDrawnIsSaid) {
    const auto a = assessed(R"(
rules     van 12V plain-copper
battery   G1 lead service 12V 70Ah
load      E1 5A
wire      W1 G1:+ E1:+ 1m
return    W2 E1:- G1:- 1m 2.5mm2
breaker   F1 10A on=W1 at=0.1m
expect    only 0 findings
)");
    const Chart c = chart(*a, chains_of(*a, "E1")[0]);
    EXPECT_FALSE(c.devices[0].lacks.empty());
    EXPECT_TRUE(c.devices[0].least.empty());
    EXPECT_TRUE(c.conductors.empty());
    const auto says = [&](const char* text) {
        return std::find(c.notes.begin(), c.notes.end(), text) != c.notes.end();
    };
    EXPECT_TRUE(says("F1 is not drawn: no curve of this circuit-breaker is known."));
    EXPECT_TRUE(says("W1a is not drawn: its size is not known."));
    EXPECT_TRUE(says("The least fault, far end of W1 is not known."));
    EXPECT_EQ(opening_text(opening(c.devices[0], 100_A)), "not known");
}

// The demo: of each trunk of devices the largest last one, the longest chain first. G1-F1 to the charger;
// behind F3 the inverter's F4 (150 A against the charger's 50 A); behind F3 and F5 the first way of 15 A. The
// signal's own fuse gives nothing worth drawing.
TEST(ChartsOnPaper, OneForEachTrunk) {
    const auto a = assessed(test::source_file("tests/fixtures/demo/bicycle_workshop.case"));
    std::vector<std::string> last;
    for (const Chain& chain : chains_on_paper(*a)) last.push_back(chart(*a, chain).devices.back().name);
    EXPECT_EQ(last, (std::vector<std::string>{"F6.1", "F4", "F1"}));
}

// A device that a finding names comes first.
TEST(ChartsOnPaper, WhatIsWrongComesFirst) {
    const auto a = assessed(test::source_file("tests/fixtures/demo/bicycle_workshop_mistakes.case"));
    const auto all = chains_on_paper(*a);
    ASSERT_FALSE(all.empty());
    EXPECT_LE(all.size(), 4U);
    const plan::Subject first = chart(*a, all[0]).devices.back().subject;
    EXPECT_TRUE(std::any_of(a->findings.begin(), a->findings.end(), [&](const rules::Finding& f) {
        return std::find(f.subjects.begin(), f.subjects.end(), first) != f.subjects.end();
    }));
    EXPECT_TRUE(chains_on_paper(*assess::assess(plan::Installation{})).empty());
}

} // namespace
} // namespace fl::listing
