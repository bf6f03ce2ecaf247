#include "ui/diagram/sheet_view.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/window/main_window.h"

#include <gtest/gtest.h>

#include <QLineEdit>
#include <QSignalSpy>
#include <QTest>
#include <QUndoStack>
#include <cstdlib>

namespace {

using namespace fl;

const QString demo = QStringLiteral(FL_SOURCE_DIR "/resources/demo/bicycle_workshop.fuseloom");

class Window : public testing::Test {
protected:
    void SetUp() override {
        window.show();
        ASSERT_TRUE(window.open(demo));
        sheet = window.findChild<ui::SheetView*>();
        ASSERT_NE(sheet, nullptr);
        sheet->setFocus();
        ASSERT_TRUE(QTest::qWaitFor([&] { return !session().stale(); }, 10000));
        before = session().installation();
    }
    void TearDown() override {
        while (session().steps()->canUndo()) session().steps()->undo();
        EXPECT_EQ(session().installation(), before) << "all undone is the first document";
    }
    ui::Session& session() { return window.session(); }
    QPoint pixel(double x_mm, double y_mm) { return sheet->mapFromScene(QPointF(x_mm, y_mm)); }
    const arrange::Symbol& symbol(const char* designation) {
        return *session().layout().symbol(plan::find(session().installation(), designation)->id);
    }

    ui::MainWindow window;
    ui::SheetView* sheet = nullptr;
    plan::Installation before;
};

TEST_F(Window, OpensTheDemoOnItsSheet) {
    EXPECT_TRUE(window.windowTitle().contains(QStringLiteral("Mobile bicycle workshop")));
    const QImage seen = sheet->grab().toImage();
    int dark = 0;
    for (int x = 0; x < seen.width(); ++x)
        for (int y = 0; y < seen.height(); ++y) dark += qGray(seen.pixel(x, y)) < 90;
    EXPECT_GT(dark, 2000) << "lines and letters of a whole sheet";
}

TEST_F(Window, ADraggedSymbolMovesByTheGridAndBack) {
    const arrange::Symbol g2 = symbol("G2");
    const plan::Point middle{(g2.box.left_mm + g2.box.right_mm) / 2, (g2.box.top_mm + g2.box.bottom_mm) / 2};
    const QPoint from = pixel(middle.x_mm, middle.y_mm), to = pixel(middle.x_mm - 10, middle.y_mm + 5);
    QTest::mousePress(sheet->viewport(), Qt::LeftButton, {}, from);
    QTest::mouseMove(sheet->viewport(), (from + to) / 2);
    QTest::mouseMove(sheet->viewport(), to);
    QTest::mouseRelease(sheet->viewport(), Qt::LeftButton, {}, to);
    const arrange::Symbol& moved = symbol("G2");
    EXPECT_TRUE(moved.by_hand);
    EXPECT_NEAR(moved.at.x_mm, g2.at.x_mm - 10, 2.5) << "a pixel is less than a step of the grid";
    EXPECT_NEAR(moved.at.y_mm, g2.at.y_mm + 5, 2.5);
    EXPECT_EQ(session().steps()->count(), 1);
    EXPECT_FALSE(session().stale()) << "moving a symbol computes nothing";
}

TEST_F(Window, EscapeGivesUpADrag) {
    const arrange::Symbol g2 = symbol("G2");
    const QPoint from = pixel((g2.box.left_mm + g2.box.right_mm) / 2, (g2.box.top_mm + g2.box.bottom_mm) / 2);
    QTest::mousePress(sheet->viewport(), Qt::LeftButton, {}, from);
    QTest::mouseMove(sheet->viewport(), from + QPoint(60, 40));
    QTest::keyClick(sheet, Qt::Key_Escape);
    QTest::mouseRelease(sheet->viewport(), Qt::LeftButton, {}, from + QPoint(60, 40));
    EXPECT_EQ(session().steps()->count(), 0);
}

TEST_F(Window, TurnsMirrorsAndRemoves) {
    const arrange::Symbol g2 = symbol("G2");
    QTest::mouseClick(sheet->viewport(), Qt::LeftButton, {},
                      pixel((g2.box.left_mm + g2.box.right_mm) / 2, (g2.box.top_mm + g2.box.bottom_mm) / 2));
    QTest::keyClick(sheet, Qt::Key_R);
    EXPECT_EQ(symbol("G2").quarter_turns, (g2.quarter_turns + 1) % 4);
    QTest::keyClick(sheet, Qt::Key_M);
    EXPECT_NE(symbol("G2").mirrored, g2.mirrored);
    QTest::keyClick(sheet, Qt::Key_Delete);
    EXPECT_EQ(plan::find(session().installation(), "G2"), nullptr);
    EXPECT_TRUE(session().stale()) << "the numbers are older than the drawing until computed anew";
    EXPECT_TRUE(QTest::qWaitFor([&] { return !session().stale(); }, 10000));
}

plan::Component fuse() {
    plan::Component part;
    part.with = plan::Fuse{};
    part.name = "Fuse";
    return part;
}

TEST_F(Window, AFuseDroppedOnAConductorAsksItsDistance) {
    const plan::Conductor* w1 = plan::find_conductor(before, "W1");
    const arrange::Stretch stretch = session().layout().wire(w1->id)->stretches.front();
    const plan::Point a = stretch.points[0], b = stretch.points[1];
    sheet->offer(fuse());
    QTest::mouseClick(sheet->viewport(), Qt::LeftButton, {},
                      pixel((a.x_mm + b.x_mm) / 2, (a.y_mm + b.y_mm) / 2));
    EXPECT_EQ(session().steps()->count(), 0) << "it waits for the number";
    auto* field = sheet->findChild<QLineEdit*>();
    ASSERT_NE(field, nullptr);
    QTest::keyClicks(field, QStringLiteral("0.35 m"));
    QTest::keyClick(field, Qt::Key_Return);
    ASSERT_EQ(session().steps()->count(), 1);
    EXPECT_EQ(session().installation().components.size(), before.components.size() + 1);
    int near = 0;
    for (const plan::Conductor& one : session().installation().conductors)
        near += one.length && *one.length == Length::si(0.35);
    EXPECT_EQ(near, 1) << "the stretch before the fuse has the length that was typed";
}

TEST_F(Window, FourPartsPlacedAndWiredAreFollowedAndUndone) {
    const QPoint spots[] = {pixel(60, 240), pixel(85, 240), pixel(110, 240), pixel(135, 240)};
    for (const QPoint spot : spots) {
        sheet->offer(fuse());
        QTest::mouseClick(sheet->viewport(), Qt::LeftButton, {}, spot);
    }
    ASSERT_EQ(session().installation().components.size(), before.components.size() + 4);
    std::vector<plan::ComponentId> placed;
    for (const plan::Component& one : session().installation().components)
        if (!before.components.find(one.id)) placed.push_back(one.id);
    const auto pin = [&](plan::ComponentId id, std::size_t terminal) {
        const arrange::Symbol& one = *session().layout().symbol(id);
        const plan::Point local =
            catalogue::turned(one.drawing.terminals[terminal].at, one.quarter_turns, one.mirrored);
        return pixel(one.at.x_mm + local.x_mm, one.at.y_mm + local.y_mm);
    };
    for (std::size_t i = 0; i < 3; ++i) {
        QTest::mousePress(sheet->viewport(), Qt::LeftButton, {}, pin(placed[i], 1));
        QTest::mouseMove(sheet->viewport(), pin(placed[i + 1], 0));
        QTest::mouseRelease(sheet->viewport(), Qt::LeftButton, {}, pin(placed[i + 1], 0));
    }
    EXPECT_EQ(session().installation().conductors.size(), before.conductors.size() + 3);
    EXPECT_TRUE(QTest::qWaitFor([&] { return !session().stale(); }, 10000));
    EXPECT_EQ(session().assessment()->installation.conductors, session().installation().conductors);
    EXPECT_EQ(session().steps()->count(), 7);
}

} // namespace
