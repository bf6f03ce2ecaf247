#include "ui/drawing/chart.h"
#include "ui/drawing/lettering.h"

#include <QPainter>
#include <QPolygonF>
#include <algorithm>

namespace fl::ui::drawing {
namespace {

QPolygonF polygon(const std::vector<QPointF>& points) {
    QPolygonF out;
    for (const QPointF& p : points) out << p;
    return out;
}

void draw(QPainter& painter, const ChartDrawing::Line& line, const QColor& ink) {
    QPen pen(ink, line.width_mm);
    pen.setCapStyle(Qt::FlatCap);
    pen.setJoinStyle(Qt::RoundJoin);
    if (!line.dashes.empty()) pen.setDashPattern({line.dashes.begin(), line.dashes.end()});
    painter.setPen(pen);
    painter.drawPolyline(polygon(line.points));
}

} // namespace

void ChartDrawing::paint(QPainter& painter, std::optional<Current> reading) const {
    const look::Palette& ink = look::light();
    painter.save();
    painter.setBrush(Qt::NoBrush);
    for (const bool decade : {false, true})
        for (const Tick& tick : ticks_) {
            if (tick.decade != decade) continue;
            painter.setPen(QPen(decade ? ink.hairline : ink.well, 0.1 * capital_));
            if (tick.upright)
                painter.drawLine(QPointF(plot_.left(), tick.at), QPointF(plot_.right(), tick.at));
            else
                painter.drawLine(QPointF(tick.at, plot_.top()), QPointF(tick.at, plot_.bottom()));
        }
    painter.setPen(Qt::NoPen);
    QColor shade = ink.ink;
    shade.setAlphaF(0.09F); // where two bands lie over each other it is darker
    painter.setBrush(shade);
    for (const auto& band : bands_) painter.drawPolygon(polygon(band));
    painter.setBrush(Qt::NoBrush);
    for (const Line& line : marks_) draw(painter, line, ink.ink);
    for (const Line& line : lines_) draw(painter, line, ink.ink);
    painter.setPen(QPen(ink.ink, 0.18 * capital_));
    painter.drawRect(plot_);
    for (const Dot& dot : dots_) {
        painter.setPen(QPen(ink.ink, 0.16 * capital_));
        painter.setBrush(dot.filled ? ink.ink : QColor(look::paper));
        painter.drawEllipse(dot.at, 0.42 * capital_, 0.42 * capital_);
    }
    if (reading) paint_reading(painter, *reading);
    for (const Label& label : labels_) {
        if (label.from != label.to) {
            painter.setPen(QPen(ink.ink2, 0.1 * capital_));
            painter.drawLine(label.from, label.to);
        }
        if (label.strong) { // the grid ends where a text stands
            painter.setPen(Qt::NoPen);
            painter.setBrush(QColor(look::paper));
            painter.drawRect(label.box);
        }
        letter(painter, label.base, label.text, capital_, ink.ink,
               label.strong ? look::Cut::semibold : look::Cut::regular);
    }
    for (const Tick& tick : ticks_)
        if (tick.upright)
            letter(painter, {plot_.left() - 0.7 * capital_, tick.at + capital_ / 2}, tick.text, capital_,
                   ink.ink2, look::Cut::regular, From::right);
        else
            letter(painter, {tick.at, plot_.bottom() + 1.9 * capital_}, tick.text, capital_, ink.ink2,
                   look::Cut::regular, From::middle);
    letter(painter, {plot_.left() - 0.7 * capital_, plot_.top() - 1.3 * capital_}, QStringLiteral("time"),
           capital_, ink.ink, look::Cut::regular, From::right);
    letter(painter, {plot_.center().x(), plot_.bottom() + 4.2 * capital_},
           QStringLiteral("current through the device or conductor"), capital_, ink.ink, look::Cut::regular,
           From::middle);
    painter.restore();
}

void ChartDrawing::paint_reading(QPainter& painter, Current current) const {
    const double x = x_of(std::clamp(current, chart_.from, chart_.to));
    painter.save();
    painter.setPen(QPen(look::light().copper, 0.2 * capital_));
    painter.drawLine(QPointF(x, plot_.top()), QPointF(x, plot_.bottom()));
    painter.setBrush(QColor(look::paper));
    const auto ring = [&](const std::optional<Time>& time) {
        if (time && *time >= chart_.shortest && *time <= chart_.longest)
            painter.drawEllipse(QPointF(x, y_of(*time)), 0.45 * capital_, 0.45 * capital_);
    };
    for (const listing::ChartDevice& device : chart_.devices) {
        const protect::Opening o = opening(device, current);
        if (o.greatest || (!device.least.empty() && current >= device.least.front().current)) ring(o.least);
        ring(o.greatest);
    }
    for (const listing::ChartConductor& one : chart_.conductors)
        if (!one.lasting || current > *one.lasting) ring(endures(one, current));
    painter.restore();
}

} // namespace fl::ui::drawing
