#include "ui/panel/why_view.h"

#include "core/listing/derivation_text.h"
#include "core/wording/wording.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/look/look.h"

#include <QLabel>
#include <QTreeWidget>
#include <QVBoxLayout>

namespace fl::ui {
namespace {

QTreeWidgetItem* item_of(const derive::Derivation& d) {
    auto* made = new QTreeWidgetItem;
    const std::string formula = d.formula.empty() ? d.symbol : d.symbol + " = " + d.formula;
    made->setText(0, QString::fromStdString(d.what + "\n" + formula));
    made->setText(1, QString::fromStdString(listing::text_of(d.value)));
    made->setForeground(1, look::now().copper);
    made->setTextAlignment(1, Qt::AlignRight | Qt::AlignTop);
    made->setText(2, QString::fromStdString(d.source));
    made->setForeground(2, look::now().ink2);
    made->setTextAlignment(2, Qt::AlignLeft | Qt::AlignTop);
    for (int column = 0; column < 3; ++column) made->setToolTip(column, made->text(column));
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
    tree_->setColumnCount(3);
    tree_->setHeaderLabels({tr("What"), tr("Value"), tr("Source")});
    tree_->setIndentation(14);
    tree_->setFrameShape(QFrame::NoFrame);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(heading_);
    column->addWidget(tree_, 1);
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
    for (int column = 0; column < 3; ++column) tree_->resizeColumnToContents(column);
    tree_->show();
}

} // namespace fl::ui
