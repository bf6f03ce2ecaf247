#include "ui/panel/why_row.h"

#include "ui/look/look.h"

#include <QPainter>
#include <QRegularExpression>
#include <QTextDocument>
#include <QTreeWidget>
#include <algorithm>

namespace fl::ui {
namespace {

// "I_table" with its index set low.
QString with_indices(const QString& formula) {
    static const QRegularExpression index(QStringLiteral("_([A-Za-z0-9]+)"));
    return formula.toHtmlEscaped().replace(index, QStringLiteral("<sub>\\1</sub>"));
}

QString html(const QModelIndex& at) {
    const look::Palette& c = look::now();
    QString all =
        QStringLiteral("<table width='100%' cellspacing='0' cellpadding='0'><tr><td>%1</td>"
                       "<td align='right' style='color:%2; white-space:nowrap'>&nbsp;%3</td></tr></table>")
            .arg(at.data(Qt::DisplayRole).toString().toHtmlEscaped(), c.copper.name(),
                 at.data(WhyRow::value).toString().toHtmlEscaped());
    const QString formula = at.data(WhyRow::formula).toString();
    const QString source = at.data(WhyRow::source).toString();
    if (!formula.isEmpty())
        all += QStringLiteral("<div style='font-style:italic'>%1</div>").arg(with_indices(formula));
    if (!source.isEmpty())
        all += QStringLiteral("<div style='color:%1; font-size:12px'>%2</div>")
                   .arg(c.ink2.name(), source.toHtmlEscaped());
    return all;
}

void lay_out(QTextDocument& text, const QModelIndex& at, int wide) {
    text.setDefaultFont(look::font(13));
    text.setDocumentMargin(3);
    text.setHtml(html(at));
    text.setTextWidth(wide);
}

} // namespace

WhyRow::WhyRow(QTreeWidget* tree)
    : QStyledItemDelegate(tree)
    , tree_(tree) {}

int WhyRow::room(const QModelIndex& at) const {
    int depth = tree_->rootIsDecorated() ? 1 : 0;
    for (QModelIndex up = at.parent(); up.isValid(); up = up.parent()) ++depth;
    return std::max(120, tree_->viewport()->width() - depth * tree_->indentation());
}

QSize WhyRow::sizeHint(const QStyleOptionViewItem& /*option*/, const QModelIndex& at) const {
    QTextDocument text;
    lay_out(text, at, room(at));
    return {room(at), static_cast<int>(text.size().height()) + 1};
}

void WhyRow::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& at) const {
    const look::Palette& colours = look::now();
    if (option.state.testFlag(QStyle::State_Selected)) painter->fillRect(option.rect, colours.copper_tint);
    QTextDocument text;
    lay_out(text, at, option.rect.width());
    painter->save();
    painter->translate(option.rect.topLeft());
    text.drawContents(painter);
    painter->restore();
}

} // namespace fl::ui
