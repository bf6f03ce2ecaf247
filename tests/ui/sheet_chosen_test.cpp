#include "tests/ui/support/hand.h"

#include <gtest/gtest.h>

#include <QApplication>
#include <QLineEdit>
#include <QUndoStack>

namespace {

using namespace fl;

// Choosing, and what is done to what is chosen: three parts in a row, two of them joined by a conductor.
struct Chosen : testing::Test {
    ui::MainWindow window;
    test::Hand hand{window};
    plan::ComponentId battery, fuse, lamp;
    plan::ConductorId w1;
    plan::Installation before;
    int steps = 0;

    void SetUp() override {
        hand.begin();
        battery = hand.place("battery", {100, 150});
        fuse = hand.place("fuse", {160, 100});
        lamp = hand.place("load", {240, 150});
        w1 = hand.wire({battery, "+"}, {fuse, "1"});
        hand.keys("<Esc>");
        before = hand.installation();
        steps = hand.session().steps()->count();
    }
    const arrange::Symbol& symbol(plan::ComponentId id) const { return *hand.session().layout().symbol(id); }
    bool chosen(plan::ComponentId id) const { return hand.focus().selected(plan::Subject::of(id)); }
    void expect_one_step() {
        EXPECT_EQ(hand.session().steps()->count(), steps + 1);
        hand.keys("<Ctrl+Z>");
        EXPECT_EQ(hand.installation(), before);
    }
};

TEST_F(Chosen, ABandChoosesWhatLiesInside) {
    hand.drag_to(hand.pixel({60, 70}), hand.pixel({200, 200}));
    EXPECT_EQ(hand.said(), "Let go: chooses what lies inside: 3. Esc gives up.");
    hand.let_go(hand.pixel({200, 200}));
    EXPECT_TRUE(chosen(battery));
    EXPECT_TRUE(chosen(fuse));
    EXPECT_FALSE(chosen(lamp));
    EXPECT_TRUE(hand.focus().selected(plan::Subject::of(w1)));
    hand.drag(hand.pixel({200, 70}), hand.pixel({300, 200}), Qt::ShiftModifier);
    EXPECT_TRUE(chosen(lamp)) << "with Shift it adds";
    EXPECT_TRUE(chosen(battery));
    hand.drag(hand.pixel({300, 230}), hand.pixel({310, 240}));
    EXPECT_TRUE(hand.focus().selection().empty()) << "a band round nothing chooses nothing";
    EXPECT_EQ(hand.session().steps()->count(), steps);
}

TEST_F(Chosen, ClicksAddAndTakeAway) {
    hand.click(hand.middle(battery));
    hand.click(hand.middle(lamp), Qt::ControlModifier);
    hand.click(hand.middle(w1), Qt::ShiftModifier);
    EXPECT_EQ(hand.focus().selection().size(), 3U);
    hand.click(hand.middle(battery), Qt::ControlModifier);
    EXPECT_FALSE(chosen(battery));
    EXPECT_TRUE(chosen(lamp));
    hand.click(hand.middle(lamp));
    EXPECT_EQ(hand.focus().selection().size(), 1U) << "a plain click chooses one alone";
    hand.keys("<Ctrl+A>");
    EXPECT_EQ(hand.focus().selection().size(), 4U);
    EXPECT_EQ(hand.sheet().accessibleDescription().left(7), QStringLiteral("Chosen:"));
    hand.keys("<Esc>");
    EXPECT_EQ(hand.sheet().accessibleDescription(), QStringLiteral("Nothing is chosen"));
}

TEST_F(Chosen, SeveralMoveByOneDrag) {
    hand.click(hand.middle(battery));
    hand.click(hand.middle(lamp), Qt::ShiftModifier);
    const plan::Point at = symbol(battery).at, other = symbol(lamp).at;
    const QPoint start = hand.middle(lamp);
    hand.drag(start, start + (hand.pixel({30, 20}) - hand.pixel({0, 0})));
    EXPECT_EQ(symbol(battery).at, (plan::Point{at.x_mm + 30, at.y_mm + 20}));
    EXPECT_EQ(symbol(lamp).at, (plan::Point{other.x_mm + 30, other.y_mm + 20}));
    EXPECT_TRUE(chosen(battery)) << "they stay chosen";
    expect_one_step();
}

TEST_F(Chosen, SeveralStayOnThePaperAsFarApartAsTheyWere) {
    hand.keys("<Ctrl+A>");
    const plan::Point at = symbol(battery).at, other = symbol(lamp).at;
    const QPoint start = hand.middle(lamp);
    hand.drag(start, hand.pixel({2, 2}));
    EXPECT_GE(symbol(fuse).box.top_mm, 0);
    EXPECT_GE(symbol(battery).box.left_mm, 0);
    EXPECT_EQ(symbol(lamp).at.x_mm - symbol(battery).at.x_mm, other.x_mm - at.x_mm);
}

TEST_F(Chosen, SeveralTurnAndAreMirroredTogether) {
    hand.click(hand.middle(battery));
    hand.click(hand.middle(lamp), Qt::ShiftModifier);
    const plan::Point at = symbol(battery).at, other = symbol(lamp).at;
    hand.keys("<R>");
    // By hand: a quarter to the right takes what lay to the right to below.
    EXPECT_EQ(symbol(lamp).at.x_mm - symbol(battery).at.x_mm, -(other.y_mm - at.y_mm));
    EXPECT_EQ(symbol(lamp).at.y_mm - symbol(battery).at.y_mm, other.x_mm - at.x_mm);
    EXPECT_EQ(symbol(lamp).quarter_turns, 1);
    expect_one_step();
    hand.keys("<M>");
    EXPECT_EQ(symbol(lamp).at.x_mm - symbol(battery).at.x_mm, -(other.x_mm - at.x_mm));
    EXPECT_TRUE(symbol(lamp).mirrored);
    expect_one_step();
}

TEST_F(Chosen, OneTurnsInItsPlace) {
    hand.click(hand.middle(fuse));
    const plan::Point at = symbol(fuse).at;
    hand.keys("<R>");
    EXPECT_EQ(symbol(fuse).at, at);
    EXPECT_EQ(symbol(fuse).quarter_turns, 1);
    expect_one_step();
    hand.keys("<M>");
    EXPECT_TRUE(symbol(fuse).mirrored);
    expect_one_step();
}

TEST_F(Chosen, NudgesOfOneSelectionAreOneStep) {
    hand.click(hand.middle(battery));
    hand.click(hand.middle(fuse), Qt::ShiftModifier);
    const plan::Point at = symbol(battery).at;
    hand.keys("<Right><Right><Down>");
    EXPECT_EQ(symbol(battery).at, (plan::Point{at.x_mm + 5, at.y_mm + 2.5})); // by hand: 2.5 mm each
    expect_one_step();
}

TEST_F(Chosen, SeveralAreRemovedByOneStep) {
    hand.click(hand.middle(battery));
    hand.click(hand.middle(w1), Qt::ShiftModifier);
    hand.click(hand.middle(fuse), Qt::ShiftModifier);
    hand.keys("<Del>");
    EXPECT_EQ(hand.installation().components.size(), 1U);
    EXPECT_TRUE(hand.installation().conductors.empty());
    EXPECT_TRUE(hand.focus().selection().empty());
    expect_one_step();
}

TEST_F(Chosen, KeysTravelAsAPageIsRead) {
    std::vector<plan::Subject> seen;
    for (int i = 0; i < 4; ++i) {
        hand.keys("<N>");
        ASSERT_EQ(hand.focus().selection().size(), 1U);
        seen.push_back(hand.focus().selection().front());
    }
    // The conductor leaves the fuse to the left; the fuse lies above the two others.
    const auto place = [&](const plan::Subject& one) {
        return std::find(seen.begin(), seen.end(), one) - seen.begin();
    };
    EXPECT_LT(place(plan::Subject::of(w1)), 4);
    EXPECT_LT(place(plan::Subject::of(fuse)), place(plan::Subject::of(battery)));
    EXPECT_LT(place(plan::Subject::of(battery)), place(plan::Subject::of(lamp)));
    hand.keys("<Shift+N>");
    EXPECT_EQ(hand.focus().selection().front(), seen[2]);
    hand.keys("<Return>");
    EXPECT_NE(qobject_cast<QLineEdit*>(window.focusWidget()), nullptr) << "Enter goes to the details";
}

TEST_F(Chosen, WhatLiesUnderThePointerIsSaid) {
    hand.point_at(hand.middle(battery));
    EXPECT_TRUE(hand.said().starts_with("Click chooses G1")) << hand.said();
    const QImage pointed = hand.sheet().grab().toImage();
    hand.point_at(hand.pixel({300, 60}));
    EXPECT_TRUE(hand.said().starts_with("Click chooses, drag")) << hand.said();
    EXPECT_NE(hand.sheet().grab().toImage(), pointed) << "a rail shows what is pointed at";
    hand.point_at(hand.pin(lamp, "+"));
    EXPECT_TRUE(hand.said().starts_with("Drag: draws a conductor from E1.+")) << hand.said();
    hand.point_at(hand.middle(w1));
    EXPECT_TRUE(hand.said().starts_with("Click chooses W1")) << hand.said();
}

} // namespace
