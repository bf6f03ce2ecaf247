#include "ui/panel/curve_canvas.h"

#include "ui/drawing/chart.h"
#include "ui/look/look.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>

namespace fl::ui {
namespace {

constexpr double caption_px = 12; // docs/look.md 3: no text in the window is smaller
constexpr double capital_mm = 1.9;
constexpr double capital_of_em = 0.7165;
constexpr double px_per_mm = caption_px * capital_of_em / capital_mm;
constexpr double margin_mm = 2;

constexpr double steps_in_decade = 50, more_steps = 5;

} // namespace

CurveCanvas::CurveCanvas(QWidget* parent)
    : QWidget(parent) {
    setFocusPolicy(Qt::StrongFocus);
    setMouseTracking(true);
    setCursor(Qt::CrossCursor);
    setAccessibleName(tr("Operating times over current"));
}

CurveCanvas::~CurveCanvas() = default;

void CurveCanvas::show_chart(listing::Chart chart, bool keep_reading) {
    chart_ = std::move(chart);
    const bool can_keep = keep_reading && reading_ >= chart_.from && reading_ <= chart_.to;
    if (!can_keep) {
        reading_ = Current::si(std::sqrt(chart_.from.si() * chart_.to.si()));
        for (const listing::ChartMark& mark : chart_.marks)
            if (mark.kind == listing::ChartMark::Kind::least_fault) reading_ = mark.current;
    }
    setAccessibleName(tr("Operating times over current, %1").arg(QString::fromStdString(chart_.title)));
    lay_out();
    Q_EMIT reading_changed();
}

void CurveCanvas::show_none(const QString& hint) {
    chart_ = {};
    hint_ = hint;
    setAccessibleName(tr("Operating times over current"));
    setAccessibleDescription(hint);
    lay_out();
    Q_EMIT reading_changed();
}

void CurveCanvas::lay_out() {
    drawn_.reset();
    if (!chart_.empty()) {
        const QRectF box(margin_mm, margin_mm, width() / px_per_mm - 2 * margin_mm,
                         height() / px_per_mm - 2 * margin_mm);
        drawn_ = std::make_unique<drawing::ChartDrawing>(chart_, box, capital_mm);
    }
    update();
}

void CurveCanvas::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    lay_out();
}

void CurveCanvas::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
    painter.fillRect(rect(), QColor(look::paper));
    if (drawn_) {
        painter.save();
        painter.scale(px_per_mm, px_per_mm);
        drawn_->paint(painter, reading_);
        painter.restore();
    } else {
        painter.setPen(look::light().ink2);
        painter.setFont(look::font(13));
        painter.drawText(rect().adjusted(24, 24, -24, -24), Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap,
                         hint_);
    }
    if (!hasFocus()) return;
    painter.setPen(QPen(look::light().copper, 2));
    painter.drawRect(rect().adjusted(1, 1, -1, -1));
}

void CurveCanvas::read_at(Current current) {
    current = std::clamp(current, chart_.from, chart_.to);
    if (current == reading_) return;
    reading_ = current;
    update();
    Q_EMIT reading_changed();
}

void CurveCanvas::read_at(const QPointF& pixel) {
    if (drawn_) read_at(drawn_->current_at(pixel.x() / px_per_mm));
}

void CurveCanvas::mouseMoveEvent(QMouseEvent* event) {
    read_at(event->position());
}

void CurveCanvas::mousePressEvent(QMouseEvent* event) {
    read_at(event->position());
}

void CurveCanvas::go_to_mark(int by) {
    std::vector<Current> marks;
    for (const listing::ChartMark& mark : chart_.marks) marks.push_back(mark.current); // smallest first
    if (by < 0) std::reverse(marks.begin(), marks.end());
    for (const Current mark : marks)
        if (by > 0 ? mark > reading_ : mark < reading_) return read_at(mark);
}

void CurveCanvas::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        Q_EMIT left();
        return;
    }
    if (!drawn_) return QWidget::keyPressEvent(event);
    const bool more = event->modifiers().testFlag(Qt::ShiftModifier);
    const double step = std::pow(10, (more ? more_steps : 1) / steps_in_decade);
    switch (event->key()) {
    case Qt::Key_Left:
        return read_at(reading_ / step);
    case Qt::Key_Right:
        return read_at(reading_ * step);
    case Qt::Key_Home:
        return read_at(chart_.from);
    case Qt::Key_End:
        return read_at(chart_.to);
    case Qt::Key_PageDown:
        return go_to_mark(1);
    case Qt::Key_PageUp:
        return go_to_mark(-1);
    default:
        QWidget::keyPressEvent(event);
    }
}

} // namespace fl::ui
