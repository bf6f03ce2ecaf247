#include "ui/window/main_window.h"

#include "core/wording/wording.h"
#include "ui/diagram/sheet_view.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/panel/circuit_list.h"
#include "ui/panel/condition_rail.h"
#include "ui/panel/curves.h"
#include "ui/panel/details.h"
#include "ui/panel/entry_line.h"
#include "ui/panel/findings.h"
#include "ui/panel/overlay_bar.h"
#include "ui/panel/parts_list.h"
#include "ui/panel/start_page.h"
#include "ui/panel/why_view.h"
#include "ui/window/files.h"
#include "ui/window/keeper.h"
#include "ui/window/paper.h"

#include <QCloseEvent>
#include <QFileInfo>
#include <QLabel>
#include <QLineEdit>
#include <QSplitter>
#include <QStackedWidget>
#include <QStatusBar>
#include <QVBoxLayout>

namespace fl::ui {
namespace {

QVBoxLayout* column_in(QWidget* widget, int margin) {
    auto* column = new QVBoxLayout(widget);
    column->setContentsMargins(margin, margin, margin, margin);
    column->setSpacing(8);
    return column;
}

} // namespace

MainWindow::MainWindow(QWidget* parent)
    : QMainWindow(parent)
    , session_(new Session(this))
    , focus_(new Focus(this))
    , keeper_(new Keeper(*session_, this))
    , middle_(new QStackedWidget(this))
    , start_(new StartPage(middle_)) {
    make_columns();
    make_menus();
    next_click_ = new QLabel(this);
    statusBar()->addWidget(next_click_, 1);
    statusBar()->setSizeGripEnabled(false);
    next_click_->setContentsMargins(12, 0, 0, 0);

    connect(session_, &Session::file_changed, this, &MainWindow::name_window);
    connect(session_, &Session::changed, this, &MainWindow::name_window);
    connect(session_, &Session::refused, this, [this](const Problem& problem) {
        next_click_->setText(QString::fromStdString(wording::sentence(problem)));
    });
    connect(session_, &Session::replaced, this, [this] {
        focus_->select({});
        focus_->show_finding({});
        focus_->show_condition({});
    });
    connect(start_, &StartPage::begun, this, &MainWindow::begin);
    connect(parts_, &PartsList::offered, sheet_, [this](const plan::Component& part) {
        sheet_->offer(part);
        sheet_->setFocus();
    });
    connect(sheet_, &SheetView::status, next_click_, &QLabel::setText);
    offer_unsaved();
    resize(1600, 1000);
    name_window();
    start_->setFocus();
}

void MainWindow::make_columns() {
    job_ = new QWidget(middle_);
    auto* rows = column_in(job_, 0);
    rows->setSpacing(0);

    rows->addWidget(new ConditionRail(*session_, *focus_, job_));

    auto* across = new QSplitter(Qt::Horizontal, job_);
    auto* typed = new QWidget(across);
    lists_ = typed;
    auto* left = column_in(typed, 12);
    left->addWidget(entry_ = new EntryLine(*session_, *focus_, typed));
    auto* lists = new QSplitter(Qt::Vertical, typed);
    lists->addWidget(new CircuitList(*session_, *focus_, lists));
    lists->addWidget(parts_ = new PartsList(lists));
    lists->setStretchFactor(0, 3);
    lists->setStretchFactor(1, 1);
    left->addWidget(lists, 1);

    auto* centre = new QWidget(across);
    auto* paper = column_in(centre, 0);
    paper->setSpacing(0);
    paper->addWidget(new OverlayBar(*session_, *focus_, centre));
    auto* below = new QSplitter(Qt::Vertical, centre);
    below->setChildrenCollapsible(false);
    below->addWidget(sheet_ = new SheetView(*session_, *focus_, below));
    below->addWidget(curves_ = new Curves(*session_, *focus_, below));
    below->setSizes({420, 460});
    curves_->hide();
    connect(curves_, &Curves::left, this, [this] { show_curves(false); });
    connect(curves_, &Curves::paper_wanted, this,
            [this] { export_curves(*session_, curves_->chart(), this); });
    paper->addWidget(below, 1);

    auto* results = new QSplitter(Qt::Vertical, across);
    results_ = results;
    results->addWidget(new FindingsList(*session_, *focus_, results));
    auto* details = new Details(*session_, *focus_, results);
    results->addWidget(details);
    connect(sheet_, &SheetView::details_wanted, details, [details] {
        if (auto* first = details->findChild<QLineEdit*>()) first->setFocus(Qt::TabFocusReason);
    });
    results->addWidget(new WhyView(*session_, *focus_, results));
    results->setSizes({300, 340, 280});
    results->setChildrenCollapsible(false);

    for (QWidget* one : {typed, centre, static_cast<QWidget*>(results)}) across->addWidget(one);
    across->setStretchFactor(1, 1);
    across->setSizes({490, 720, 390});
    rows->addWidget(across, 1);

    middle_->addWidget(start_);
    middle_->addWidget(job_);
    setCentralWidget(middle_);
}

bool MainWindow::open(const QString& path) {
    if (!open_file(*session_, path, this)) return false;
    show_job();
    return true;
}

void MainWindow::begin(const plan::Installation& installation) {
    session_->begin(installation);
    show_job();
}

void MainWindow::show_job() {
    middle_->setCurrentWidget(job_);
    entry_->setFocus();
}

void MainWindow::show_sheet_alone(bool alone) {
    lists_->setVisible(!alone);
    results_->setVisible(!alone);
    if (alone) sheet_->setFocus();
}

void MainWindow::offer_unsaved() {
    start_->offer_unsaved(keeper_->left_behind());
    connect(start_, &StartPage::taken_up, this, [this](const QString& file) {
        QString why;
        if (!keeper_->take_up(file, why)) return start_->say(why);
        start_->offer_unsaved(keeper_->left_behind());
        show_job();
    });
    connect(start_, &StartPage::thrown_away, this, [this](const QString& file) {
        keeper_->throw_away(file);
        start_->offer_unsaved(keeper_->left_behind());
        start_->setFocus();
    });
}

void MainWindow::start_anew() {
    if (!may_leave(*session_, this)) return;
    middle_->setCurrentWidget(start_);
    start_->setFocus();
}

void MainWindow::closeEvent(QCloseEvent* event) {
    if (may_leave(*session_, this))
        event->accept();
    else
        event->ignore();
}

void MainWindow::name_window() {
    const QString title = QString::fromStdString(session_->installation().job.title);
    const QString file =
        session_->path().isEmpty() ? tr("not saved yet") : QFileInfo(session_->path()).fileName();
    setWindowTitle(tr("%1 · %2[*]").arg(title.isEmpty() ? tr("New job") : title, file));
    setWindowModified(!session_->is_clean());
}

} // namespace fl::ui
