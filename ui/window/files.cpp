#include "ui/window/files.h"

#include "core/wording/wording.h"
#include "ui/edit/session.h"

#include <QCoreApplication>
#include <QFileDialog>
#include <QFileInfo>
#include <QMessageBox>
#include <QSettings>

namespace fl::ui {
namespace {

constexpr int most_recent = 8;
constexpr int lines_shown = 12; // of a file's problems; the command line gives all

QString key() {
    return QStringLiteral("recent");
}

QString said(const Problems& problems) {
    QStringList lines;
    for (const Problem& problem : problems) {
        if (lines.size() == lines_shown) {
            lines << QCoreApplication::translate("Files", "and %n more", nullptr,
                                                 static_cast<int>(problems.size()) - lines_shown);
            break;
        }
        lines << QString::fromStdString(wording::sentence(problem));
    }
    return lines.join(QLatin1Char('\n'));
}

} // namespace

QStringList recent_files() {
    QStringList there;
    for (const QString& path : QSettings().value(key()).toStringList())
        if (QFileInfo::exists(path)) there << path;
    return there;
}

void note_recent(const QString& path) {
    QStringList all = QSettings().value(key()).toStringList();
    const QString full = QFileInfo(path).absoluteFilePath();
    all.removeAll(full);
    all.prepend(full);
    QSettings().setValue(key(), all.mid(0, most_recent));
}

bool open_file(Session& session, const QString& path, QWidget* window) {
    const auto opened = session.open(path);
    if (opened) {
        note_recent(path);
        return true;
    }
    QMessageBox box(QMessageBox::NoIcon, QCoreApplication::translate("Files", "Not opened"),
                    QCoreApplication::translate("Files", "%1 can't be opened. What was open stays open.")
                        .arg(QFileInfo(path).fileName()),
                    QMessageBox::Ok, window);
    box.setInformativeText(said(opened.error()));
    box.exec();
    return false;
}

bool save_file(Session& session, bool as_new, QWidget* window) {
    QString path = session.path();
    if (as_new || path.isEmpty())
        path = QFileDialog::getSaveFileName(window, QCoreApplication::translate("Files", "Save the job"),
                                            path, QCoreApplication::translate("Files", "Jobs (*.fuseloom)"));
    if (path.isEmpty()) return false;
    if (QFileInfo(path).suffix().isEmpty()) path += QStringLiteral(".fuseloom");
    if (const auto saved = session.save(path); !saved) {
        QMessageBox::warning(window, QCoreApplication::translate("Files", "Not saved"),
                             QString::fromStdString(wording::sentence(saved.error())));
        return false;
    }
    note_recent(path);
    return true;
}

bool may_leave(Session& session, QWidget* window) {
    if (session.is_clean()) return true;
    const auto answer = QMessageBox::question(
        window, QCoreApplication::translate("Files", "Save the job?"),
        QCoreApplication::translate("Files", "The job has changes that are not saved."),
        QMessageBox::Save | QMessageBox::Discard | QMessageBox::Cancel, QMessageBox::Save);
    if (answer == QMessageBox::Save) return save_file(session, false, window);
    return answer == QMessageBox::Discard;
}

} // namespace fl::ui
