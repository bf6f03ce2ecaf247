#include "ui/edit/session.h"
#include "ui/window/main_window.h"

#include <gtest/gtest.h>

#include <QAbstractButton>
#include <QApplication>
#include <QDir>
#include <QFile>
#include <QLineEdit>
#include <QTemporaryDir>
#include <QTest>
#include <QTimer>

namespace {

using namespace fl;

TEST(PaperFromTheWindow, IsWrittenWhereTheUserSays) {
    const QTemporaryDir folder;
    const QString path = folder.filePath(QStringLiteral("my van.pdf"));
    ui::MainWindow window;
    window.show();
    ASSERT_TRUE(window.open(QStringLiteral(FL_SOURCE_DIR "/resources/demo/bicycle_workshop.fuseloom")));
    ASSERT_TRUE(QTest::qWaitFor([&] { return !window.session().stale(); }, 10000));
    bool asked = false;
    QTimer answers; // the dialog runs a loop of its own
    answers.setInterval(100);
    QObject::connect(&answers, &QTimer::timeout, &window, [&] {
        QWidget* dialog = QApplication::activeModalWidget();
        auto* name = dialog ? dialog->findChild<QLineEdit*>(QStringLiteral("fileNameEdit")) : nullptr;
        if (!name || !name->isVisible()) return;
        if (!asked) {
            EXPECT_TRUE(name->text().endsWith(QStringLiteral("bicycle_workshop.pdf")))
                << name->text().toStdString();
        }
        asked = true;
        if (name->text() != path) { // a dialog that still opens takes the keys and offers its own again
            name->selectAll();
            QTest::keyClicks(name, path);
            return;
        }
        for (QAbstractButton* button : dialog->findChildren<QAbstractButton*>())
            if (button->text().contains(QStringLiteral("Save")) && button->isEnabled())
                return QTest::mouseClick(button, Qt::LeftButton);
    });
    answers.start();
    QTimer::singleShot(8000, &window, [] { // fails rather than waits for ever
        while (QWidget* open = QApplication::activeModalWidget())
            if (!open->close()) break;
    });
    QTest::keyClick(&window, Qt::Key_P, Qt::ControlModifier | Qt::ShiftModifier);
    EXPECT_TRUE(asked);
    QFile written(path);
    ASSERT_TRUE(written.open(QIODevice::ReadOnly));
    EXPECT_EQ(written.read(5), QByteArray("%PDF-"));
    EXPECT_EQ(QDir(folder.path()).entryList(QDir::Files).size(), 1) << "nothing beside it";
    EXPECT_TRUE(window.session().is_clean()) << "paper is no change of the document";
}

} // namespace
