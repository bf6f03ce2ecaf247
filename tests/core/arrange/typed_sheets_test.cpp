#include "core/arrange/arrange.h"
#include "core/enter/enter.h"
#include "tests/support/case.h"
#include "tests/support/sheet_faults.h"

#include <gtest/gtest.h>

#include <chrono>
#include <cmath>
#include <set>
#include <sstream>

using namespace fl;
using arrange::Layout;
using plan::Installation;

namespace {

/// The van of the user guide, row by row, and twelve circuits more.
std::vector<std::string> circuits() {
    std::vector<std::string> rows;
    std::istringstream van(test::source_file("tests/fixtures/enter/van_of_twelve.rows"));
    for (std::string row; std::getline(van, row);)
        if (!row.starts_with("#") && !row.starts_with("battery") && !row.starts_with("charger"))
            rows.push_back(row);
    for (const char* row : {"fan 2m", "bilge pump 3a 4m", "navigation light 1a 5m", "stereo 4a 3m",
                            "fridge 4a 2m", "12x led 0.2a 6m", "water pump 3m", "usb 2m", "heater 3m",
                            "tv 2a 4m", "laptop 4a 2m", "radio 1a 5m"})
        rows.emplace_back(row);
    return rows;
}
Installation typed(const Installation& in, const std::string& row) {
    auto done = enter::row(in, row);
    EXPECT_TRUE(done) << row;
    return done ? std::move(done->installation) : in;
}
Installation begun(const char* rules, std::initializer_list<const char*> units) {
    enter::Start start;
    start.rule_set = rules;
    Installation in = enter::begin(start).value();
    for (const char* row : units) in = typed(in, row);
    return in;
}
/// The document after each circuit, the units first; made once, as each row is proposed and judged.
const std::vector<Installation>& van() {
    static const auto made = [] {
        std::vector<Installation> all{begun("van", {"battery 200ah lithium", "charger 40a 5m"})};
        for (const std::string& row : circuits()) all.push_back(typed(all.back(), row));
        return all;
    }();
    return made;
}
Layout laid(const Installation& in) {
    return arrange::arrange(in, network::build(in));
}
std::string name(const Installation& in, plan::ComponentId id) {
    return in.components.find(id)->designation;
}
int leaders(const Layout& layout) {
    return static_cast<int>(std::count_if(layout.labels.begin(), layout.labels.end(),
                                          [](const auto& label) { return !label.leader.empty(); }) +
                            std::count_if(layout.marks.begin(), layout.marks.end(),
                                          [](const auto& mark) { return !mark.leader.empty(); }));
}
const arrange::Pin* pin(const arrange::Symbol& s, const std::string& terminal) {
    for (const auto& p : s.pins)
        if (p.terminal == terminal) return &p;
    return nullptr;
}

/// Everything is clean and named, and every conductor from a way to a load, and from the load to the box's
/// minus bar, is one straight line at the level of its way.
void straight_rows(const Installation& in, const Layout& layout, int circuits) {
    for (const auto& fault : test::sheet_faults(in, layout)) ADD_FAILURE() << fault;
    std::set<plan::Subject> named;
    for (const auto& label : layout.labels) named.insert(label.subject);
    for (const auto& c : in.components) EXPECT_TRUE(named.contains(plan::Subject::of(c.id))) << c.designation;
    int rows = 0;
    for (const auto& w : in.conductors) {
        EXPECT_TRUE(named.contains(plan::Subject::of(w.id))) << w.designation;
        const auto is_box = [&](const plan::TerminalRef& t) {
            return in.components.find(t.component)->kind() == plan::Kind::fuse_box;
        };
        const bool away = is_box(w.from), back = is_box(w.to);
        const auto& load = in.components.find(away ? w.to.component : w.from.component);
        if (away == back || load->kind() != plan::Kind::load) continue;
        rows += away;
        const auto* wire = layout.wire(w.id);
        ASSERT_EQ(wire->stretches.size(), 1u) << w.designation;
        EXPECT_EQ(wire->stretches[0].points.size(), 2u) << w.designation << " has bends";
        const auto* box = layout.symbol(away ? w.from.component : w.to.component, back ? "-" : "");
        const auto* at_load = pin(*layout.symbol(load->id), away ? w.to.terminal : w.from.terminal);
        ASSERT_TRUE(at_load);
        if (!away) continue;
        EXPECT_EQ(pin(*box, w.from.terminal)->at.y_mm, at_load->at.y_mm) << w.designation;
    }
    EXPECT_EQ(rows, circuits);
}

TEST(TypedSheets, RowsAreStraightForOneToTwentyFourCircuits) {
    ASSERT_EQ(van().size(), 25u);
    for (int n = 1; n <= 24; ++n) {
        SCOPED_TRACE(n);
        const Installation& in = van()[static_cast<std::size_t>(n)];
        const Layout layout = laid(in);
        straight_rows(in, layout, n);
        EXPECT_EQ(leaders(layout), 0);
        EXPECT_EQ(layout.pages.size(), n <= 12 ? 1u : 2u); // a sheet holds twelve rows
    }
}

TEST(TypedSheets, LoadsStandInOneColumnFromTopToBottom) {
    const Installation& in = van()[12];
    const Layout layout = laid(in);
    double below = 0, left = 0;
    int seen = 0;
    for (const auto& c : in.components) {
        if (c.kind() != plan::Kind::load || std::get<plan::Load>(c.with).purpose == plan::Purpose::vehicle)
            continue;
        const auto& s = *layout.symbol(c.id);
        if (seen++ > 0) {
            EXPECT_EQ(s.box.left_mm, left) << c.designation;
            EXPECT_EQ(s.at.y_mm - below, 17.5) << c.designation; // by hand, docs/look.md
        }
        left = s.box.left_mm;
        below = s.at.y_mm;
    }
    EXPECT_EQ(seen, 12);
}

// What is held: a circuit that is typed moves no symbol that stood before. Bars grow at their far end.
TEST(TypedSheets, ATypedCircuitMovesNothingThatStood) {
    for (std::size_t n = 1; n < van().size(); ++n) {
        SCOPED_TRACE(n);
        const Installation& next = van()[n];
        const Layout before = laid(van()[n - 1]), after = laid(next);
        for (const auto& s : before.symbols) {
            if (!s.part.empty() && s.part != "-") continue;
            const auto* again = after.symbol(s.component, s.part);
            ASSERT_TRUE(again) << name(next, s.component) << s.part;
            EXPECT_EQ(again->page, s.page) << name(next, s.component) << s.part;
            EXPECT_EQ(again->at, s.at) << name(next, s.component) << s.part;
            EXPECT_EQ(again->quarter_turns, s.quarter_turns) << name(next, s.component);
        }
    }
}

TEST(TypedSheets, ALoadThatAHandMovesALittleMovesNothingElse) {
    const Installation& in = van()[8];
    const Layout before = laid(in);
    for (const auto& moved : before.symbols) {
        const auto* load = std::get_if<plan::Load>(&in.components.find(moved.component)->with);
        if (!load || load->purpose == plan::Purpose::vehicle) continue;
        for (const auto& [dx, dy] : {std::pair{2.5, 0.0}, {-2.5, 0.0}, {0.0, 2.5}, {0.0, -2.5}}) {
            Installation hand = in;
            plan::Spot spot;
            spot.id = {hand.next_id++};
            spot.component = moved.component;
            spot.at = {moved.at.x_mm + dx, moved.at.y_mm + dy};
            spot.quarter_turns = moved.quarter_turns;
            spot.mirrored = moved.mirrored;
            hand.spots = hand.spots.with(spot);
            const Layout after = laid(hand);
            for (const auto& fault : test::sheet_faults(hand, after)) ADD_FAILURE() << fault;
            for (const auto& s : before.symbols) {
                if (s.component == moved.component) continue;
                EXPECT_EQ(after.symbol(s.component, s.part)->at, s.at)
                    << name(in, s.component) << s.part << " when " << name(in, moved.component)
                    << " moved by " << dx << ", " << dy;
            }
            EXPECT_EQ(after.symbol(moved.component)->at, spot.at);
        }
    }
}

// Sizes in AWG make the longest labels; craft return nothing over the body.
TEST(TypedSheets, CraftHaveStraightRowsToo) {
    Installation in = begun("craft-us", {"battery 200ah lithium", "charger 40a 5m"});
    const auto rows = circuits();
    for (int n = 1; n <= 13; ++n) {
        in = typed(in, rows[static_cast<std::size_t>(n - 1)]);
        if (n != 1 && n != 6 && n < 12) continue;
        SCOPED_TRACE(n);
        const Layout layout = laid(in);
        straight_rows(in, layout, n);
        EXPECT_EQ(leaders(layout), 0);
    }
}

TEST(TypedSheets, EveryMainUnitFindsItsPlace) {
    Installation in = van()[6];
    for (const char* unit : {"inverter 1000w", "solar 200w", "mains charger 20a"}) {
        SCOPED_TRACE(unit);
        in = typed(in, unit);
        const Layout layout = laid(in);
        straight_rows(in, layout, 6);
        EXPECT_EQ(leaders(layout), 0);
    }
}

} // namespace
