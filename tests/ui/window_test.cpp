#include "tests/ui/support/hand.h"

#include <gtest/gtest.h>

#include <QTest>
#include <QUndoStack>
#include <algorithm>

namespace {

using namespace fl;

const QString demo = QStringLiteral(FL_SOURCE_DIR "/resources/demo/bicycle_workshop.fuseloom");

// The demo, worked on: results follow, and all undone is the first document.
class Window : public testing::Test {
protected:
    void SetUp() override {
        ASSERT_TRUE(window.open(demo));
        hand.press_key(Qt::Key_E, Qt::ControlModifier);
        ASSERT_TRUE(hand.wait_for_results());
        before = hand.installation();
    }
    void TearDown() override {
        for (int i = hand.session().steps()->count(); i > 0; --i) hand.keys("<Ctrl+Z>");
        EXPECT_EQ(hand.installation(), before) << "all undone is the first document";
        EXPECT_TRUE(hand.wait_for_results()) << "results follow what is undone too";
        EXPECT_EQ(hand.session().assessment()->installation, before);
    }
    const arrange::Symbol& symbol(const char* designation) {
        return *hand.session().layout().symbol(plan::find(hand.installation(), designation)->id);
    }

    ui::MainWindow window;
    test::Hand hand{window};
    plan::Installation before;
};

TEST_F(Window, OpensTheDemoOnItsSheet) {
    EXPECT_TRUE(window.windowTitle().contains(QStringLiteral("Mobile bicycle workshop")));
    const QImage seen = hand.sheet().grab().toImage();
    int dark = 0;
    for (int x = 0; x < seen.width(); ++x)
        for (int y = 0; y < seen.height(); ++y) dark += qGray(seen.pixel(x, y)) < 90;
    EXPECT_GT(dark, 2000) << "lines and letters of a whole sheet";
    EXPECT_EQ(seen.pixelColor(hand.pixel({40, 2})), QColor(Qt::white)) << "paper outside the frame is white";
}

TEST_F(Window, TheSheetAloneTakesTheWholeWidth) {
    const int beside_lists = hand.sheet().width();
    const double near = hand.pixel({400, 40}).x() - hand.pixel({20, 40}).x();
    hand.press_key(Qt::Key_F11);
    const auto as_wide_as = [&](int width) {
        return QTest::qWaitFor([&] { return hand.sheet().width() == width; });
    };
    EXPECT_TRUE(as_wide_as(window.width())) << hand.sheet().width();
    EXPECT_GT(hand.pixel({400, 40}).x() - hand.pixel({20, 40}).x(), near * 1.05) << "and the paper follows";
    hand.press_key(Qt::Key_F11);
    EXPECT_TRUE(as_wide_as(beside_lists)) << hand.sheet().width();
}

TEST_F(Window, MovingASymbolComputesNothing) {
    const arrange::Symbol g2 = symbol("G2");
    const QPoint from = hand.middle(g2.component);
    hand.drag(from, from + (hand.pixel({0, 5}) - hand.pixel({10, 0})));
    const arrange::Symbol& moved = symbol("G2");
    EXPECT_TRUE(moved.by_hand);
    EXPECT_EQ(moved.at, (plan::Point{g2.at.x_mm - 10, g2.at.y_mm + 5}));
    EXPECT_EQ(hand.session().steps()->count(), 1);
    EXPECT_FALSE(hand.session().stale());
}

TEST_F(Window, RemovingAPartMakesTheNumbersOldUntilComputed) {
    hand.click(hand.middle(symbol("G2").component));
    hand.keys("<Del>");
    EXPECT_EQ(plan::find(hand.installation(), "G2"), nullptr);
    EXPECT_TRUE(hand.session().stale());
    EXPECT_TRUE(hand.wait_for_results());
}

// What a fitter does with the sheet alone: parts, conductors, values by hand; the numbers follow each.
TEST_F(Window, FourPartsPlacedAndWiredAreFollowedAndUndone) {
    const auto battery = hand.place("battery", {60, 240});
    const auto fuse = hand.place("fuse", {90, 225});
    const auto knob = hand.place("switch", {120, 225});
    const auto lamp = hand.place("load", {150, 240});
    ASSERT_EQ(hand.installation().components.size(), before.components.size() + 4);
    hand.wire({battery, "+"}, {fuse, "1"});
    hand.wire({fuse, "2"}, {knob, "1"});
    hand.wire({knob, "2"}, {lamp, "+"});
    const auto back = hand.wire({lamp, "-"}, {battery, "-"});
    ASSERT_EQ(hand.installation().conductors.size(), before.conductors.size() + 4);
    EXPECT_EQ(hand.session().steps()->count(), 8);
    const auto revision = hand.session().revision();
    EXPECT_TRUE(hand.wait_for_results());
    const assess::Assessment& results = *hand.session().assessment();
    EXPECT_EQ(results.revision, revision) << "numbers of the drawing as it is now";
    EXPECT_EQ(results.installation, hand.installation());
    EXPECT_GE(results.network.branch_of(back), 0);
}

} // namespace
