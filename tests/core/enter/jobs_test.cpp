// Whole jobs typed: every rule set, every order.
#include "core/assess/assess.h"
#include "core/catalogue/catalogue.h"
#include "core/catalogue/lie.h"
#include "core/edit/edit.h"
#include "core/rules/finding.h"
#include "core/wording/wording.h"
#include "tests/core/enter/rows.h"

#include <algorithm>
#include <map>
#include <set>

namespace fl {
namespace {

using namespace plan;
using test::named;
using test::typed;

// What a drawing says, without ids and designations: parts by name, conductors by what they join.
std::multiset<std::string> said_by(const Installation& in) {
    std::multiset<std::string> all;
    const auto end = [&](const TerminalRef& t) {
        const Component& c = *in.components.find(t.component);
        // studs are taken as they come
        return c.name + (c.kind() == Kind::busbar || c.kind() == Kind::fuse_box ? "" : "." + t.terminal);
    };
    for (const Conductor& w : in.conductors)
        all.insert(end(w.from) + " -> " + end(w.to) + " " + std::to_string(w.size ? w.size->area.si() : 0) +
                   " " + std::to_string(w.length ? w.length->si() : -1));
    for (const Component& c : in.components) {
        std::string one = c.name;
        if (const auto* f = std::get_if<Fuse>(&c.with))
            one += " " + f->type + " " + std::to_string(f->rating ? f->rating->si() : 0);
        if (const auto* box = std::get_if<FuseBox>(&c.with)) {
            std::multiset<std::string> ways;
            for (const Way& way : box->ways)
                ways.insert(way.label + std::to_string(way.rating ? way.rating->si() : 0));
            for (const auto& way : ways) one += " " + way;
        }
        all.insert(one);
    }
    return all;
}

TEST(Jobs, MainUnitsInAnyOrderAreTheSameJob) {
    const std::vector<const char*> rows{"battery 200ah lithium", "charger 30a 5m", "inverter 500w",
                                        "solar 200w 3m", "fridge 5a 4m"};
    const auto size = rows.size();
    std::optional<std::multiset<std::string>> first;
    // each row first, the others after it upwards and downwards
    for (std::size_t begin = 0; begin < size; ++begin)
        for (const bool down : {false, true}) {
            Installation in = enter::begin({}).value();
            std::string order;
            for (std::size_t k = 0; k < size; ++k) {
                const char* row = rows[(begin + (down ? size - k : k)) % size];
                order += std::string(row) + ", ";
                auto done = enter::row(in, row);
                ASSERT_TRUE(done) << row << ": " << line(done.error());
                in = std::move(done->installation);
            }
            const auto said = said_by(in);
            if (!first) first = said;
            ASSERT_EQ(*first, said) << order;
        }
}

// A job of everyday units, by every rule set, row by row: nothing that we propose can burn, or is too small
// for what flows. What the fitter's own choice asks too much of (an alternator, a battery at its end) is
// told.
TEST(Jobs, NothingProposedCanBurnByAnyRules) {
    const std::set<std::string> of_the_choice{"alternator-overloaded", "load-starved", "solve.hunts"};
    for (const std::string_view rules : catalogue::rule_set_ids()) {
        enter::Start start;
        start.rule_set = rules;
        Installation in = enter::begin(start).value();
        for (const char* row : {"battery 200ah lithium", "charger 30a 5m", "solar 200w 4m",
                                "mains charger 20a", "inverter 1000w", "fridge 5a 4.3m", "12x led 0.25a 5.2m",
                                "pump 6a 3m", "usb 3m", "kettle 500w 2m"}) {
            auto done = enter::row(in, row);
            ASSERT_TRUE(done) << rules << ", " << row << ": " << line(done.error());
            in = std::move(done->installation);
            ASSERT_TRUE(edit::faults(in).empty()) << rules << ", " << row;
        }
        EXPECT_EQ(enter::proposed(in), in) << rules << ": proposals must come to rest";
        const auto assessed = assess::assess(in);
        for (const rules::Finding& f : assessed->findings) {
            EXPECT_FALSE(f.grade <= rules::Grade::fail && !of_the_choice.contains(f.code))
                << rules << ": " << wording::sentence(f, in);
            EXPECT_NE(f.code, "charger-fuse-by-output") << rules << ": " << wording::sentence(f, in);
            EXPECT_NE(f.code, "device-below-current") << rules << ": " << wording::sentence(f, in);
            EXPECT_NE(f.code, "area-below-minimum") << rules << ": " << wording::sentence(f, in);
            EXPECT_NE(f.code, "fuse-too-far") << rules << ": " << wording::sentence(f, in);
        }
    }
}

// A charger whose proposed lead pulls its input below its own threshold in lean cruise would go on and off.
// One that stops for a moment once a minute, since an alternator at its limit can't hold it up, is no
// failure.
TEST(Jobs, NoProposedLeadMakesAChargerHunt) {
    for (const std::string_view rules : catalogue::rule_set_ids())
        for (const char* charger : {"charger 20a 6m", "charger 30a 9m", "charger 40a 3m"}) {
            enter::Start start;
            start.rule_set = rules;
            const Installation in = typed({"battery 100ah agm", charger}, start);
            const auto assessed = assess::assess(in);
            for (const rules::Finding& f : assessed->findings)
                EXPECT_FALSE(f.code == "solve.hunts" && f.grade == rules::Grade::fail)
                    << rules << ", " << charger << ": " << wording::sentence(f, in);
        }
}

TEST(Jobs, SizesAreOfTheRulesOwnSystem) {
    for (const std::string_view rules : catalogue::rule_set_ids()) {
        enter::Start start;
        start.rule_set = rules;
        const Installation in = typed({"battery 100ah agm", "fridge 5a 3m"}, start);
        for (const Conductor& w : in.conductors) {
            if (w.origin != Origin::added) continue;
            EXPECT_EQ(w.size->awg.has_value(), catalogue::rules_of(in).gauges)
                << rules << " " << w.designation;
        }
    }
}

TEST(Jobs, WithoutTheBodyEverythingComesBackInCopper) {
    int boats = 0;
    for (const std::string_view rules : catalogue::rule_set_ids()) {
        enter::Start start;
        start.rule_set = rules;
        const Installation in = typed({"battery 100ah agm", "charger 30a 5m"}, start);
        if (catalogue::rules_of(in).body_return) continue;
        ++boats;
        for (const Component& c : in.components) EXPECT_NE(c.kind(), Kind::earth_point) << rules;
        EXPECT_TRUE(test::between(in, named(in, "Minus bar"), named(in, "Starter battery"))) << rules;
    }
    EXPECT_GE(boats, 2);
}

// At 24 V the same things take half the current and get half the fuse, and batteries count in twice the
// blocks.
TEST(Jobs, TwentyFourVoltsHalveTheUsualCurrents) {
    enter::Start start;
    start.rule_set = "truck-24";
    const Installation in = typed({"battery 200ah agm", "roof fan 2m", "fridge 2m"}, start);
    EXPECT_EQ(std::get<Load>(named(in, "Roof fan")->with).current, Entered<Current>(1.25_A, From::assumed));
    EXPECT_EQ(std::get<Load>(named(in, "Fridge")->with).current, Entered<Current>(2.5_A, From::assumed));
    EXPECT_EQ(std::get<Load>(named(in, "Fridge")->with).lowest, Entered<Voltage>(20.8_V, From::assumed));
    EXPECT_EQ(*std::get<Battery>(named(in, "Service battery")->with).nominal, 24_V);
    EXPECT_EQ(enter::row(in, "lamp 1a 2m 12v").error().code, "enter.voltage");
    EXPECT_TRUE(enter::row(in, "lamp 1a 2m 24v"));
}

TEST(Jobs, AVanMayBeOfTwentyFourVoltsToo) {
    enter::Start start;
    start.nominal = 24_V;
    const Installation in = typed({"battery 200ah agm", "fridge 2m"}, start);
    EXPECT_EQ(catalogue::nominal_of(in), 24_V);
    EXPECT_EQ(std::get<Load>(named(in, "Fridge")->with).current, Entered<Current>(2.5_A, From::assumed));
}

// A hint is what the row would be by itself; carried out, name, amount and way are the same.
TEST(Jobs, AHintIsWhatTheRowWillBe) {
    const Installation in = typed({"battery 200ah lithium", "fridge 5a 2m"});
    const struct {
        const char *row, *name, *amount, *way;
        bool assumed, asks;
    } all[] = {
        {"roof fan", "Roof fan", "2.5 A", "F2.2", true, true},
        {"12x led 0.25a 5m", "LED", "12 × 0.25 A", "F2.2", false, false},
        {"pump 6a 3m way 5", "Pump", "6 A", "F2.5", false, false},
        {"as above 3m", "Fridge 2", "5 A", "F2.2", false, false},
        {"winch 3m", "Winch", "350 A", "own fuse from the plus bar", true, false},
        {"charger 40a", "DC-DC charger", "40 A", "", false, true},
        {"inverter 1000w", "Inverter", "1 kW", "", false, false},
    };
    for (const auto& h : all) {
        const enter::Hint hint = enter::hint(in, h.row);
        EXPECT_FALSE(hint.problem) << h.row << ": " << hint.says;
        EXPECT_EQ(hint.name, h.name) << h.row;
        EXPECT_EQ(hint.amount, h.amount) << h.row;
        EXPECT_EQ(hint.way, h.way) << h.row;
        EXPECT_EQ(hint.amount_assumed, h.assumed) << h.row;
        EXPECT_EQ(hint.asks_length, h.asks) << h.row;
        const auto done = enter::row(in, h.row);
        ASSERT_TRUE(done) << h.row;
        EXPECT_EQ(done->installation.components.find({done->subject.id})->name, h.name) << h.row;
        if (*h.way != 'F') continue;
        EXPECT_TRUE(done->said.starts_with(h.way)) << h.row << ": " << done->said;
    }
    EXPECT_EQ(enter::hint(enter::begin({}).value(), "fan 2m").way, "new box, way 1");
}

} // namespace
} // namespace fl
