#include "core/arrange/arrange.h"
#include "core/edit/edit.h"
#include "tests/support/case.h"
#include "tests/support/sheet_faults.h"

#include <gtest/gtest.h>

#include <set>

using namespace fl;
using arrange::Layout;
using plan::Installation;

namespace {

Installation read(std::string_view text) {
    test::Case c = test::read_case(std::string(text) + "\nexpect only 0 findings");
    for (const auto& p : c.problems) ADD_FAILURE() << p;
    return c.installation;
}
Installation demo(const std::string& name = "bicycle_workshop") {
    test::Case c = test::read_case(test::source_file("tests/fixtures/demo/" + name + ".case"));
    for (const auto& p : c.problems) ADD_FAILURE() << p;
    return c.installation;
}
Layout laid(const Installation& in) {
    return arrange::arrange(in, network::build(in));
}
void clean(const Installation& in, const Layout& layout) {
    for (const auto& fault : test::sheet_faults(in, layout)) ADD_FAILURE() << fault;
}
const arrange::Symbol& symbol(const Installation& in, const Layout& layout, std::string_view designation,
                              std::string_view part = {}) {
    return *layout.symbol(plan::find(in, designation)->id, part);
}
plan::Point pin(const arrange::Symbol& s, std::string_view terminal) {
    for (const auto& p : s.pins)
        if (p.terminal == terminal) return p.at;
    ADD_FAILURE() << "no pin " << terminal;
    return {};
}

TEST(Arrange, TheDemoStandsOnOneCleanSheet) {
    const Installation in = demo();
    const Layout layout = laid(in);
    EXPECT_EQ(layout.pages.size(), 1u);
    EXPECT_TRUE(layout.marks.empty());
    clean(in, layout);
    // everything is named, every conductor has room for the overlay's figure, and nothing had to move away
    std::set<plan::Subject> named;
    for (const auto& label : layout.labels) {
        named.insert(label.subject);
        EXPECT_TRUE(label.leader.empty()) << label.lines.front().text;
    }
    for (const auto& c : in.components) EXPECT_TRUE(named.contains(plan::Subject::of(c.id))) << c.designation;
    for (const auto& w : in.conductors) EXPECT_TRUE(named.contains(plan::Subject::of(w.id))) << w.designation;
    for (const auto& label : layout.labels)
        if (label.subject.kind == plan::Subject::Kind::conductor) {
            EXPECT_EQ(std::count_if(label.lines.begin(), label.lines.end(),
                                    [](const auto& l) { return l.kind == arrange::LineKind::figure; }),
                      1);
        }
}

/// Whether a straight line meets a box, by clipping it (Liang and Barsky, 1984).
bool meets(plan::Point a, plan::Point b, const arrange::Rect& box) {
    double from = 0, to = 1;
    const auto clip = [&](double step, double room) {
        if (step == 0) return room >= 0;
        (step < 0 ? from : to) = step < 0 ? std::max(from, room / step) : std::min(to, room / step);
        return from <= to;
    };
    return clip(a.x_mm - b.x_mm, a.x_mm - box.left_mm) && clip(b.x_mm - a.x_mm, box.right_mm - a.x_mm) &&
           clip(a.y_mm - b.y_mm, a.y_mm - box.top_mm) && clip(b.y_mm - a.y_mm, box.bottom_mm - a.y_mm);
}

TEST(Arrange, LeadersOfTheBeginnersSheetCrossNoText) {
    const Installation in = demo("bicycle_workshop_mistakes");
    const Layout layout = laid(in);
    clean(in, layout);
    int leaders = 0;
    for (const auto& label : layout.labels) {
        if (label.leader.empty()) continue;
        ++leaders;
        for (const auto& other : layout.labels)
            for (const auto& line : other.lines)
                if (other.page == label.page && &other != &label) {
                    EXPECT_FALSE(meets(label.leader.front(), label.leader.back(), line.box))
                        << label.lines.front().text << " over " << line.text;
                }
    }
    EXPECT_GT(leaders, 0);
}

TEST(Arrange, TheDemoReadsFromLeftToRightAndFromPlusToMinus) {
    const Installation in = demo();
    const Layout layout = laid(in);
    const auto x = [&](std::string_view d) { return symbol(in, layout, d).box.left_mm; };
    const auto y = [&](std::string_view d) { return symbol(in, layout, d).box.top_mm; };
    for (const auto& [a, b] :
         {std::pair{"G3", "G1"}, {"G1", "T1"}, {"T1", "W20"}, {"W20", "F6"}, {"F6", "E1"}, {"G2", "T2"}})
        EXPECT_LT(x(a), x(b)) << a << " " << b;
    for (const auto& [above, below] :
         {std::pair{"W20", "G2"}, {"G2", "W21"}, {"G2", "B1"}, {"W21", "X3"}, {"E8", "X2"}})
        EXPECT_LT(y(above), y(below)) << above << " " << below;
    // body points stand in a row at the bottom
    EXPECT_EQ(y("X1"), y("X2"));
    EXPECT_EQ(y("X1"), y("X3"));
    // each load in line with its way, and the box's minus bar at the right end of the rows
    const auto& box = symbol(in, layout, "F6");
    const auto& rail = symbol(in, layout, "F6", "-");
    int row = 0;
    for (const auto* load : {"E1", "E2", "E3", "E4", "E5"}) {
        const char way[] = {static_cast<char>('1' + row++), 0};
        const auto& s = symbol(in, layout, load);
        EXPECT_EQ(pin(s, "+").y_mm, pin(box, way).y_mm) << load;
        EXPECT_LT(pin(box, way).x_mm, pin(s, "+").x_mm) << load;
        EXPECT_LT(pin(s, "-").x_mm, rail.box.left_mm) << load;
    }
    EXPECT_EQ(rail.quarter_turns, 1);
}

TEST(Arrange, ADeviceSitsOnItsConductorsLine) {
    const Installation in = demo();
    const Layout layout = laid(in);
    for (const auto* fuse : {"F1", "F2", "F3", "F4", "Q1", "B1"}) {
        const auto& s = symbol(in, layout, fuse);
        ASSERT_EQ(s.pins.size(), 2u);
        // both conductors leave straight on: their first corner lies in the device's own line
        int straight = 0;
        for (const auto& w : in.conductors)
            for (const auto& stretch : layout.wire(w.id)->stretches)
                for (const auto& [end, next] :
                     {std::pair{stretch.points.front(), stretch.points[1]},
                      {stretch.points.back(), stretch.points[stretch.points.size() - 2]}})
                    if (end == s.pins[0].at || end == s.pins[1].at)
                        straight += s.quarter_turns % 2 ? next.x_mm == end.x_mm : next.y_mm == end.y_mm;
        EXPECT_EQ(straight, 2) << fuse;
    }
}

TEST(Arrange, IsTheSameEachTime) {
    const Installation in = demo();
    EXPECT_EQ(laid(in), laid(in));
}

TEST(Arrange, AMovedSymbolKeepsItsSpotAndTheRestStays) {
    Installation in = demo();
    const Layout before = laid(in);
    const auto inverter = plan::find(in, "T2")->id;
    plan::Spot spot;
    spot.id = {in.next_id++};
    spot.component = inverter;
    spot.at = {260, 175};
    in.spots = in.spots.with(spot);
    const Layout after = laid(in);
    clean(in, after);
    const auto& moved = *after.symbol(inverter);
    EXPECT_EQ(moved.at, spot.at);
    EXPECT_TRUE(moved.by_hand);
    // by hand: only its own fuse is on a line that moved
    for (const auto& s : before.symbols)
        if (s.component != inverter && in.components.find(s.component)->designation != "F4") {
            EXPECT_EQ(after.symbol(s.component, s.part)->at, s.at)
                << in.components.find(s.component)->designation;
        }
}

TEST(Arrange, AMovedBoxTakesItsRowsAlong) {
    Installation in = demo();
    const Layout before = laid(in);
    const auto box = plan::find(in, "F6")->id;
    plan::Spot spot;
    spot.id = {in.next_id++};
    spot.component = box;
    spot.at = {before.symbol(box)->at.x_mm - 5, before.symbol(box)->at.y_mm + 10};
    in.spots = in.spots.with(spot);
    const Layout after = laid(in);
    clean(in, after);
    for (const auto* load : {"E1", "E2", "E3", "E4", "E5"}) {
        const auto a = symbol(in, before, load).at, b = symbol(in, after, load).at;
        EXPECT_EQ(b, (plan::Point{a.x_mm - 5, a.y_mm + 10})) << load;
    }
}

TEST(Arrange, WhatIsSettledStaysWhereItIs) {
    const Installation in = demo();
    const Layout first = laid(in);
    const Installation kept = arrange::settled(in, first);
    EXPECT_EQ(kept.sheets.size(), 1u);
    EXPECT_EQ(kept.spots.size(), kept.components.size());
    EXPECT_TRUE(edit::faults(kept).empty());
    const Layout second = laid(kept);
    clean(kept, second);
    for (const auto& s : first.symbols) {
        const auto* again = second.symbol(s.component, s.part);
        ASSERT_TRUE(again);
        EXPECT_EQ(again->at, s.at);
        EXPECT_EQ(again->quarter_turns, s.quarter_turns);
        EXPECT_EQ(again->mirrored, s.mirrored);
    }
    EXPECT_EQ(second.wires, first.wires);
}

TEST(Arrange, CornersByHandAreFollowed) {
    Installation in = demo();
    const Layout before = laid(in);
    const auto* w = plan::find_conductor(in, "W14");
    const auto ends = before.wire(w->id)->stretches.front().points;
    plan::Route route;
    route.id = {in.next_id++};
    route.conductor = w->id;
    route.corners = {{ends.front().x_mm, 150}, {ends.front().x_mm + 20, 150}, {ends.front().x_mm + 20, 190}};
    in.routes = in.routes.with(route);
    const Layout after = laid(in);
    clean(in, after);
    const auto& wire = *after.wire(w->id);
    EXPECT_TRUE(wire.by_hand);
    ASSERT_EQ(wire.stretches.size(), 1u);
    const auto& points = wire.stretches[0].points;
    EXPECT_NE(std::search(points.begin(), points.end(), route.corners.begin(), route.corners.end()),
              points.end());
}

TEST(Arrange, TwelveWaysKeepTheirDistance) {
    std::string text = "battery G1 service 12V 100Ah\nfusebox F1 "
                       "ways=10A:a,10A:b,10A:c,10A:d,10A:e,10A:f,10A:g,10A:h,10A:i,10A:j,"
                       "10A:k,10A:l\nwire W1 G1:+ F1:in 1m 10mm2\nreturn W2 F1:- G1:- 1m 10mm2\n";
    for (int i = 1; i <= 12; ++i) {
        const std::string n = std::to_string(i);
        for (const char* part : {"load E", " 2A\nwire W1", "0 F1:", " E", ":+ 2m 2.5mm2\nreturn W2", "0 E"})
            text.append(part).append(n);
        text += ":- F1:- 2m 2.5mm2\n";
    }
    const Installation in = read(text);
    const Layout layout = laid(in);
    EXPECT_EQ(layout.pages.size(), 1u);
    clean(in, layout);
    const auto& box = symbol(in, layout, "F1");
    // by hand, symbols.json: 17.5 mm from way to way
    EXPECT_EQ(pin(box, "12").y_mm - pin(box, "1").y_mm, 11 * 17.5);
}

TEST(Arrange, AFullSheetGoesOnOnTheNext) {
    std::string text =
        "battery G1 service 12V 100Ah\nbar W20 plus 30\nbar W21 minus 30\nwire W1 G1:+ W20:1 1m 50mm2\n"
        "return W2 G1:- W21:1 1m 50mm2\n";
    for (int i = 2; i <= 25; ++i) {
        const std::string n = std::to_string(i);
        for (const char* part :
             {"load E", " 2A\nwire W1", "0 W20:", " E", ":+ 2m 2.5mm2\nreturn W2", "0 E", ":- W21:"})
            text.append(part).append(n);
        text += " 2m 2.5mm2\n";
    }
    const Installation in = read(text);
    const Layout layout = laid(in);
    EXPECT_GT(layout.pages.size(), 1u);
    EXPECT_FALSE(layout.marks.empty());
    clean(in, layout);
    // both ends of a broken line name each other's page and zone
    for (const auto& m : layout.marks)
        for (const auto& other : layout.marks)
            if (m.conductor && m.conductor == other.conductor && !(m == other)) {
                EXPECT_EQ(m.text,
                          "/" + std::to_string(other.page + 1) + "." +
                              arrange::zone(layout.pages[static_cast<std::size_t>(other.page)], other.at));
            }
}

TEST(Arrange, ZonesAreCountedFromTheMiddle) {
    arrange::Page page;
    page.frame = {20, 10, 410, 287};
    // by hand: A3 has 8 fields by 6, 50 mm from the middle (210, 148.5), the outermost take the rest
    EXPECT_EQ(arrange::zone(page, {25, 15}), "A1");
    EXPECT_EQ(arrange::zone(page, {209, 148}), "C4");
    EXPECT_EQ(arrange::zone(page, {211, 149}), "D5");
    EXPECT_EQ(arrange::zone(page, {405, 285}), "F8");
    // rows change at 98.5
    EXPECT_EQ(arrange::zone(page, {159, 99}), "C3");
    EXPECT_EQ(arrange::zone(page, {159, 98}), "B3");
}

TEST(Arrange, TextIsNoWiderThanItsBox) {
    // printed: the font's advances; "10 A" = 0.58 + 0.58 + 0.256 + 0.677 em, em = 3.5 / 0.7165 mm
    EXPECT_NEAR(arrange::text_width_mm("10 A", 3.5), 2.093 * 3.5 / 0.7165, 0.12);
    EXPECT_GT(arrange::text_width_mm("W20", 3.5, true), arrange::text_width_mm("W20", 3.5));
    EXPECT_EQ(arrange::text_width_mm("", 3.5), 0);
}

} // namespace
