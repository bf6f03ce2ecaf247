#include "core/arrange/arrange.h"
#include "core/edit/diff.h"
#include "core/edit/edit.h"
#include "core/edit/sheet.h"
#include "core/network/network.h"
#include "tests/support/case.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>

namespace {

using namespace fl;

plan::Installation drawn() {
    auto read = test::read_case("rules van 12V\nbattery G1 lead 12V 70Ah\nexpect only 1 finding\n");
    EXPECT_TRUE(read.problems.empty());
    return read.installation;
}

plan::Installation wired() {
    auto read = test::read_case("rules van 12V\nbattery G1 lead 12V 70Ah\nload E1 5A\n"
                                "wire W1 G1:+ E1:+ 3m 2.5mm2\nreturn W2 E1:- G1:- 3m 2.5mm2\n"
                                "expect only 1 finding\n");
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
    EXPECT_EQ(edit::release(drawn(), plan::ComponentId{99}).error().code, "edit.subject");
    EXPECT_EQ(edit::release(drawn(), plan::ConductorId{99}).error().code, "edit.subject");
    EXPECT_EQ(edit::route(drawn(), {99}, {}).error().code, "edit.subject");
}

TEST(EditSheet, LeadsAConductorOverAHandsCorners) {
    const plan::Installation before = wired();
    const auto id = plan::find_conductor(before, "W1")->id;
    const std::array corners{plan::Point{101.2, 48.8}, plan::Point{100.9, 49.1}, plan::Point{120, 50}};
    const auto led = edit::route(before, id, corners);
    ASSERT_TRUE(led.has_value());
    const std::vector<plan::Point> kept{{100, 50}, {120, 50}};
    ASSERT_EQ(led->routes.size(), 1U);
    EXPECT_EQ(led->routes.begin()->corners, kept) << "on the grid, and not twice at one place";
    EXPECT_FALSE(edit::diff(before, *led).electrical());

    const auto again = edit::route(*led, id, std::array{plan::Point{80, 80}});
    EXPECT_EQ(again->routes.size(), 1U) << "a conductor goes one way";
    EXPECT_EQ(again->routes.begin()->id, led->routes.begin()->id);
    EXPECT_TRUE(edit::release(*again, id)->routes.empty());
    EXPECT_TRUE(edit::route(*again, id, {})->routes.empty());
    const std::array far{plan::Point{1e6, 0}}; // a place on paper lies within 100 m
    EXPECT_EQ(edit::route(before, id, far).error().code, "valid.range");
}

// What a hand has led is drawn so: through each of its corners, upright and level only.
TEST(EditSheet, TheLayoutGoesThroughAHandsCorners) {
    plan::Installation in = wired();
    const auto id = plan::find_conductor(in, "W1")->id;
    const std::array corners{plan::Point{150, 100}, plan::Point{200, 140}};
    in = edit::route(in, id, corners).value();
    const arrange::Layout layout = arrange::arrange(in, network::build(in));
    const arrange::Wire* wire = layout.wire(id);
    ASSERT_TRUE(wire && wire->by_hand && wire->stretches.size() == 1);
    const auto& points = wire->stretches[0].points;
    for (const plan::Point& corner : corners)
        EXPECT_NE(std::find(points.begin(), points.end(), corner), points.end());
    for (std::size_t i = 1; i < points.size(); ++i)
        EXPECT_TRUE(points[i].x_mm == points[i - 1].x_mm || points[i].y_mm == points[i - 1].y_mm);
}

} // namespace
