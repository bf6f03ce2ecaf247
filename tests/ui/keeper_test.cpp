#include "core/file/recovery.h"
#include "tests/ui/support/keys.h"
#include "ui/edit/session.h"
#include "ui/window/main_window.h"

#include <gtest/gtest.h>

#include <QCoreApplication>
#include <QDir>
#include <QFile>
#include <QPushButton>
#include <QStandardPaths>
#include <QTest>

namespace {

using namespace fl;

const QString demo = QStringLiteral(FL_SOURCE_DIR "/resources/demo/bicycle_workshop.fuseloom");

QString folder() {
    return QStandardPaths::writableLocation(QStandardPaths::AppDataLocation) + QStringLiteral("/unsaved");
}

QStringList kept() {
    QStringList all;
    for (const std::string& one : file::recovery_files(folder().toStdString()))
        all << QString::fromStdString(one);
    return all;
}

void type_row(ui::MainWindow& window, const char* row) {
    test::type(window, test::read_keys(QStringLiteral("<Ctrl+L>\n%1\n").arg(QString::fromUtf8(row))));
}

QPushButton* button(const ui::MainWindow& window, const char* name) {
    for (auto* one : window.findChildren<QPushButton*>())
        if (one->text() == QString::fromUtf8(name) && !one->isHidden()) return one;
    return nullptr;
}

TEST(Keeper, WhatIsNotSavedIsKeptAndGoesWhenUndone) {
    ui::MainWindow window;
    window.show();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window));
    ASSERT_TRUE(window.open(demo));
    EXPECT_TRUE(kept().isEmpty());
    type_row(window, "horn 4a 2m");
    type_row(window, "radio 1a 2m");
    const auto newest = [&] {
        const auto read = kept().size() == 1 ? file::read_recovery(kept().front().toStdString())
                                             : tl::unexpected<Problems>(Problems{});
        return read && read->installation == window.session().installation();
    };
    EXPECT_TRUE(QTest::qWaitFor(newest, 10000));
    test::type(window, test::read_keys(QStringLiteral("<Ctrl+Z>\n<Ctrl+Z>\n")));
    EXPECT_TRUE(QTest::qWaitFor([] { return kept().isEmpty(); }, 10000));
}

TEST(Keeper, WorkLeftBehindIsTakenUpOrThrownAway) {
    plan::Installation wanted;
    { // A program that ended in the middle: its file is there, its lock is nobody's.
        ui::MainWindow window;
        window.show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&window));
        ASSERT_TRUE(window.open(demo));
        type_row(window, "horn 4a 2m");
        wanted = window.session().installation();
        ASSERT_TRUE(QTest::qWaitFor([] { return kept().size() == 1; }, 10000));
        const QString running = kept().front();
        for (const char* token : {"999999998-1", "999999999-1"})
            ASSERT_TRUE(QFile::copy(running, QString::fromStdString(file::recovery_path(
                                                 folder().toStdString(), demo.toStdString(), token))));
        ui::MainWindow other; // runs beside it: the two that are nobody's are offered, not the running one's
        int offered = 0;
        for (auto* one : other.findChildren<QPushButton*>())
            offered += one->text() == QStringLiteral("Take it up") ? 1 : 0;
        EXPECT_EQ(offered, 2);
    }
    EXPECT_EQ(kept().size(), 2) << "a window that is closed leaves nothing of its own";
    ui::MainWindow window;
    window.show();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window));
    auto* away = button(window, "Throw it away");
    ASSERT_TRUE(away);
    QTest::mouseClick(away, Qt::LeftButton);
    EXPECT_EQ(kept().size(), 1);
    QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    auto* take = button(window, "Take it up");
    ASSERT_TRUE(take);
    QTest::mouseClick(take, Qt::LeftButton);
    EXPECT_EQ(window.session().installation(), wanted);
    EXPECT_EQ(window.session().path(), demo);
    EXPECT_TRUE(window.isWindowModified()) << "it is still to be saved";
    const QStringList left = {QString::fromStdString(
        file::recovery_path(folder().toStdString(), demo.toStdString(), "999999998-1"))};
    EXPECT_TRUE(QTest::qWaitFor([&] { return kept().size() == 1 && kept() != left; }, 10000))
        << "kept anew, under this program's own name";
}

TEST(Keeper, WhatCantBeReadIsSaidAndStays) {
    ASSERT_TRUE(QDir().mkpath(folder()));
    const QString broken = QString::fromStdString(file::recovery_path(folder().toStdString(), "", "7-7"));
    QFile file(broken);
    ASSERT_TRUE(file.open(QIODevice::WriteOnly));
    file.write("{\"format\": ");
    file.close();
    {
        ui::MainWindow window;
        window.show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&window));
        auto* take = button(window, "Take it up");
        ASSERT_TRUE(take);
        QTest::mouseClick(take, Qt::LeftButton);
        EXPECT_TRUE(window.session().installation().components.empty());
    }
    EXPECT_TRUE(QFile::exists(broken));
    QFile::remove(broken);
}

} // namespace
