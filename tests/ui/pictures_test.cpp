#include "tests/ui/support/keys.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/window/main_window.h"

#include <gtest/gtest.h>

#include <QDir>
#include <QFile>
#include <QTemporaryDir>
#include <QTest>
#include <QUndoStack>

namespace {

using namespace fl;

// The pictures of the user guide, made anew by docs/pictures/make; without it they go to a folder that is
// thrown away, so that each run shows that they can be made.
class Pictures : public testing::Test {
protected:
    void SetUp() override {
        window.resize(1600, 1000);
        window.show();
    }
    void open(const char* name) {
        ASSERT_TRUE(window.open(QStringLiteral(FL_SOURCE_DIR "/resources/demo/") + QString::fromUtf8(name)));
        ASSERT_TRUE(QTest::qWaitFor([&] { return !window.session().stale(); }, 10000));
    }
    void keep(const char* name) {
        QTest::qWait(20); // what is posted gets painted
        const QString wanted = qEnvironmentVariable("FL_PICTURES");
        const QString path =
            QDir(wanted.isEmpty() ? thrown_away.path() : wanted).filePath(QString::fromUtf8(name));
        const QImage seen = window.grab().toImage();
        ASSERT_TRUE(seen.save(path)) << path.toStdString();
        EXPECT_EQ(seen.size(), QSize(1600, 1000));
    }
    QTemporaryDir thrown_away;
    ui::MainWindow window;
};

TEST_F(Pictures, TheStart) {
    keep("start.png");
}

TEST_F(Pictures, CircuitsTyped) {
    QFile rows(QStringLiteral(FL_SOURCE_DIR "/tests/fixtures/enter/van_of_twelve.keys"));
    ASSERT_TRUE(rows.open(QIODevice::ReadOnly));
    test::type(window, test::read_keys(QString::fromUtf8(rows.readAll())));
    ASSERT_TRUE(QTest::qWaitFor([&] { return !window.session().stale(); }, 10000));
    EXPECT_EQ(window.session().steps()->count(), 14) << "two main units and twelve circuits";
    keep("circuits.png");
}

TEST_F(Pictures, AWhyOpened) {
    open("bicycle_workshop.fuseloom");
    const auto& in = window.session().installation();
    const auto w6 = plan::Subject::of(plan::find_conductor(in, "W6")->id);
    window.focus().select({w6});
    window.focus().ask_why({assess::Quantity::may_carry, w6, {}});
    keep("why.png");
}

TEST_F(Pictures, FuseCurves) {
    open("bicycle_workshop.fuseloom");
    window.focus().select({plan::Subject::of(plan::find(window.session().installation(), "E1")->id)});
    QTest::keyClick(&window, Qt::Key_F12);
    QTest::qWait(50); // the columns take their room
    keep("curves.png");
}

TEST_F(Pictures, DemoInLeanCruise) {
    open("bicycle_workshop.fuseloom");
    for (const auto& one : window.session().assessment()->conditions)
        if (one.condition.name.find("lean") != std::string::npos) {
            while (window.focus().condition() != one.condition.name) QTest::keyClick(&window, Qt::Key_F9);
            break;
        }
    EXPECT_FALSE(window.focus().condition().empty());
    keep("lean_cruise.png");
}

TEST_F(Pictures, AFindingChosen) {
    open("bicycle_workshop_mistakes.fuseloom");
    QTest::keyClick(&window, Qt::Key_F8);
    EXPECT_TRUE(window.focus().finding().has_value());
    keep("finding.png");
}

TEST_F(Pictures, BeginnersFile) {
    open("bicycle_workshop_mistakes.fuseloom");
    keep("beginner.png");
}

} // namespace
