#include "core/assess/assess.h"
#include "core/edit/edit.h"
#include "core/enter/enter.h"
#include "core/wording/wording.h"
#include "tests/support/case.h"

#include <gtest/gtest.h>

#include <optional>
#include <sstream>

namespace fl {
namespace {

using namespace plan;

Installation after(std::initializer_list<const char*> rows) {
    auto in = enter::begin({});
    EXPECT_TRUE(in) << line(in.error());
    for (const char* row : rows) {
        if (!in) break;
        auto done = enter::row(*in, row);
        EXPECT_TRUE(done) << row << ": " << line(done.error());
        if (done) in = std::move(done->installation);
    }
    return in.value_or(Installation{});
}

TEST(Enter, AFridgeRowMakesLoadWayAndBothConductors) {
    const auto begun = enter::begin({});
    ASSERT_TRUE(begun);
    const auto done = enter::row(*begun, "FRIDGE 5a 4.3m");
    ASSERT_TRUE(done) << line(done.error());
    const Component* c = done->installation.components.find({done->subject.id});
    ASSERT_TRUE(c);
    EXPECT_EQ(c->name, "Fridge");
    const auto& load = std::get<Load>(c->with);
    EXPECT_EQ(load.purpose, Purpose::fridge);
    int joined = 0;
    for (const Conductor& w : done->installation.conductors)
        if (w.from.component == c->id || w.to.component == c->id) {
            ++joined;
            EXPECT_EQ(w.length, Entered<Length>(4.3_m)); // as typed, out and back
            EXPECT_EQ(w.size.from, From::assumed);
        }
    EXPECT_EQ(joined, 2);
    EXPECT_TRUE(edit::faults(done->installation).empty());
}

TEST(Enter, ARowWithoutALengthLeavesItUnknown) {
    const Installation in = after({"fan"});
    int without = 0;
    for (const Conductor& w : in.conductors)
        if (w.origin == Origin::added && !w.length) ++without;
    EXPECT_EQ(without, 2); // there and back
}

TEST(Enter, CapitalsAreNoAbbreviationOfAUsualLoad) {
    const std::pair<const char*, const char*> names[] = {
        {"FRIDGE 5A 2M", "Fridge"},       {"ROOF FAN 2M", "Roof fan"}, {"led 2m", "LED"},
        {"LED STRIP 1A 2M", "LED strip"}, {"ECU 1a 2m", "ECU"},        {"ecu 1a 2m", "Ecu"}};
    for (const auto& [row, name] : names) {
        const auto done = enter::row(enter::begin({}).value(), row);
        ASSERT_TRUE(done) << row << ": " << line(done.error());
        EXPECT_EQ(done->installation.components.find({done->subject.id})->name, name) << row;
    }
}

TEST(Enter, ACountMayStandBeforeOrBehindTheName) {
    for (const char* row : {"5x fridge 2m", "fridge 5x 2m"}) {
        const auto done = enter::row(enter::begin({}).value(), row);
        ASSERT_TRUE(done) << row << ": " << line(done.error());
        EXPECT_EQ(std::get<Load>(done->installation.components.find({done->subject.id})->with).count, 5)
            << row;
    }
}

TEST(Enter, WhatIsNoRowIsRefused) {
    const auto begun = enter::begin({});
    ASSERT_TRUE(begun);
    for (const char* bad : {"", "fridge 5q 4m", "as above", "fridge 5a 4.3m 2m", "fridge 200ah"}) {
        const auto done = enter::row(*begun, bad);
        ASSERT_FALSE(done) << bad;
        EXPECT_TRUE(done.error().code.starts_with("enter.")) << bad << ": " << line(done.error());
        EXPECT_FALSE(done.error().wrong.empty()) << bad;
    }
}

TEST(Enter, TwelveCircuitsHaveNoFindingOfTheWorstGrades) {
    const Installation in = after({"battery 200ah lithium", "charger 40a 5m", "fridge 5a 4.3m", "pump 6a 3m",
                                   "12x led 0.25a 5.2m", "as above 3m", "fan 2m", "usb 3m", "heater 3m",
                                   "tv 4m", "laptop 3m", "socket 2m", "radio 1a 2m", "reading lamp 0.3a 4m"});
    EXPECT_TRUE(edit::faults(in).empty());
    const auto assessed = assess::assess(in);
    for (const auto& f : assessed->findings)
        EXPECT_GT(f.grade, rules::Grade::fail) << wording::sentence(f, in);
}

// Whoever has typed a part of the van so far sees no fuse of ours that its own current would open, and no
// conductor of ours that runs too hot.
TEST(Enter, NothingProposedIsTooSmallAtAnyRow) {
    Installation in = enter::begin({}).value();
    std::istringstream rows(test::source_file("tests/fixtures/enter/van_of_twelve.rows"));
    int read = 0;
    for (std::string row; std::getline(rows, row);) {
        if (row.starts_with("#")) continue;
        ++read;
        in = enter::row(in, row).value().installation;
        const auto assessed = assess::assess(in);
        for (const auto& f : assessed->findings) {
            if (f.grade > rules::Grade::fail) continue;
            // What the vehicle's own alternator can't give is no size of ours.
            EXPECT_EQ(f.code, "alternator-overloaded") << row << ": " << wording::sentence(f, in);
        }
    }
    EXPECT_EQ(read, 14);
}

// Whichever figure of a load is typed, whatever its law: it is known, and no question is left about it.
TEST(Enter, AFigureOfAnySortLeavesNoQuestion) {
    const Installation in = after({"battery 100ah agm", "fridge 5a 2m", "fridge 60w 2m", "fan 2a 2m",
                                   "fan 24w 2m", "led strip 12w 2m", "led strip 12ohm 2m", "kettle 4ohm 1m"});
    const auto assessed = assess::assess(in);
    for (const auto& q : assessed->open_questions)
        for (const char* field : {"current", "power", "resistance"})
            EXPECT_FALSE(q.code == "missing" && q.field == field) << q.subject.id << " " << field;
}

} // namespace
} // namespace fl
