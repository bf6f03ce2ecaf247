#include "ui/window/main_window.h"

#include "ui/edit/focus.h"
#include "ui/edit/session.h"

#include <QFileInfo>

namespace fl::ui {

MainWindow::MainWindow(QWidget* parent)
    : QMainWindow(parent)
    , session_(new Session(this))
    , focus_(new Focus(this)) {
    connect(session_, &Session::file_changed, this, &MainWindow::name_window);
    connect(session_, &Session::changed, this, &MainWindow::name_window);
    resize(1600, 1000);
    name_window();
}

bool MainWindow::open(const QString& path) {
    const auto opened = session_->open(path);
    return opened.has_value();
}

void MainWindow::name_window() {
    const QString title = QString::fromStdString(session_->installation().job.title);
    const QString file =
        session_->path().isEmpty() ? tr("not saved yet") : QFileInfo(session_->path()).fileName();
    setWindowTitle(tr("%1 · %2[*]").arg(title.isEmpty() ? tr("New job") : title, file));
    setWindowModified(!session_->is_clean());
}

} // namespace fl::ui
