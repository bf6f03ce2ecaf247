#include "core/edit/edit.h"
#include "core/edit/sheet.h"
#include "tests/support/case.h"

#include <gtest/gtest.h>

namespace {

using namespace fl;

plan::Installation drawn() {
    auto read = test::read_case("rules van 12V\nbattery G1 lead 12V 70Ah\nexpect only 1 finding\n");
    EXPECT_TRUE(read.problems.empty());
    return read.installation;
}

TEST(EditSheet, PlacesOnTheGridAndMakesTheSheet) {
    const plan::Installation before = drawn();
    const auto id = plan::find(before, "G1")->id;
    const auto placed = edit::place(before, id, {1, {101.2, 48.8}, 5, true});
    ASSERT_TRUE(placed.has_value());
    EXPECT_EQ(placed->sheets.size(), 2U);
    const plan::Spot& spot = *placed->spots.begin();
    EXPECT_EQ(spot.at, (plan::Point{100, 50})) << "101.2 and 48.8 lie nearest to 40 and 20 steps of 2.5 mm";
    EXPECT_EQ(spot.quarter_turns, 1) << "five quarters are one";
    EXPECT_TRUE(spot.mirrored);

    const auto moved = edit::place(*placed, id, {1, {0, 0}, 0, false});
    EXPECT_EQ(moved->spots.size(), 1U) << "a component stands at one place";
    EXPECT_TRUE(edit::release(*moved, id)->spots.empty());
}

TEST(EditSheet, WhatIsNotThereIsAProblem) {
    EXPECT_EQ(edit::place(drawn(), {99}, {}).error().code, "edit.subject");
    EXPECT_EQ(edit::release(drawn(), {99}).error().code, "edit.subject");
}

} // namespace
