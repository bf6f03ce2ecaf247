#include "core/assess/assess.h"
#include "tests/support/case.h"
#include "tests/support/same_document.h"
#include "tests/ui/support/keys.h"
#include "ui/edit/session.h"
#include "ui/window/main_window.h"

#include <gtest/gtest.h>

#include <QString>
#include <QTest>
#include <QUndoStack>

namespace {

using namespace fl;

TEST(Entering, TwelveCircuitsTakeFewerThanThreeHundredKeyPresses) {
    ui::MainWindow window;
    window.show();
    const auto keys =
        test::read_keys(QString::fromStdString(test::source_file("tests/fixtures/enter/van_of_twelve.keys")));
    ASSERT_FALSE(keys.empty());
    EXPECT_LT(test::presses(keys), 300);
    test::type(window, keys);

    // The same van, drawn and worked out by hand.
    const test::Case van = test::read_case(test::source_file("tests/fixtures/enter/van_of_twelve.case"));
    EXPECT_TRUE(van.problems.empty());
    EXPECT_EQ(test::first_difference(van.installation, window.session().installation()), "");
    EXPECT_EQ(window.session().steps()->count(), 14);

    ASSERT_TRUE(QTest::qWaitFor([&] { return !window.session().stale(); }, 20000));
    for (const rules::Finding& one : window.session().assessment()->findings)
        EXPECT_GT(one.grade, rules::Grade::fail) << one.code;
}

TEST(Entering, AWrongRowStaysAndChangesNothing) {
    ui::MainWindow window;
    window.show();
    test::type(window, test::read_keys(QStringLiteral("<Tab><Tab><Return>\nfridge 5q 4m\n")));
    EXPECT_EQ(window.session().steps()->count(), 0);
}

} // namespace
