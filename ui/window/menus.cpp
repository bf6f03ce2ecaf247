#include "ui/diagram/sheet_view.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/panel/curves.h"
#include "ui/panel/entry_line.h"
#include "ui/panel/parts_list.h"
#include "ui/window/files.h"
#include "ui/window/main_window.h"
#include "ui/window/paper.h"

#include <QAction>
#include <QFileDialog>
#include <QFileInfo>
#include <QMenu>
#include <QMenuBar>
#include <QUndoStack>
#include <algorithm>

namespace fl::ui {
namespace {

template <class F>
QAction* add(QMenu* menu, const QString& text, const QKeySequence& keys, QObject* context, F&& act) {
    QAction* action = menu->addAction(text);
    action->setShortcut(keys);
    QObject::connect(action, &QAction::triggered, context, std::forward<F>(act));
    return action;
}

} // namespace

void MainWindow::make_menus() {
    make_file_menu();
    make_edit_menu();
    make_sheet_menu();
    make_view_menu();
}

void MainWindow::make_file_menu() {
    QMenu* file = menuBar()->addMenu(tr("&File"));
    add(file, tr("&New job"), QKeySequence::New, this, [this] { start_anew(); });
    add(file, tr("&Open …"), QKeySequence::Open, this, [this] {
        if (!may_leave(*session_, this)) return;
        const QString path =
            QFileDialog::getOpenFileName(this, tr("Open a job"), {}, tr("Jobs (*.fuseloom)"));
        if (!path.isEmpty()) open(path);
    });
    recent_ = file->addMenu(tr("Opened &lately"));
    connect(recent_, &QMenu::aboutToShow, this, [this] {
        recent_->clear();
        for (const QString& path : recent_files()) {
            QAction* one = recent_->addAction(QFileInfo(path).fileName());
            one->setToolTip(path);
            connect(one, &QAction::triggered, this, [this, path] {
                if (may_leave(*session_, this)) open(path);
            });
        }
        if (recent_->isEmpty()) recent_->addAction(tr("none yet"))->setEnabled(false);
    });
    file->addSeparator();
    add(file, tr("&Save"), QKeySequence::Save, this, [this] { save_file(*session_, false, this); });
    add(file, tr("Save &as …"), QKeySequence::SaveAs, this, [this] { save_file(*session_, true, this); });
    add(file, tr("Drawing and lists on &paper …"), Qt::CTRL | Qt::SHIFT | Qt::Key_P, this,
        [this] { export_paper(*session_, this); });
    file->addSeparator();
    add(file, tr("&Quit"), QKeySequence::Quit, this, [this] { close(); });
}

void MainWindow::make_edit_menu() {
    QMenu* edit = menuBar()->addMenu(tr("&Edit"));
    QAction* undo = session_->steps()->createUndoAction(this, tr("Undo"));
    undo->setShortcut(QKeySequence::Undo);
    QAction* redo = session_->steps()->createRedoAction(this, tr("Redo"));
    redo->setShortcuts({QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_Z), QKeySequence(Qt::CTRL | Qt::Key_Y)});
    edit->addActions({undo, redo});
    edit->addSeparator();
    add(edit, tr("Type a &circuit"), Qt::CTRL | Qt::Key_L, this, [this] { entry_->setFocus(); });
    add(edit, tr("Place a &part"), Qt::CTRL | Qt::Key_P, this, [this] { parts_->setFocus(); });
    add(edit, tr("Go to the &sheet"), Qt::CTRL | Qt::Key_E, this, [this] { sheet_->setFocus(); });
}

void MainWindow::make_sheet_menu() {
    QMenu* sheet = menuBar()->addMenu(tr("&Sheet"));
    QAction* alone = sheet->addAction(tr("Sheet a&lone, as large as it goes"));
    alone->setShortcut(Qt::Key_F11);
    alone->setCheckable(true);
    connect(alone, &QAction::toggled, this, &MainWindow::show_sheet_alone);
    sheet->addSeparator();
    add(sheet, tr("Show &all"), Qt::CTRL | Qt::Key_0, this, [this] { sheet_->zoom_to_all(); });
    add(sheet, tr("Show what is &chosen"), Qt::CTRL | Qt::Key_9, this,
        [this] { sheet_->zoom_to_selection(); });
}

void MainWindow::make_view_menu() {
    QMenu* view = menuBar()->addMenu(tr("&Results"));
    add(view, tr("&Next finding"), Qt::Key_F8, this, [this] { step_finding(1); });
    add(view, tr("&Previous finding"), Qt::SHIFT | Qt::Key_F8, this, [this] { step_finding(-1); });
    add(view, tr("Next &condition"), Qt::Key_F9, this, [this] { step_condition(); });
    add(view, tr("Next &overlay"), Qt::Key_F10, this, [this] { step_overlay(); });
    view->addSeparator();
    curves_shown_ = view->addAction(tr("&Fuse curves of what is chosen"));
    curves_shown_->setShortcut(Qt::Key_F12);
    curves_shown_->setCheckable(true);
    connect(curves_shown_, &QAction::toggled, this, &MainWindow::show_curves);
}

void MainWindow::show_curves(bool shown) {
    curves_shown_->setChecked(shown);
    curves_->setVisible(shown);
    if (shown)
        curves_->take_focus();
    else
        sheet_->setFocus();
}

void MainWindow::step_finding(int by) {
    const assess::Assessment* results = session_->assessment();
    if (!results || results->findings.empty()) return;
    const auto& all = results->findings;
    const auto chosen = std::find_if(
        all.begin(), all.end(), [&](const rules::Finding& one) { return focus_->finding() == key_of(one); });
    const auto count = static_cast<std::ptrdiff_t>(all.size());
    const std::ptrdiff_t at = chosen == all.end() ? (by > 0 ? -1 : count) : chosen - all.begin();
    const FindingKey next = key_of(all[static_cast<std::size_t>((at + by + count) % count)]);
    if (next.place.id == 0) return;
    focus_->show_finding(next);
    focus_->select({next.place});
}

void MainWindow::step_condition() {
    const assess::Assessment* results = session_->assessment();
    if (!results || results->conditions.empty()) return;
    const auto& all = results->conditions;
    if (focus_->condition().empty()) return focus_->show_condition(all.front().condition.name);
    const auto at = std::find_if(all.begin(), all.end(), [&](const condition::Solved& one) {
        return one.condition.name == focus_->condition();
    });
    const bool last = at == all.end() || at + 1 == all.end();
    focus_->show_condition(last ? std::string() : (at + 1)->condition.name);
}

void MainWindow::step_overlay() {
    const int last = static_cast<int>(listing::Overlay::protected_by);
    const int now = static_cast<int>(focus_->overlay());
    focus_->show_overlay(static_cast<listing::Overlay>(now == last ? 0 : now + 1));
}

} // namespace fl::ui
