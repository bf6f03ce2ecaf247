#include "ui/panel/choice.h"

#include "ui/drawing/mark.h"
#include "ui/look/look.h"

#include <QFontMetrics>
#include <QKeyEvent>
#include <QPainter>
#include <algorithm>

namespace fl::ui {

Choice::Choice(QWidget* parent)
    : QAbstractButton(parent) {
    setCheckable(true);
    setFocusPolicy(Qt::StrongFocus);
    setCursor(Qt::PointingHandCursor);
}

void Choice::say(const QString& name, const QString& caption, std::optional<rules::Grade> mark, bool old) {
    setText(name);
    setAccessibleName(caption.isEmpty() ? name : name + QStringLiteral(", ") + caption);
    setToolTip(accessibleName());
    caption_ = caption;
    mark_ = mark;
    old_ = old;
    updateGeometry();
    update();
}

namespace {

// The least width at which the name takes no more than two lines.
int width_in_two_lines(const QFontMetrics& metrics, const QString& name, int least) {
    const int most = metrics.horizontalAdvance(name);
    for (int wide = std::min(least, most); wide < most; wide += 4) {
        const QRect need = metrics.boundingRect(0, 0, wide, 1000, Qt::TextWordWrap, name);
        if (need.width() <= wide && need.height() <= 2 * metrics.lineSpacing()) return wide;
    }
    return most;
}

} // namespace

QSize Choice::sizeHint() const {
    const QFontMetrics name(look::font(13, look::Cut::semibold)), small(look::font(12));
    const int mark = mark_ ? 22 : 0;
    if (caption_.isEmpty()) return {name.horizontalAdvance(text()) + 24 + mark, 34};
    const int caption = small.horizontalAdvance(caption_);
    return {std::max(width_in_two_lines(name, text(), caption), caption) + 16 + mark, 64};
}

void Choice::paintEvent(QPaintEvent* /*event*/) {
    const look::Palette& colours = look::now();
    QPainter painter(this);
    const QColor ground = isChecked() ? colours.copper_tint : underMouse() ? colours.well : colours.panel;
    painter.fillRect(rect(), ground);
    if (isChecked()) painter.fillRect(0, height() - 2, width(), 2, colours.copper);
    painter.setPen(colours.hairline);
    painter.drawLine(width() - 1, 8, width() - 1, height() - 9);
    painter.setPen(old_ ? colours.ink2 : colours.ink);
    painter.setFont(look::font(13, isChecked() ? look::Cut::semibold : look::Cut::regular));
    const int side = caption_.isEmpty() ? 12 : 8;
    const QRect inside = rect().adjusted(side, 6, -side, -6);
    if (caption_.isEmpty()) {
        painter.drawText(inside, Qt::AlignCenter, text());
    } else {
        painter.drawText(inside.adjusted(0, 0, mark_ ? -22 : 0, 0),
                         Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, text());
        painter.setPen(old_ || !isChecked() ? colours.ink2 : colours.copper);
        painter.setFont(look::font(12));
        painter.drawText(inside, Qt::AlignLeft | Qt::AlignBottom, caption_);
    }
    if (mark_)
        drawing::paint_grade(painter, *mark_, QPointF(width() - 18, 15), 12, 0,
                             old_ ? colours.ink2 : colours.ink, ground);
    if (hasFocus()) {
        painter.setPen(QPen(colours.copper, 2));
        painter.drawRect(rect().adjusted(2, 2, -3, -3));
    }
}

void Choice::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Right || event->key() == Qt::Key_Down)
        Q_EMIT stepped(1);
    else if (event->key() == Qt::Key_Left || event->key() == Qt::Key_Up)
        Q_EMIT stepped(-1);
    else if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter)
        click();
    else
        QAbstractButton::keyPressEvent(event);
}

} // namespace fl::ui
