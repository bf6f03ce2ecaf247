// Conductors parted by a device or a joint.
#include "core/edit/diff.h"
#include "core/edit/edit.h"
#include "core/edit/sheet.h"
#include "tests/support/case.h"

#include <gtest/gtest.h>

#include <array>

namespace {

using namespace fl;
using namespace fl::plan;

Installation drawn(const std::string& lines) {
    auto read = test::read_case("rules van 12V\n" + lines + "\nexpect only 0 findings\n");
    for (const std::string& problem : read.problems) ADD_FAILURE() << problem;
    return read.installation;
}

const std::string lamp = "battery G1 lead 12V 80Ah\nload E1 1A\nload E2 1A\ncable WD1 3m\n"
                         "wire W1 G1:+ E1:+ 3m 2.5mm2 PVC70 cable=WD1 colour=RD cover=sheathed\n"
                         "return W2 E1:- G1:- 3m 2.5mm2\n";

TEST(Join, PartsTheConductorAndLandsOnTheJoint) {
    const Installation in = drawn(lamp);
    const ConductorId w1 = find_conductor(in, "W1")->id;
    const TerminalRef load{find(in, "E2")->id, "+"};
    const auto done = edit::join(in, w1, Length::si(1.2), load);
    ASSERT_TRUE(done) << line(done.error());
    const Installation& after = done->installation;
    EXPECT_TRUE(edit::faults(after).empty());
    EXPECT_EQ(after.components.find(done->joint)->kind(), Kind::joint);
    const TerminalRef joint{done->joint, "1"};
    const Conductor &near = *after.conductors.find(done->near), &far = *after.conductors.find(w1),
                    &branch = *after.conductors.find(done->branch);
    EXPECT_EQ(near.from, (TerminalRef{find(in, "G1")->id, "+"}));
    EXPECT_EQ(near.to, joint);
    EXPECT_EQ(far.from, joint);
    EXPECT_EQ(far.to, (TerminalRef{find(in, "E1")->id, "+"}));
    EXPECT_EQ(branch.from, load);
    EXPECT_EQ(branch.to, joint);
    EXPECT_EQ(far.designation, "W1");
    EXPECT_EQ(*near.length, Length::si(1.2));
    EXPECT_EQ(*far.length, Length::si(1.8)); // 3 m less 1.2 m
    for (const Conductor* stretch : {&near, &far}) {
        EXPECT_EQ(stretch->cable, find_conductor(in, "W1")->cable);
        EXPECT_EQ(stretch->size, find_conductor(in, "W1")->size);
        EXPECT_EQ(stretch->insulation, "PVC70");
        EXPECT_EQ(stretch->cover, Cover::sheathed);
    }
    EXPECT_FALSE(branch.length) << "nobody has said how long it is";
    EXPECT_FALSE(branch.size);
    EXPECT_FALSE(branch.cable) << "a core of its own";
}

TEST(Join, MeasuresFromTheOtherEndToo) {
    const Installation in = drawn(lamp);
    const ConductorId w1 = find_conductor(in, "W1")->id;
    const auto done = edit::join(in, w1, Length::si(1), {find(in, "E2")->id, "+"}, false);
    ASSERT_TRUE(done) << line(done.error());
    const Conductor& near = *done->installation.conductors.find(done->near);
    EXPECT_EQ(near.to, (TerminalRef{find(in, "E1")->id, "+"}));
    EXPECT_EQ(*near.length, Length::si(1));
    EXPECT_EQ(done->installation.conductors.find(w1)->to, near.from);
}

TEST(Join, ASignalStaysASignal) {
    const Installation in = drawn("signal X5 engine_running\ncharger T1 40A\ncharger T2 40A\n"
                                  "wire W1 X5:1 T1:run 5m 0.75mm2 role=signal supplied=engine_running");
    const auto done =
        edit::join(in, find_conductor(in, "W1")->id, Length::si(4), {find(in, "T2")->id, "run"});
    ASSERT_TRUE(done) << line(done.error());
    for (const Conductor& w : done->installation.conductors) {
        EXPECT_EQ(w.role, Role::signal);
        EXPECT_EQ(w.supplied, Supplied::engine_running);
    }
}

TEST(Join, WhatCannotBeIsAProblem) {
    const Installation in = drawn(lamp);
    const ConductorId w1 = find_conductor(in, "W1")->id;
    const TerminalRef load{find(in, "E2")->id, "+"};
    EXPECT_EQ(edit::join(in, {99}, {}, load).error().code, "edit.subject");
    EXPECT_EQ(edit::join(in, w1, Length::si(3.1), load).error().code, "edit.distance");
    EXPECT_EQ(edit::join(in, w1, {}, {load.component, "banana"}).error().code, "valid.terminal");
    EXPECT_EQ(edit::join(in, w1, {}, {ComponentId{99}, "+"}).error().code, "valid.reference");
}

// Devices and joints alike: what was not said is not known afterwards, and never the whole length twice.
TEST(Parting, AnUnknownDistanceIsNeverInvented) {
    const std::string two = "battery G1 lead 12V 80Ah\nload E1 1A\nload E2 1A\nplace a cab\nplace b cab\n"
                            "run R1 a b 4m\nrun R2 a b\ncable WD1 4m\n";
    struct {
        const char* wire;
        bool refused;
    } const all[] = {{"wire W1 G1:+ E1:+ 3m", false},         // its own length
                     {"wire W1 G1:+ E1:+", false},            // none known
                     {"wire W1 G1:+ E1:+ run=R2", false},     // none known
                     {"wire W1 G1:+ E1:+ run=R1", true},      // its run's
                     {"wire W1 G1:+ E1:+ cable=WD1", true},   // its cable's
                     {"wire W1 G1:+ E1:+ 3m run=R1", false}}; // its own, in a run
    for (const auto& [wire, refused] : all) {
        const Installation in = drawn(two + wire);
        const ConductorId w1 = find_conductor(in, "W1")->id;
        Component fuse;
        fuse.with = Fuse{};
        const auto device = edit::insert(in, w1, fuse, {});
        const auto joined = edit::join(in, w1, {}, {find(in, "E2")->id, "+"});
        if (refused) {
            ASSERT_FALSE(device) << wire;
            ASSERT_FALSE(joined) << wire;
            EXPECT_EQ(device.error().code, "edit.distance");
            EXPECT_EQ(joined.error().code, "edit.distance");
            const auto known = edit::insert(in, w1, fuse, Length::si(0.5));
            ASSERT_TRUE(known) << wire;
            EXPECT_EQ(*length_of(known->installation, *known->installation.conductors.find(w1)),
                      Length::si(3.5)); // 4 m less 0.5 m
            continue;
        }
        ASSERT_TRUE(device && joined) << wire;
        for (const Conductor& w : device->installation.conductors) EXPECT_FALSE(w.length) << wire;
        for (const Conductor& w : joined->installation.conductors) EXPECT_FALSE(w.length) << wire;
    }
}

TEST(Parting, CornersOfAHandAreForgotten) {
    const Installation in = drawn(lamp);
    const ConductorId w1 = find_conductor(in, "W1")->id;
    const std::array corners{Point{100, 50}};
    const auto led = edit::route(in, w1, corners);
    ASSERT_TRUE(led);
    EXPECT_EQ(led->routes.size(), 1U);
    Component fuse;
    fuse.with = Fuse{};
    EXPECT_TRUE(edit::insert(*led, w1, fuse, Length::si(0.2))->installation.routes.empty());
}

} // namespace
