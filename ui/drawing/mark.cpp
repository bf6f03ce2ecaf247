#include "ui/drawing/mark.h"

#include "ui/drawing/lettering.h"
#include "ui/look/look.h"

#include <QPainter>
#include <QPainterPath>
#include <QPolygonF>
#include <cmath>
#include <numbers>

namespace fl::ui::drawing {
namespace {

QPainterPath corners(QPointF centre, double radius, int count, double first) {
    QPainterPath path;
    for (int i = 0; i < count; ++i) {
        const double angle = first + 2 * std::numbers::pi * i / count;
        const QPointF at = centre + radius * QPointF(std::cos(angle), std::sin(angle));
        if (i == 0)
            path.moveTo(at);
        else
            path.lineTo(at);
    }
    path.closeSubpath();
    return path;
}

} // namespace

void paint_grade(QPainter& painter, rules::Grade grade, QPointF centre, double width, int number, QColor ink,
                 QColor ground) {
    const double half = width / 2;
    QPainterPath path;
    if (grade == rules::Grade::burn)
        path = corners(centre, half * 1.05, 8, std::numbers::pi / 8);
    else if (grade == rules::Grade::practice)
        path.addEllipse(centre, half * 0.9, half * 0.9);
    else
        path = corners(centre, half * 1.15, 4, 0);
    const bool solid = grade == rules::Grade::burn || grade == rules::Grade::fail;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(ink, 1.4));
    painter.setBrush(solid ? ink : ground);
    painter.drawPath(path);
    if (number > 0) {
        painter.setFont(look::font(12, look::Cut::semibold));
        painter.setPen(solid ? ground : ink);
        painter.drawText(QRectF(centre.x() - width, centre.y() - width, 2 * width, 2 * width),
                         Qt::AlignCenter, QString::number(number));
    }
    painter.restore();
}

void paint_grade_mm(QPainter& painter, rules::Grade grade, QPointF centre, double width_mm, int number) {
    constexpr double width_px = 18; // of the mark that its line and number are made for
    painter.save();
    painter.translate(centre);
    painter.scale(width_mm / width_px, width_mm / width_px);
    paint_grade(painter, grade, {}, width_px, 0, look::light().ink, QColor(look::paper));
    painter.restore();
    if (number <= 0) return;
    const bool solid = grade == rules::Grade::burn || grade == rules::Grade::fail;
    constexpr double capital = 0.36; // of the mark
    letter(painter, centre + QPointF(0, width_mm * capital / 2), QString::number(number), width_mm * capital,
           solid ? QColor(look::paper) : look::light().ink, look::Cut::semibold, From::middle,
           width_mm * 0.7);
}

void paint_finding_mm(QPainter& painter, const rules::Finding& finding, QPointF centre, double width_mm,
                      int number) {
    if (!finding.accepted) return paint_grade_mm(painter, finding.grade, centre, width_mm, number);
    const double side = width_mm * 0.9;
    const QRectF box(centre.x() - side / 2, centre.y() - side / 2, side, side);
    painter.setPen(QPen(look::light().ink, width_mm * 0.07, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin));
    painter.setBrush(QColor(look::paper));
    painter.drawRect(box);
    painter.setBrush(Qt::NoBrush);
    const double u = side / 10; // the tick stands over the upper right corner, the number keeps its room
    painter.drawPolyline(
        QPolygonF({box.topRight() + QPointF(-2.6 * u, -0.4 * u), box.topRight() + QPointF(-0.6 * u, 1.8 * u),
                   box.topRight() + QPointF(2.4 * u, -2.6 * u)}));
    letter(painter, centre + QPointF(0, width_mm * 0.18), QString::number(number), width_mm * 0.36,
           look::light().ink, look::Cut::semibold, From::middle, width_mm * 0.7);
}

} // namespace fl::ui::drawing
