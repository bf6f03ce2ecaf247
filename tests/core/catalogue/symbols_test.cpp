#include "core/base/resource.h"
#include "core/catalogue/symbols.h"
#include "core/plan/names.h"
#include "tests/support/svg.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

using namespace fl;
using catalogue::Direction;
using catalogue::SymbolBox;
using catalogue::SymbolInfo;

namespace {

plan::Component of(plan::Parameters with) {
    plan::Component c;
    c.with = std::move(with);
    return c;
}

plan::FuseBox box_of(std::size_t ways, bool minus_bar = true) {
    plan::FuseBox box;
    box.ways.resize(ways);
    box.minus_bar = minus_bar;
    return box;
}

/// Every kind, and every variant of one that has a symbol of its own.
std::vector<plan::Component> every_component() {
    std::vector<plan::Component> all;
    const auto add = [&](plan::Parameters with) { all.push_back(of(std::move(with))); };
    add(plan::Battery{}), add(plan::Alternator{}), add(plan::TakeOffPoint{}), add(plan::SignalPoint{});
    add(plan::StarterMotor{}), add(plan::DriveCharger{}), add(plan::Converter{}), add(plan::MainsCharger{});
    add(plan::SolarController{}), add(plan::Inverter{}), add(plan::Fuse{}), add(plan::Breaker{});
    add(plan::EarthPoint{}), add(plan::Shunt{}), add(plan::Joint{}), add(plan::MainsBoundary{});
    add(plan::Isolator{});
    plan::Alternator sensing_far;
    sensing_far.sense = true;
    add(sensing_far);
    plan::DriveCharger isolated;
    isolated.isolated = true;
    add(isolated);
    plan::Converter apart;
    apart.isolated = true;
    add(apart);
    plan::Relay sensing;
    sensing.control = plan::RelayControl::voltage_sensing;
    add(plan::Relay{}), add(sensing);
    for (std::size_t i = 0; i < plan::names<plan::SwitchRole>().size(); ++i) {
        plan::Switch one;
        one.role = static_cast<plan::SwitchRole>(i);
        add(one);
    }
    for (std::size_t i = 0; i < plan::names<plan::Purpose>().size(); ++i) {
        plan::Load one;
        one.purpose = static_cast<plan::Purpose>(i);
        add(one);
    }
    for (const int studs : {1, 2, 4, 12}) {
        plan::Busbar bar;
        bar.studs = studs;
        add(bar);
    }
    for (const std::size_t ways : {0u, 1u, 6u, 24u}) add(box_of(ways)), add(box_of(ways, false));
    plan::FuseBox with_empty = box_of(3);
    with_empty.ways[1].fitted = false;
    add(with_empty);
    for (const std::size_t count : {0u, 1u, 2u, 5u}) {
        plan::Unit unit;
        for (std::size_t i = 0; i < count; ++i) unit.terminals.push_back("t" + std::to_string(i));
        add(unit);
    }
    return all;
}

bool on_grid(double mm) {
    return std::abs(mm / catalogue::grid_mm - std::round(mm / catalogue::grid_mm)) < 1e-9;
}

bool near(plan::Point a, plan::Point b) {
    return std::abs(a.x_mm - b.x_mm) < 1e-6 && std::abs(a.y_mm - b.y_mm) < 1e-6;
}

test::Svg drawing(std::string_view svg) {
    const auto bytes = resource("symbols/" + std::string(svg) + ".svg");
    return bytes ? test::read_svg(*bytes) : test::Svg{{}, "there is no such file"};
}

/// What of a drawing bounds it, and where its strokes end or a terminal's ring stands.
struct Extent {
    std::vector<plan::Point> points, ends, rings;
};
void look_at(const test::SvgElement& e, Extent& out) {
    if (e.name == "line") {
        for (const char* k : {"1", "2"}) {
            const std::string n(k);
            out.points.push_back({e.number("x" + n), e.number("y" + n)});
            out.ends.push_back(out.points.back());
        }
    } else if (e.name == "polyline" || e.name == "polygon") {
        const auto all = test::numbers_of(e.with.at("points"));
        for (std::size_t i = 0; i + 1 < all.size(); i += 2) out.points.push_back({all[i], all[i + 1]});
    } else if (e.name == "rect") {
        out.points.push_back({e.number("x"), e.number("y")});
        out.points.push_back({e.number("x") + e.number("width"), e.number("y") + e.number("height")});
    } else if (e.name == "circle") {
        const plan::Point at{e.number("cx"), e.number("cy")};
        const double r = e.number("r");
        if (r == 0.75) {
            out.rings.push_back(at);
        } else {
            out.points.push_back({at.x_mm - r, at.y_mm - r});
            out.points.push_back({at.x_mm + r, at.y_mm + r});
        }
    }
}

Extent extent(const SymbolInfo& s) {
    Extent out;
    for (const auto& piece : s.pieces) {
        Extent own;
        for (const auto& e : drawing(piece.svg).elements) look_at(e, own);
        for (auto [from, to] :
             {std::pair{&own.points, &out.points}, {&own.ends, &out.ends}, {&own.rings, &out.rings}})
            for (const plan::Point p : *from) to->push_back({p.x_mm + piece.at.x_mm, p.y_mm + piece.at.y_mm});
    }
    for (const auto& stroke : s.strokes)
        for (const plan::Point p : {stroke.from, stroke.to}) out.points.push_back(p), out.ends.push_back(p);
    return out;
}

// What QtSvg draws without surprises: clips, filters, text and style sheets are ignored or become outlines.
TEST(Symbols, DrawingsKeepToTheSmallSubset) {
    const std::set<std::string> elements{"svg", "g", "path", "line", "circle", "rect", "polyline", "polygon"};
    const std::set<std::string> attributes{
        "xmlns", "width", "height", "viewBox", "fill", "stroke", "stroke-width", "d", "x1",
        "y1",    "x2",    "y2",     "x",       "y",    "cx",     "cy",           "r", "points"};
    const std::set<std::string> colours{"none", "#22272B", "#FFFFFF"};
    const std::set<std::string> widths{"0.25", "0.3", "0.35", "0.5", "0.7", "1.4"}; // docs/look.md
    const auto files = resource_paths("symbols/");
    EXPECT_GE(files.size(), 35u);
    for (const std::string_view file : files) {
        const auto svg = test::read_svg(*resource(file));
        EXPECT_EQ(svg.problem, "") << file;
        ASSERT_GE(svg.elements.size(), 3u) << file;
        EXPECT_EQ(svg.elements[0].name, "svg") << file;
        EXPECT_EQ(test::numbers_of(svg.elements[0].with.at("viewBox")).size(), 4u) << file;
        // one group carries the line, so that a program can draw all of it thinner or in another ink
        EXPECT_EQ(svg.elements[1].name, "g") << file;
        EXPECT_EQ(svg.elements[1].with.at("stroke"), "#22272B") << file;
        for (const auto& e : svg.elements) {
            EXPECT_TRUE(elements.contains(e.name)) << file << " " << e.name;
            for (const auto& [key, value] : e.with) {
                EXPECT_TRUE(attributes.contains(key)) << file << " " << e.name << " " << key;
                if (key == "fill" || key == "stroke") {
                    EXPECT_TRUE(colours.contains(value)) << file << " " << value;
                } else if (key == "stroke-width") {
                    EXPECT_TRUE(widths.contains(value)) << file << " " << value;
                } else if (key == "d") {
                    EXPECT_EQ(value.find_first_not_of("MLHVCQAZ-. 0123456789"), std::string::npos) << file;
                }
            }
        }
    }
}

TEST(Symbols, EveryComponentHasOneWithAllItsTerminals) {
    std::set<std::string> kinds;
    for (const plan::Component& c : every_component()) {
        const SymbolInfo s = catalogue::symbol_for(c);
        kinds.emplace(plan::name(c.kind()));
        std::vector<std::string> names;
        for (const auto& t : s.terminals) names.push_back(t.name);
        auto wanted = plan::terminals(c.with);
        std::sort(names.begin(), names.end()), std::sort(wanted.begin(), wanted.end());
        EXPECT_EQ(names, wanted) << s.name;
        EXPECT_FALSE(s.source.citation.empty()) << s.name;
        EXPECT_TRUE(resource("symbols/" + catalogue::kind_info(c.kind()).symbol + ".svg")) << s.name;
    }
    kinds.emplace("unit");
    EXPECT_EQ(kinds.size(), plan::names<plan::Kind>().size()); // no kind forgotten above
}

TEST(Symbols, TerminalsLieOnTheGridWhereAStrokeEnds) {
    for (const plan::Component& c : every_component()) {
        const SymbolInfo s = catalogue::symbol_for(c);
        const Extent drawn = extent(s);
        for (const double mm : {s.box.left_mm, s.box.top_mm, s.box.right_mm, s.box.bottom_mm})
            EXPECT_TRUE(on_grid(mm)) << s.name << " " << mm;
        std::vector<plan::Point> seen;
        for (const auto& t : s.terminals) {
            EXPECT_TRUE(on_grid(t.at.x_mm) && on_grid(t.at.y_mm)) << s.name << " " << t.name;
            for (const plan::Point other : seen) EXPECT_FALSE(near(other, t.at)) << s.name << " " << t.name;
            seen.push_back(t.at);
            if (s.name == "bar" || s.name == "joint") continue; // taps anywhere on the line, or its dot
            // at the edge of the box, leaving it
            const double edge = t.direction == Direction::left    ? t.at.x_mm - s.box.left_mm
                                : t.direction == Direction::right ? t.at.x_mm - s.box.right_mm
                                : t.direction == Direction::up    ? t.at.y_mm - s.box.top_mm
                                                                  : t.at.y_mm - s.box.bottom_mm;
            EXPECT_EQ(edge, 0) << s.name << " " << t.name;
            const auto at = [&](plan::Point p) { return near(p, t.at); };
            const bool end = std::any_of(drawn.ends.begin(), drawn.ends.end(), at);
            const bool ring = std::any_of(drawn.rings.begin(), drawn.rings.end(), at);
            const bool box_minus = s.name == "fuse_box" && t.name == "-"; // on its outline
            EXPECT_TRUE(end || ring || box_minus) << s.name << " " << t.name;
        }
    }
}

TEST(Symbols, DrawingsStayWithinTheirBox) {
    for (const plan::Component& c : every_component()) {
        const SymbolInfo s = catalogue::symbol_for(c);
        const double dot = s.name == "joint" ? 0.9 : 1e-6;
        for (const plan::Point p : extent(s).points) {
            EXPECT_GE(p.x_mm, s.box.left_mm - dot) << s.name;
            EXPECT_LE(p.x_mm, s.box.right_mm + dot) << s.name;
            EXPECT_GE(p.y_mm, s.box.top_mm - dot) << s.name;
            EXPECT_LE(p.y_mm, s.box.bottom_mm + dot) << s.name;
        }
    }
    int seen = 0;
    // a drawing's own view is what it covers and one millimetre more
    for (const std::string_view name : catalogue::symbol_names()) {
        if (!resource("symbols/" + std::string(name) + ".svg") || name == "bar" || name == "fuse_box" ||
            name == "unit")
            continue; // made of others' drawings, or growing
        for (const plan::Component& c : every_component())
            if (const SymbolInfo s = catalogue::symbol_for(c); s.name == name) {
                ++seen;
                const auto view = test::numbers_of(drawing(name).elements.at(0).with.at("viewBox"));
                EXPECT_EQ(view, (std::vector<double>{s.box.left_mm - 1, s.box.top_mm - 1,
                                                     s.box.right_mm - s.box.left_mm + 2,
                                                     s.box.bottom_mm - s.box.top_mm + 2}))
                    << name;
                break;
            }
    }
    EXPECT_GE(seen, 25);
}

TEST(Symbols, WaysStandBelowEachOther) {
    const SymbolInfo s = catalogue::symbol_for(of(box_of(3)));
    // by hand, from symbols.json: feed at the origin, ways 17.5 mm apart on the right side, 20 mm away
    ASSERT_EQ(s.terminals.size(), 5u);
    EXPECT_EQ(s.terminals[0], (catalogue::SymbolTerminal{"in", {0, 0}, Direction::left}));
    EXPECT_EQ(s.terminals[3], (catalogue::SymbolTerminal{"3", {20, 35}, Direction::right}));
    EXPECT_EQ(s.terminals[4], (catalogue::SymbolTerminal{"-", {10, 42.5}, Direction::down}));
    // growing leaves the ways that are there where they were
    const SymbolInfo more = catalogue::symbol_for(of(box_of(4)));
    for (std::size_t i = 0; i < 4; ++i) EXPECT_EQ(more.terminals[i], s.terminals[i]);
    // closer, but never less than the least
    EXPECT_EQ(catalogue::symbol_for(of(box_of(3)), 10).terminals[3].at, (plan::Point{20, 20}));
    EXPECT_EQ(catalogue::symbol_for(of(box_of(3)), 2.5).terminals[3].at, (plan::Point{20, 15}));
}

TEST(Symbols, WaysStandWhereTheyAreWanted) {
    // by hand: the feed 45 mm below the first way, the ways where they are told, 7.5 mm to the lower edge
    const SymbolInfo s = catalogue::symbol_for(of(box_of(3)), catalogue::BoxWays{{0, 17.5, 25}, 45});
    EXPECT_EQ(s.terminals[0], (catalogue::SymbolTerminal{"in", {0, 45}, Direction::left}));
    EXPECT_EQ(s.terminals[2], (catalogue::SymbolTerminal{"2", {20, 17.5}, Direction::right}));
    EXPECT_EQ(s.terminals[3], (catalogue::SymbolTerminal{"3", {20, 25}, Direction::right}));
    EXPECT_EQ(s.terminals[4], (catalogue::SymbolTerminal{"-", {10, 52.5}, Direction::down}));
    EXPECT_EQ(s.box.bottom_mm, 52.5);
}

TEST(Symbols, TurnsToTheRightAfterMirroring) {
    using catalogue::turned;
    // by hand: the left end of a fuse comes to lie on top, the right end below
    EXPECT_EQ(turned(plan::Point{-5, 0}, 1, false), (plan::Point{0, -5}));
    EXPECT_EQ(turned(Direction::left, 1, false), Direction::up);
    EXPECT_EQ(turned(plan::Point{-5, 0}, 0, true), (plan::Point{5, 0}));
    EXPECT_EQ(turned(Direction::left, 0, true), Direction::right);
    EXPECT_EQ(turned(Direction::up, 0, true), Direction::up);
    // mirrored first: the left end goes right, then down
    EXPECT_EQ(turned(plan::Point{-5, 0}, 1, true), (plan::Point{0, 5}));
    EXPECT_EQ(turned(Direction::left, 1, true), Direction::down);
    EXPECT_EQ(turned(SymbolBox{-7.5, -2.5, 7.5, 10}, 1, false), (SymbolBox{-10, -7.5, 2.5, 7.5}));
    for (int turns = 0; turns < 4; ++turns)
        for (const bool mirrored : {false, true})
            for (const auto d : {Direction::left, Direction::up, Direction::right, Direction::down})
                EXPECT_EQ(catalogue::moved({}, turned(d, turns, mirrored), 5),
                          turned(catalogue::moved({}, d, 5), turns, mirrored));
}

} // namespace
