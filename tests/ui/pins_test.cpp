#include "tests/ui/support/hand.h"
#include "ui/diagram/pins.h"

#include <gtest/gtest.h>

#include <QLineF>
#include <algorithm>
#include <cmath>

namespace {

using namespace fl;

const QString beginner = QStringLiteral(FL_SOURCE_DIR "/resources/demo/bicycle_workshop_mistakes.fuseloom");

class Pins : public testing::TestWithParam<double> {};

TEST_P(Pins, CoverNoTextAndNoOtherPin) {
    ui::MainWindow window;
    test::Hand hand(window);
    ASSERT_TRUE(window.open(beginner));
    ASSERT_TRUE(hand.wait_for_results());
    const double width = GetParam();
    const auto& findings = hand.session().assessment()->findings;
    const arrange::Layout& layout = hand.session().layout();
    const auto pins = ui::place_pins(layout, findings, width);
    const auto placed = std::count_if(findings.begin(), findings.end(), [](const rules::Finding& one) {
        return one.grade != rules::Grade::practice && !one.subjects.empty() &&
               (one.subjects.front().kind == plan::Subject::Kind::component ||
                one.subjects.front().kind == plan::Subject::Kind::conductor);
    });
    EXPECT_EQ(static_cast<std::ptrdiff_t>(pins.size()), placed);
    EXPECT_GT(pins.size(), 5U);
    for (const ui::Pin& pin : pins) {
        for (const ui::Pin& other : pins)
            if (&other != &pin && other.page == pin.page) {
                EXPECT_GE(QLineF(pin.at, other.at).length(), width);
            }
        for (const arrange::Label& label : layout.labels)
            for (const arrange::Line& line : label.lines) {
                if (label.page != pin.page) continue;
                const double dx =
                    std::max({line.box.left_mm - pin.at.x(), pin.at.x() - line.box.right_mm, 0.0});
                const double dy =
                    std::max({line.box.top_mm - pin.at.y(), pin.at.y() - line.box.bottom_mm, 0.0});
                EXPECT_GE(std::hypot(dx, dy), width / 2) << "pin " << pin.finding + 1 << " on " << line.text;
            }
        EXPECT_EQ(pin.led, QLineF(pin.at, pin.place).length() > width * 0.65)
            << "a leader where it stands off";
    }
}

// 22 pixels at the usual zooms of a window: of a sheet that is shown whole, and nearer.
INSTANTIATE_TEST_SUITE_P(AtZooms, Pins, testing::Values(13.0, 9.0, 5.0));

TEST(PinsOnTheSheet, AClickGoesToTheFinding) {
    ui::MainWindow window;
    test::Hand hand(window);
    ASSERT_TRUE(window.open(beginner));
    ASSERT_TRUE(hand.wait_for_results());
    const double px = 1 / hand.sheet().transform().m11();
    const auto& findings = hand.session().assessment()->findings;
    const auto pins = ui::place_pins(hand.session().layout(), findings, 22 * 1.1 * px);
    ASSERT_FALSE(pins.empty());
    const QPoint at = hand.pixel({pins[0].at.x(), pins[0].at.y()}, pins[0].page);
    hand.point_at(at);
    EXPECT_TRUE(hand.said().starts_with("Click: to finding 1.")) << hand.said();
    hand.click(at);
    EXPECT_EQ(hand.focus().finding(), ui::key_of(findings[0]));
    ASSERT_EQ(hand.focus().selection().size(), 1U);
    EXPECT_EQ(hand.focus().selection().front(), findings[0].subjects.front());
}

} // namespace
