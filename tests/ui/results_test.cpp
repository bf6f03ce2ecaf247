#include "core/wording/wording.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/panel/condition_rail.h"
#include "ui/panel/findings.h"
#include "ui/panel/overlay_bar.h"

#include <gtest/gtest.h>

#include <QAbstractButton>
#include <QLabel>
#include <QListWidget>
#include <QTest>

namespace {

using namespace fl::ui;

class WindowResults : public testing::Test {
protected:
    void SetUp() override {
        ASSERT_TRUE(
            session.open(QStringLiteral(FL_SOURCE_DIR "/resources/demo/bicycle_workshop_mistakes.fuseloom"))
                .has_value());
        wait();
    }
    void wait() {
        ASSERT_TRUE(QTest::qWaitFor([&] { return !session.stale(); }, 20000));
        QCoreApplication::processEvents();
    }
    // Kept where FL_GRAB says, to be looked at.
    static void grab(QWidget& widget, const QString& name) {
        const QString folder = qEnvironmentVariable("FL_GRAB");
        if (!folder.isEmpty()) widget.grab().save(folder + QStringLiteral("/") + name);
    }
    Session session;
    Focus focus;
};

TEST_F(WindowResults, AKeyChoosesTheNextCondition) {
    ConditionRail rail(session, focus);
    rail.resize(1400, 70);
    rail.show();
    const auto cells = rail.findChildren<QAbstractButton*>();
    ASSERT_EQ(cells.size(), static_cast<qsizetype>(session.assessment()->conditions.size()) + 1);
    EXPECT_TRUE(cells[0]->isChecked());
    cells[0]->setFocus();
    QTest::keyClick(cells[0], Qt::Key_Right);
    EXPECT_EQ(focus.condition(), session.assessment()->conditions[0].condition.name);
    EXPECT_TRUE(cells[1]->isChecked());
    EXPECT_FALSE(cells[0]->isChecked());
    grab(rail, QStringLiteral("rail.png"));
    QTest::mouseClick(cells[0], Qt::LeftButton);
    EXPECT_EQ(focus.condition(), "");
}

TEST_F(WindowResults, AClickChoosesTheOverlay) {
    OverlayBar bar(session, focus);
    bar.resize(900, 36);
    bar.show();
    const auto choices = bar.findChildren<QAbstractButton*>();
    ASSERT_EQ(choices.size(), 6);
    QTest::mouseClick(choices[3], Qt::LeftButton);
    EXPECT_EQ(focus.overlay(), fl::listing::Overlay::drop);
    QTest::keyClick(choices[3], Qt::Key_Right);
    EXPECT_EQ(focus.overlay(), fl::listing::Overlay::fault);
    EXPECT_FALSE(choices[3]->isChecked());
    grab(bar, QStringLiteral("overlay.png"));
}

TEST_F(WindowResults, AFindingChosenSelectsItsPlace) {
    FindingsList list(session, focus);
    list.resize(330, 600);
    list.show();
    auto* rows = list.findChild<QListWidget*>();
    ASSERT_GE(rows->count(), 2);
    QTest::mouseClick(rows->viewport(), Qt::LeftButton, {}, rows->visualItemRect(rows->item(0)).center());
    const auto& findings = session.assessment()->findings;
    EXPECT_EQ(focus.selection(), std::vector{findings[0].subjects.front()});
    QTest::keyClick(rows, Qt::Key_Down);
    ASSERT_TRUE(focus.finding().has_value());
    EXPECT_EQ(focus.finding()->code, findings[1].code);
    EXPECT_EQ(focus.selection(), std::vector{findings[1].subjects.front()});
    grab(list, QStringLiteral("findings.png"));
}

TEST_F(WindowResults, BeforeTheFirstResultNothingIsSaid) {
    Session fresh;
    FindingsList list(fresh, focus);
    EXPECT_EQ(list.findChild<QLabel*>()->text(), QStringLiteral("not yet"));
    ASSERT_TRUE(QTest::qWaitFor([&] { return !fresh.stale(); }, 20000));
    EXPECT_EQ(list.findChild<QLabel*>()->text(), QStringLiteral("Nothing found by the checks"));
}

} // namespace
