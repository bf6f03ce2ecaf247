#include "core/edit/diff.h"
#include "core/edit/edit.h"
#include "tests/support/case.h"

#include <gtest/gtest.h>

namespace {

using namespace fl;
using namespace fl::plan;

Installation drawn() {
    auto read = test::read_case("rules van 12V\nplace bench living_space ambient=assumed:40C\n"
                                "run R1 bench bench length=assumed:2m\ncable WD1 length=assumed:3m\n"
                                "battery G1 lead 12V capacity=assumed:80Ah resistance=label:5mohm\n"
                                "fusebox F1 ways=10A:fridge ways.1.resistance=assumed:3mohm\n"
                                "load E1 power=assumed:60W\n"
                                "wire W1 G1:+ E1:+ 3m size=assumed:2.5mm2 ends.2.joint=assumed:1mohm\n"
                                "condition parked state_of_charge=assumed:50%\nexpect only 0 findings\n");
    for (const std::string& problem : read.problems) ADD_FAILURE() << problem;
    return read.installation;
}

// Every table whose rows have values of that sort, and the ways and ends within rows.
TEST(Accept, TakesOverWhatIsAssumedAndNothingElse) {
    const Installation in = drawn();
    const auto row = [](Subject::Kind kind, std::uint32_t id) { return Subject{kind, id, {}}; };
    const struct {
        Subject subject;
        const char* field;
    } all[] = {{Subject::of(find(in, "G1")->id), "capacity"},
               {Subject::of(find(in, "F1")->id), "ways.1.resistance"},
               {Subject::of(find(in, "E1")->id), "power"},
               {Subject::of(find_conductor(in, "W1")->id), "size"},
               {Subject::of(find_conductor(in, "W1")->id), "ends.2.joint"},
               {row(Subject::Kind::place, in.places.begin()->id.value), "ambient"},
               {row(Subject::Kind::run, in.runs.begin()->id.value), "length"},
               {row(Subject::Kind::cable, in.cables.begin()->id.value), "length"},
               {row(Subject::Kind::condition, in.conditions.begin()->id.value), "state_of_charge"}};
    Installation now = in;
    for (const auto& [subject, field] : all) {
        EXPECT_TRUE(edit::is_assumed(now, subject, field)) << field;
        auto done = edit::accept(now, subject, field);
        ASSERT_TRUE(done) << field << ": " << line(done.error());
        now = std::move(*done);
        EXPECT_FALSE(edit::is_assumed(now, subject, field)) << field;
        EXPECT_EQ(edit::accept(now, subject, field).error().code, "edit.not-assumed") << field;
    }
    const auto& battery = std::get<Battery>(find(now, "G1")->with);
    EXPECT_EQ(battery.capacity, Entered<Charge>(80_Ah)) << "the value stays, and is typed";
    EXPECT_EQ(battery.resistance.from, From::label);
    EXPECT_TRUE(edit::faults(now).empty());
    EXPECT_EQ(edit::diff(in, now).conductors.changed.size(), 1U);
    EXPECT_EQ(edit::diff(in, now).components.changed.size(), 3U); // battery, box, load
}

TEST(Accept, SaysWhereAValueThatStandsIsFrom) {
    const Installation in = drawn();
    const Subject g1 = Subject::of(find(in, "G1")->id);
    auto done = edit::known_from(in, g1, "capacity", From::data_sheet);
    ASSERT_TRUE(done) << line(done.error());
    EXPECT_EQ(std::get<Battery>(find(*done, "G1")->with).capacity, Entered<Charge>(80_Ah, From::data_sheet));
    done = edit::known_from(*done, g1, "resistance", From::measured); // it was on the label
    ASSERT_TRUE(done) << line(done.error());
    EXPECT_EQ(std::get<Battery>(find(*done, "G1")->with).resistance.from, From::measured);
    EXPECT_EQ(edit::known_from(in, g1, "cold_cranking", From::label).error().code, "edit.not-known");
    EXPECT_EQ(edit::known_from(in, g1, "colour", From::label).error().code, "edit.field");
}

TEST(Accept, WhatCannotBeAcceptedIsAProblem) {
    const Installation in = drawn();
    const auto code = [&](const Subject& subject, const char* field) {
        const auto done = edit::accept(in, subject, field);
        return done ? std::string("accepted") : done.error().code;
    };
    const auto battery = Subject::of(find(in, "G1")->id);
    EXPECT_EQ(code(battery, "nominal"), "edit.not-assumed");       // typed
    EXPECT_EQ(code(battery, "resistance"), "edit.not-assumed");    // from its label
    EXPECT_EQ(code(battery, "cold_cranking"), "edit.not-assumed"); // not known
    EXPECT_EQ(code(battery, "chemistry"), "edit.not-assumed");     // a choice
    EXPECT_EQ(code(battery, "colour_of_case"), "edit.field");
    EXPECT_EQ(code(Subject::of(find(in, "F1")->id), "ways.2.rating"), "edit.field");
    EXPECT_EQ(code(Subject::of(find(in, "F1")->id), "ways.1.banana"), "edit.field");
    EXPECT_EQ(code(Subject::of(ConductorId{99}), "length"), "edit.subject");
}

} // namespace
