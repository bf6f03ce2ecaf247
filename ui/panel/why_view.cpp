#include "ui/panel/why_view.h"

#include "core/listing/derivation_text.h"
#include "core/wording/wording.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/look/look.h"
#include "ui/panel/why_row.h"

#include <QLabel>
#include <QStringList>
#include <QTreeWidget>
#include <QVBoxLayout>

namespace fl::ui {
namespace {

QTreeWidgetItem* item_of(const derive::Derivation& d) {
    auto* made = new QTreeWidgetItem;
    const QString what = QString::fromStdString(d.what);
    const QString formula =
        QString::fromStdString(d.formula.empty() ? d.symbol : d.symbol + " = " + d.formula);
    const QString value = QString::fromStdString(listing::text_of(d.value));
    const QString source = QString::fromStdString(d.source);
    made->setText(0, what);
    made->setData(0, WhyRow::formula, formula);
    made->setData(0, WhyRow::value, value);
    made->setData(0, WhyRow::source, source);
    made->setData(0, Qt::AccessibleTextRole, QStringList{what, formula, value, source}.join(u", "));
    for (const derive::Derivation& input : d.inputs) made->addChild(item_of(input));
    return made;
}

} // namespace

WhyView::WhyView(Session& session, Focus& focus, QWidget* parent)
    : QWidget(parent)
    , session_(session)
    , heading_(new QLabel(this))
    , tree_(new QTreeWidget(this)) {
    setAccessibleName(tr("Why"));
    heading_->setWordWrap(true);
    heading_->setMargin(8);
    heading_->setFont(look::font(13, look::Cut::semibold));
    tree_->setAccessibleName(tr("Where the number comes from"));
    tree_->setHeaderHidden(true);
    tree_->setItemDelegate(new WhyRow(tree_));
    tree_->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    tree_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    tree_->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOn); // or rows are measured without it
    tree_->setIndentation(14);
    tree_->setFrameShape(QFrame::NoFrame);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(heading_);
    column->addWidget(tree_, 1);
    column->addStretch(0); // the heading stands above where there is no tree
    connect(&focus, &Focus::why_asked, this, [this](const assess::Question& question) {
        question_ = std::make_unique<assess::Question>(question);
        refresh();
    });
    connect(&session_, &Session::assessed, this, &WhyView::refresh);
    connect(&session_, &Session::replaced, this, [this] {
        question_.reset();
        refresh();
    });
    refresh();
}

WhyView::~WhyView() = default;

void WhyView::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    tree_->doItemsLayout();
}

void WhyView::refresh() {
    tree_->clear();
    tree_->hide();
    const assess::Assessment* a = session_.assessment();
    if (!question_ || !a) {
        heading_->setText(tr("Choose a computed number to see where it comes from"));
        return;
    }
    const auto why = assess::why(*a, *question_);
    if (!why) {
        heading_->setText(QString::fromStdString(wording::sentence(why.error())));
        return;
    }
    heading_->setText(QStringLiteral("%1: %2").arg(QString::fromStdString(why->what),
                                                   QString::fromStdString(listing::text_of(why->value))));
    tree_->addTopLevelItem(item_of(*why));
    tree_->expandAll();
    tree_->show();
    tree_->doItemsLayout(); // rows are as high as their words need in the room there is
}

} // namespace fl::ui
