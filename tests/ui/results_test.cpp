#include "core/wording/wording.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/panel/condition_rail.h"
#include "ui/panel/details.h"
#include "ui/panel/findings.h"
#include "ui/panel/overlay_bar.h"
#include "ui/panel/why_view.h"

#include <gtest/gtest.h>

#include <QAbstractButton>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QTest>
#include <QTreeWidget>
#include <QUndoStack>
#include <algorithm>

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
    auto cells = rail.findChildren<QAbstractButton*>();
    cells.removeOne(rail.findChild<QAbstractButton*>(QStringLiteral("own_condition")));
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

TEST_F(WindowResults, AnOwnConditionIsMadeLikeTheOneShownAndEdited) {
    ConditionRail rail(session, focus);
    Details details(session, focus);
    rail.resize(1400, 74);
    details.resize(330, 600);
    rail.show();
    details.show();
    const auto made_before = session.assessment()->conditions.size();
    auto* own = rail.findChild<QAbstractButton*>(QStringLiteral("own_condition"));
    ASSERT_TRUE(own);
    QTest::keyClick(own, Qt::Key_Return);
    wait();
    ASSERT_EQ(session.assessment()->conditions.size(), made_before + 1);
    EXPECT_EQ(focus.condition(), "own condition");
    ASSERT_EQ(focus.selection().size(), 1u); // its fields are in the details
    auto* line = details.findChild<QLineEdit*>(QStringLiteral("ambient"));
    ASSERT_TRUE(line);
    grab(rail, QStringLiteral("own.png"));
    grab(details, QStringLiteral("own_details.png"));
    line->setFocus();
    QTest::keyClicks(line, QStringLiteral("-10"));
    QTest::keyClick(line, Qt::Key_Return);
    wait();
    const auto& in = session.installation();
    ASSERT_EQ(in.conditions.size(), 1u);
    ASSERT_TRUE(in.conditions.begin()->ambient);
    EXPECT_NEAR(in.conditions.begin()->ambient->celsius(), -10, 1e-9);
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

TEST_F(WindowResults, AFindingIsPutRightByItsButton) {
    FindingsList list(session, focus);
    list.resize(330, 700);
    list.show();
    auto* rows = list.findChild<QListWidget*>();
    auto* button = list.findChild<QPushButton*>();
    ASSERT_NE(button, nullptr);
    EXPECT_FALSE(button->isVisible());
    const auto before = session.installation();
    const auto& findings = session.assessment()->findings;
    const auto at = std::find_if(findings.begin(), findings.end(),
                                 [](const auto& f) { return f.code == "device-above-conductor"; });
    ASSERT_NE(at, findings.end());
    const auto key = key_of(*at);
    auto* item = rows->item(static_cast<int>(at - findings.begin()));
    rows->scrollToItem(item);
    QTest::mouseClick(rows->viewport(), Qt::LeftButton, {}, rows->visualItemRect(item).center());
    ASSERT_TRUE(QTest::qWaitFor([&] { return button->isVisible(); }, 20000));
    grab(list, QStringLiteral("findings_cure.png"));
    EXPECT_TRUE(button->accessibleName().endsWith(QStringLiteral("fit 7.5 A."))) // 30 A over 4 mm², 4.8 A run
        << button->accessibleName().toStdString();
    button->setFocus();
    QTest::keyClick(button, Qt::Key_Space);
    EXPECT_FALSE(button->isVisible());
    wait();
    for (const auto& f : session.assessment()->findings) EXPECT_FALSE(key_of(f) == key);
    session.steps()->undo();
    EXPECT_EQ(session.installation(), before);
}

TEST_F(WindowResults, WhatNoFuseCuresHasNoButton) {
    FindingsList list(session, focus);
    list.resize(330, 700);
    list.show();
    auto* button = list.findChild<QPushButton*>();
    const auto& findings = session.assessment()->findings;
    const auto at = std::find_if(findings.begin(), findings.end(),
                                 [](const auto& f) { return f.code == "inverter-return-bypasses-shunt"; });
    ASSERT_NE(at, findings.end());
    focus.show_finding(key_of(*at));
    QTest::qWait(300);
    EXPECT_FALSE(button->isVisible());
}

TEST_F(WindowResults, BeforeTheFirstResultNothingIsSaid) {
    Session fresh;
    FindingsList list(fresh, focus);
    EXPECT_EQ(list.findChild<QLabel*>()->text(), QStringLiteral("not yet"));
    ASSERT_TRUE(QTest::qWaitFor([&] { return !fresh.stale(); }, 20000));
    EXPECT_EQ(list.findChild<QLabel*>()->text(), QStringLiteral("Nothing found by the checks"));
}

TEST_F(WindowResults, ASizeTypedChangesTheNumbersAndUndoRestores) {
    const auto* w = fl::plan::find_conductor(session.installation(), "W43"); // 1 mm2 that carries 15.5 A
    ASSERT_NE(w, nullptr);
    Details details(session, focus);
    details.resize(330, 700);
    details.show();
    focus.select({fl::plan::Subject::of(w->id)});
    auto* size = details.findChild<QLineEdit*>(QStringLiteral("size"));
    auto* computed = details.findChild<QLabel*>(QStringLiteral("computed"));
    ASSERT_NE(size, nullptr);
    const QString before = computed->text(), drawn = size->text();
    grab(details, QStringLiteral("details.png"));
    size->setFocus();
    size->selectAll();
    QTest::keyClicks(size, QStringLiteral("4 mm2"));
    QTest::keyClick(size, Qt::Key_Return);
    EXPECT_EQ(session.steps()->count(), 1);
    wait();
    EXPECT_NE(computed->text(), before);
    session.steps()->undo();
    wait();
    EXPECT_EQ(computed->text(), before);
    EXPECT_EQ(size->text(), drawn);
}

TEST_F(WindowResults, KeysStepANumberInOneUndo) {
    Details details(session, focus);
    details.show();
    const auto* f = fl::plan::find(session.installation(), "F1");
    ASSERT_NE(f, nullptr);
    focus.select({fl::plan::Subject::of(f->id)});
    auto* rating = details.findChild<QLineEdit*>(QStringLiteral("rating"));
    ASSERT_EQ(rating->text(), QStringLiteral("60 A")); // as the file says
    rating->setFocus();
    QTest::keyClick(rating, Qt::Key_Up);
    QTest::keyClick(rating, Qt::Key_Up);
    EXPECT_EQ(rating->text(), QStringLiteral("80 A")); // the next two ratings of its type: 70, 80
    QTest::keyClick(rating, Qt::Key_Down);
    EXPECT_EQ(rating->text(), QStringLiteral("70 A"));
    EXPECT_EQ(session.steps()->count(), 1);
}

TEST_F(WindowResults, WhyOpensWithTheNumberShown) {
    WhyView view(session, focus);
    view.resize(600, 400);
    view.show();
    const auto* w = fl::plan::find_conductor(session.installation(), "W43");
    focus.ask_why({fl::assess::Quantity::may_carry, fl::plan::Subject::of(w->id), ""});
    auto* tree = view.findChild<QTreeWidget*>();
    ASSERT_EQ(tree->topLevelItemCount(), 1);
    EXPECT_GT(tree->topLevelItem(0)->childCount(), 0);
    const int branch = session.assessment()->network.branch_of(w->id);
    const auto shown = session.assessment()->may_carry[static_cast<std::size_t>(branch)];
    EXPECT_TRUE(tree->topLevelItem(0)
                    ->data(0, Qt::AccessibleTextRole)
                    .toString()
                    .contains(QString::fromStdString(fl::text(shown))));
    grab(view, QStringLiteral("why.png"));
}

} // namespace
