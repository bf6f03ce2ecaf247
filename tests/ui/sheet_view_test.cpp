#include "ui/diagram/sheet_view.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"

#include <gtest/gtest.h>

#include <QLineEdit>
#include <QTest>
#include <QUndoStack>

namespace {

using namespace fl;
using fl::ui::Focus;
using fl::ui::Session;
using fl::ui::SheetView;

const QString demo = QStringLiteral(FL_SOURCE_DIR "/resources/demo/bicycle_workshop.fuseloom");

struct WindowSheet : testing::Test {
    Session session;
    Focus focus;
    SheetView view{session, focus};

    void SetUp() override {
        view.resize(1400, 1000);
        view.show();
        ASSERT_TRUE(QTest::qWaitForWindowExposed(&view));
        view.setFocus();
    }
    /// A point of the first page, which lies at the origin, in pixels of the viewport.
    QPoint pixel(double x_mm, double y_mm) const { return view.mapFromScene(QPointF(x_mm, y_mm)); }
    QPoint pin(plan::ComponentId id, std::string_view terminal) const {
        for (const auto& p : session.layout().symbol(id)->pins)
            if (p.terminal == terminal) return pixel(p.at.x_mm, p.at.y_mm);
        ADD_FAILURE() << "no terminal " << terminal;
        return {};
    }
    QPoint middle(plan::ComponentId id) const {
        const auto& b = session.layout().symbol(id)->box;
        return pixel((b.left_mm + b.right_mm) / 2, (b.top_mm + b.bottom_mm) / 2);
    }
    void click(QPoint at, Qt::KeyboardModifiers keys = Qt::NoModifier) {
        QTest::mouseClick(view.viewport(), Qt::LeftButton, keys, at);
    }
    // A real pointer passes points on its way; the last event before the release is at the goal.
    void drag_to(QPoint from, QPoint to) {
        QTest::mousePress(view.viewport(), Qt::LeftButton, {}, from);
        for (const double share : {0.25, 0.5, 0.75, 1.0}) move(from + (to - from) * share);
    }
    void drag(QPoint from, QPoint to) {
        drag_to(from, to);
        QTest::mouseRelease(view.viewport(), Qt::LeftButton, {}, to);
    }
    void move(QPoint to) {
        QMouseEvent event(QEvent::MouseMove, to, view.viewport()->mapToGlobal(to), Qt::NoButton,
                          Qt::LeftButton, Qt::NoModifier);
        QApplication::sendEvent(view.viewport(), &event);
    }
    plan::ComponentId place(plan::Parameters with, double x_mm, double y_mm) {
        plan::Component part;
        part.with = std::move(with);
        view.offer(part);
        QTest::mouseMove(view.viewport(), pixel(x_mm, y_mm));
        click(pixel(x_mm, y_mm));
        plan::ComponentId last;
        for (const auto& c : session.installation().components) last = c.id;
        return last;
    }
};

TEST_F(WindowSheet, FourPartsArePlacedAndWiredAndAllIsUndone) {
    const auto first = session.installation();
    const auto battery = place(plan::Battery{}, 60, 150);
    const auto fuse = place(plan::Fuse{}, 120, 100);
    const auto knob = place(plan::Switch{}, 180, 100);
    const auto lamp = place(plan::Load{}, 240, 150);
    ASSERT_EQ(session.installation().components.size(), 4U);
    const std::pair<plan::TerminalRef, plan::TerminalRef> wires[] = {{{battery, "+"}, {fuse, "1"}},
                                                                     {{fuse, "2"}, {knob, "1"}},
                                                                     {{knob, "2"}, {lamp, "+"}},
                                                                     {{lamp, "-"}, {battery, "-"}}};
    std::size_t count = 0;
    for (const auto& [from, to] : wires) {
        drag(pin(from.component, from.terminal), pin(to.component, to.terminal));
        ASSERT_EQ(session.installation().conductors.size(), ++count);
        const plan::Conductor* made = nullptr;
        for (const auto& w : session.installation().conductors) made = &w;
        EXPECT_EQ(made->from, from);
        EXPECT_EQ(made->to, to);
        EXPECT_FALSE(made->length) << "paper distance is never cable distance";
    }
    while (session.steps()->canUndo()) session.steps()->undo();
    EXPECT_EQ(session.installation(), first);
}

TEST_F(WindowSheet, ADragMovesASymbolOnTheGridAsOneStep) {
    const auto battery = place(plan::Battery{}, 60, 150);
    const int before = session.steps()->count();
    const auto at = session.layout().symbol(battery)->at;
    const QPoint start = middle(battery);
    drag(start, start + (pixel(50, 0) - pixel(0, 0)));
    // 50 mm on paper is twenty steps of the grid; a pixel is less than half a step.
    EXPECT_EQ(session.layout().symbol(battery)->at, (plan::Point{at.x_mm + 50, at.y_mm}));
    EXPECT_EQ(session.steps()->count(), before + 1);
}

TEST_F(WindowSheet, EscapeDuringADragLeavesNothing) {
    const auto battery = place(plan::Battery{}, 60, 150);
    const auto before = session.installation();
    const int steps = session.steps()->count();
    const QPoint start = middle(battery);
    drag_to(start, start + QPoint(120, 40));
    QTest::keyClick(view.viewport(), Qt::Key_Escape);
    QTest::mouseRelease(view.viewport(), Qt::LeftButton, {}, start + QPoint(120, 40));
    EXPECT_EQ(session.installation(), before);
    EXPECT_EQ(session.steps()->count(), steps);
}

TEST_F(WindowSheet, APartIsTurnedNudgedAndRemovedByKey) {
    const auto fuse = place(plan::Fuse{}, 120, 100);
    click(middle(fuse));
    ASSERT_TRUE(focus.selected(plan::Subject::of(fuse)));
    const int turns = session.layout().symbol(fuse)->quarter_turns;
    QTest::keyClick(view.viewport(), Qt::Key_R);
    EXPECT_EQ(session.layout().symbol(fuse)->quarter_turns, (turns + 1) % 4);
    const auto at = session.layout().symbol(fuse)->at;
    QTest::keyClick(view.viewport(), Qt::Key_Right);
    EXPECT_EQ(session.layout().symbol(fuse)->at, (plan::Point{at.x_mm + 2.5, at.y_mm}));
    QTest::keyClick(view.viewport(), Qt::Key_Delete);
    EXPECT_TRUE(session.installation().components.empty());
    EXPECT_TRUE(focus.selection().empty());
}

TEST_F(WindowSheet, AFuseDroppedOnAConductorAsksItsDistanceOnce) {
    const auto battery = place(plan::Battery{}, 60, 150);
    const auto lamp = place(plan::Load{}, 240, 150);
    drag(pin(battery, "+"), pin(lamp, "+"));
    ASSERT_EQ(session.installation().conductors.size(), 1U);
    const auto before = session.installation();
    const auto& points = session.layout().wires.front().stretches.front().points;
    // The middle of its longest piece lies clear of every symbol.
    plan::Point middle_of;
    double longest = 0;
    for (std::size_t i = 1; i < points.size(); ++i) {
        const double length =
            std::abs(points[i].x_mm - points[i - 1].x_mm) + std::abs(points[i].y_mm - points[i - 1].y_mm);
        if (length <= longest) continue;
        longest = length;
        middle_of = {(points[i].x_mm + points[i - 1].x_mm) / 2, (points[i].y_mm + points[i - 1].y_mm) / 2};
    }
    plan::Component part;
    part.with = plan::Fuse{};
    view.offer(part);
    click(pixel(middle_of.x_mm, middle_of.y_mm));
    auto* field = view.findChild<QLineEdit*>();
    ASSERT_NE(field, nullptr);
    EXPECT_EQ(session.installation(), before) << "nothing is done before the answer";
    QTest::keyClick(field, Qt::Key_Escape);
    EXPECT_FALSE(field->isVisible()) << "Escape gives it up";
    EXPECT_EQ(session.installation(), before);
    view.offer(part);
    click(pixel(middle_of.x_mm, middle_of.y_mm));
    field = view.findChild<QLineEdit*>(QStringLiteral("distance"));
    ASSERT_NE(field, nullptr);
    QTest::keyClicks(field, QStringLiteral("0.35 m"));
    QTest::keyClick(field, Qt::Key_Return);
    ASSERT_EQ(session.installation().components.size(), 3U);
    ASSERT_EQ(session.installation().conductors.size(), 2U);
    for (const auto& w : session.installation().conductors) {
        const bool near = w.from.component == battery;
        ASSERT_EQ(bool(w.length), near) << "only the asked stretch is known";
        if (near) {
            EXPECT_DOUBLE_EQ(w.length->si(), 0.35);
        }
    }
    session.steps()->undo();
    EXPECT_EQ(session.installation(), before);
}

TEST_F(WindowSheet, TheDemoIsShownAndAClickChooses) {
    ASSERT_TRUE(session.open(demo).has_value());
    const auto& symbol = session.layout().symbols.front();
    click(middle(symbol.component));
    EXPECT_TRUE(focus.selected(plan::Subject::of(symbol.component)));
    const QImage picture = view.grab().toImage();
    EXPECT_EQ(picture.pixelColor(pixel(40, 2)), QColor(Qt::white)) << "paper outside the frame is white";
    if (const QByteArray folder = qgetenv("FL_PICTURES"); !folder.isEmpty())
        picture.save(QString::fromLocal8Bit(folder) + QStringLiteral("/sheet.png"));
}

} // namespace
