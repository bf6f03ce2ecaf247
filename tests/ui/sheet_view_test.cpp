#include "tests/ui/support/hand.h"

#include <gtest/gtest.h>

#include <QLineEdit>
#include <QTest>
#include <QUndoStack>

namespace {

using namespace fl;

// Placing and wiring on the sheet of a new job.
struct Sheet : testing::Test {
    ui::MainWindow window;
    test::Hand hand{window};
    void SetUp() override { hand.begin(); }
    const plan::Installation& in() const { return hand.installation(); }
    const arrange::Symbol& symbol(plan::ComponentId id) const { return *hand.session().layout().symbol(id); }
    QLineEdit* question() const { return hand.sheet().findChild<QLineEdit*>(QStringLiteral("distance")); }
};

TEST_F(Sheet, APartFollowsThePointerTurnsAndIsDropped) {
    const plan::Installation before = in();
    const int steps = hand.session().steps()->count();
    hand.take("fuse");
    hand.point_at(hand.pixel({120, 100}));
    EXPECT_TRUE(hand.said().starts_with("Click or Enter: places the fuse here")) << hand.said();
    EXPECT_EQ(in(), before) << "an outline is no part yet";
    const QImage shown = hand.sheet().grab().toImage();
    hand.keys("<R>");
    EXPECT_NE(hand.sheet().grab().toImage(), shown) << "the outline turns";
    hand.keys("<M>");
    hand.click(hand.pixel({120, 100}));
    ASSERT_EQ(in().components.size(), 1U);
    const arrange::Symbol& made = symbol(in().components.begin()->id);
    EXPECT_EQ(made.at, (plan::Point{120, 100}));
    EXPECT_EQ(made.quarter_turns, 1);
    EXPECT_TRUE(made.mirrored);
    EXPECT_EQ(hand.session().steps()->count(), steps + 1);
}

TEST_F(Sheet, APartIsPlacedByKeysAlone) {
    hand.take("battery");
    hand.point_at(hand.pixel({100, 100}));
    hand.keys("<Right><Right><Down><Return>");
    ASSERT_EQ(in().components.size(), 1U);
    // By hand: two steps of 2.5 mm to the right, one down.
    EXPECT_EQ(symbol(in().components.begin()->id).at, (plan::Point{105, 102.5}));
}

TEST_F(Sheet, EscapeGivesUpWhatTheHandDoes) {
    const auto battery = hand.place("battery", {100, 150});
    const auto lamp = hand.place("load", {240, 150});
    const plan::Installation before = in();
    const int steps = hand.session().steps()->count();
    hand.take("fuse");
    hand.keys("<Esc>");
    hand.click(hand.pixel({300, 60}));
    const QPoint start = hand.middle(battery), away = start + QPoint(120, 40);
    hand.drag_to(start, away);
    hand.keys("<Esc>");
    hand.let_go(away);
    hand.drag_to(hand.pin(battery, "+"), hand.pin(lamp, "+"));
    hand.keys("<Esc>");
    hand.let_go(hand.pin(lamp, "+"));
    EXPECT_EQ(in(), before);
    EXPECT_EQ(hand.session().steps()->count(), steps);
}

TEST_F(Sheet, AConductorGoesFromTerminalToTerminal) {
    const auto battery = hand.place("battery", {100, 150});
    const auto lamp = hand.place("load", {240, 150});
    hand.drag_to(hand.pin(battery, "+"), hand.pin(lamp, "+"));
    EXPECT_EQ(hand.said(), "Let go: draws a conductor from G1.+ to E1.+. Esc gives up.");
    hand.let_go(hand.pin(lamp, "+"));
    ASSERT_EQ(in().conductors.size(), 1U);
    const plan::Conductor& made = *in().conductors.begin();
    EXPECT_EQ(made.from, (plan::TerminalRef{battery, "+"}));
    EXPECT_EQ(made.to, (plan::TerminalRef{lamp, "+"}));
    EXPECT_FALSE(made.length) << "paper distance is never cable distance";
    hand.keys("<Esc>");
    hand.point_at(hand.pixel({300, 60}));
    ASSERT_TRUE(hand.session().stale());
    const QImage shown = hand.sheet().grab().toImage();
    bool red = false; // docs/look.md, wire inks: plus is red by the van's rules, before anything is computed
    for (int d = -3; d <= 3; ++d)
        for (const QPoint at : {QPoint(d, 0), QPoint(0, d)})
            red = red || shown.pixel(hand.middle(made.id) + at) == 0xFFBE1E2D;
    EXPECT_TRUE(red);
}

TEST_F(Sheet, ATerminalIsHitByAHandThatIsALittleOff) {
    const auto battery = hand.place("battery", {100, 150});
    const auto lamp = hand.place("load", {240, 150});
    const QPoint off(4, -3);
    hand.drag(hand.pin(battery, "+") + off, hand.pin(lamp, "+") - off);
    ASSERT_EQ(in().conductors.size(), 1U);
    EXPECT_EQ(in().conductors.begin()->to, (plan::TerminalRef{lamp, "+"}));
    // Let go on the part itself it ends at the terminal that is nearest.
    const QPoint near_minus = hand.middle(lamp) + (hand.pin(lamp, "-") - hand.middle(lamp)) / 3;
    hand.drag(hand.pin(battery, "-"), near_minus);
    ASSERT_EQ(in().conductors.size(), 2U);
    EXPECT_EQ(std::next(in().conductors.begin())->to, (plan::TerminalRef{lamp, "-"}));
}

TEST_F(Sheet, ARefusedConductorSaysWhyAndChangesNothing) {
    const auto battery = hand.place("battery", {100, 150});
    const plan::Installation before = in();
    const int steps = hand.session().steps()->count();
    const QPoint plus = hand.pin(battery, "+");
    hand.drag_to(plus, plus + QPoint(60, -60));
    hand.go_on(plus);
    hand.let_go(plus);
    const std::string why = "G1.+: begins and ends at the same terminal: connect two terminals";
    EXPECT_EQ(hand.said(), why);
    hand.point_at(plus + QPoint(90, 90));
    EXPECT_EQ(hand.said(), why) << "it stays until the next press";
    hand.click(hand.pixel({300, 60}));
    EXPECT_NE(hand.said(), why);
    EXPECT_EQ(in(), before);
    EXPECT_EQ(hand.session().steps()->count(), steps);
}

TEST_F(Sheet, AFuseDroppedOnAConductorAsksItsDistanceOnce) {
    const auto battery = hand.place("battery", {100, 150});
    const auto lamp = hand.place("load", {240, 150});
    const auto w1 = hand.wire({battery, "+"}, {lamp, "+"});
    const plan::Installation before = in();
    const int steps = hand.session().steps()->count();
    hand.take("fuse");
    hand.point_at(hand.middle(w1));
    EXPECT_EQ(hand.said(), "Click: puts the fuse in series with W1 (G1 to E1). Esc gives up.");
    hand.click(hand.middle(w1));
    ASSERT_NE(question(), nullptr);
    EXPECT_EQ(question()->text(), QStringLiteral("0.2 m")); // resources/catalogue, fuse.battery_distance
    EXPECT_EQ(in(), before) << "nothing is done before the answer";
    QTest::keyClick(question(), Qt::Key_Escape);
    EXPECT_EQ(question(), nullptr) << "Escape gives it up";
    EXPECT_EQ(in(), before);
    hand.take("fuse");
    hand.click(hand.middle(w1));
    ASSERT_NE(question(), nullptr);
    QTest::keyClicks(question(), QStringLiteral("a thumb"));
    QTest::keyClick(question(), Qt::Key_Return);
    ASSERT_NE(question(), nullptr) << "what can't be read stays to be mended";
    question()->selectAll();
    QTest::keyClicks(question(), QStringLiteral("0.35 m"));
    QTest::keyClick(question(), Qt::Key_Return);
    ASSERT_EQ(in().conductors.size(), 2U);
    for (const auto& w : in().conductors) {
        const bool near = w.from.component == battery;
        ASSERT_EQ(bool(w.length), near) << "only the asked stretch is known";
        if (near) {
            EXPECT_DOUBLE_EQ(w.length->si(), 0.35);
        }
    }
    EXPECT_EQ(hand.session().steps()->count(), steps + 1);
    hand.keys("<Ctrl+Z>");
    EXPECT_EQ(in(), before);
}

TEST_F(Sheet, EveryDeviceGoesInSeriesByItsContact) {
    for (const char* device : {"circuit-breaker", "switch", "relay", "shunt"}) {
        SCOPED_TRACE(device);
        hand.keys("<Ctrl+A><Del>");
        const auto battery = hand.place("battery", {100, 150});
        const auto lamp = hand.place("load", {300, 150});
        const auto w = hand.wire({battery, "+"}, {lamp, "+"});
        hand.take(device);
        hand.click(hand.middle(w));
        ASSERT_NE(question(), nullptr);
        QTest::keyClick(question(), Qt::Key_Return);
        EXPECT_EQ(in().conductors.size(), 2U);
        EXPECT_EQ(in().components.size(), 3U);
    }
}

TEST_F(Sheet, AConductorsEndOnAConductorMakesAJoint) {
    const auto battery = hand.place("battery", {100, 150});
    const auto lamp = hand.place("load", {300, 150});
    const auto other = hand.place("load", {200, 180});
    const auto w1 = hand.wire({battery, "+"}, {lamp, "+"});
    const plan::Installation before = in();
    const int steps = hand.session().steps()->count();
    hand.drag_to(hand.pin(other, "+"), hand.middle(w1));
    EXPECT_EQ(hand.said(), "Let go: joins a conductor from E2.+ to W1 (G1 to E1) here. Esc gives up.");
    hand.let_go(hand.middle(w1));
    EXPECT_EQ(in(), before) << "nothing is done before the answer";
    ASSERT_NE(question(), nullptr);
    question()->selectAll();
    QTest::keyClicks(question(), QStringLiteral("1.5 m"));
    QTest::keyClick(question(), Qt::Key_Return);
    EXPECT_EQ(question(), nullptr);
    ASSERT_EQ(in().components.size(), 4U);
    ASSERT_EQ(in().conductors.size(), 3U);
    int known = 0;
    for (const auto& w : in().conductors) known += w.length && *w.length == Length::si(1.5);
    EXPECT_EQ(known, 1) << "the stretch from the source to the joint is as long as was typed";
    EXPECT_EQ(hand.session().steps()->count(), steps + 1);
    hand.keys("<Ctrl+Z>");
    EXPECT_EQ(in(), before);
}

} // namespace
