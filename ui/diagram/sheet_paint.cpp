#include "ui/diagram/sheet_view.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/look/look.h"

#include <QPainter>
#include <QPainterPath>
#include <cmath>

namespace fl::ui {
namespace {

constexpr double rail_mm = 1.4, rail_width_mm = 0.4, quiet_mm = 0.25;

QPointF at(const plan::Point& p) {
    return {p.x_mm, p.y_mm};
}

QPainterPath line_of(const arrange::Stretch& stretch, QPointF origin) {
    QPainterPath line;
    for (std::size_t i = 0; i < stretch.points.size(); ++i) {
        const QPointF p = at(stretch.points[i]) + origin;
        if (i == 0)
            line.moveTo(p);
        else
            line.lineTo(p);
    }
    return line;
}

// To the left of the way of travel between two points that share a coordinate.
QPointF aside(const plan::Point& a, const plan::Point& b) {
    const QPointF d = at(b) - at(a);
    const double length = std::hypot(d.x(), d.y());
    return length > 0 ? QPointF(d.y(), -d.x()) / length : QPointF();
}

// One rail beside a conductor: at a corner both sides' distances add up.
QPolygonF rail_of(const arrange::Stretch& stretch, QPointF origin) {
    QPolygonF rail;
    const auto& p = stretch.points;
    for (std::size_t i = 0; i < p.size(); ++i) {
        const QPointF before = i > 0 ? aside(p[i - 1], p[i]) : QPointF();
        const QPointF after = i + 1 < p.size() ? aside(p[i], p[i + 1]) : QPointF();
        const bool straight = before == after || before.isNull() || after.isNull();
        rail << at(p[i]) + origin +
                    rail_mm * (straight ? (before.isNull() ? after : before) : before + after);
    }
    return rail;
}

} // namespace

// What is chosen has two rails, so that a conductor's own colour stays to be seen, and handles; what is
// pointed at has one.
void SheetView::paint_rails(QPainter& painter, const plan::Subject& subject, bool chosen) const {
    painter.save();
    painter.setPen(QPen(look::light().copper, chosen ? rail_width_mm : quiet_mm));
    painter.setBrush(Qt::NoBrush);
    if (subject.kind == plan::Subject::Kind::component) {
        const QRectF box = box_of(subject);
        if (!box.isNull()) painter.drawRect(box);
        painter.setBrush(look::light().copper);
        if (chosen && !box.isNull())
            for (const QPointF corner : {box.topLeft(), box.topRight(), box.bottomLeft(), box.bottomRight()})
                painter.drawRect(QRectF(corner.x() - 0.8, corner.y() - 0.8, 1.6, 1.6));
    } else if (const arrange::Wire* wire = session_.layout().wire(plan::ConductorId{subject.id});
               wire && subject.kind == plan::Subject::Kind::conductor) {
        for (const arrange::Stretch& stretch : wire->stretches) {
            if (!chosen) {
                painter.drawPolyline(rail_of(stretch, origin_of(stretch.page)));
                continue;
            }
            QPainterPathStroker outline;
            outline.setWidth(2 * rail_mm);
            outline.setCapStyle(Qt::FlatCap);
            outline.setJoinStyle(Qt::MiterJoin);
            painter.drawPath(outline.createStroke(line_of(stretch, origin_of(stretch.page))).simplified());
        }
    }
    painter.restore();
}

void SheetView::paint_ring(QPainter& painter, const whereabouts::Terminal& terminal) const {
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(look::light().copper, rail_width_mm));
    painter.drawEllipse(at(terminal.where.at) + origin_of(terminal.where.page), rail_mm, rail_mm);
}

void SheetView::paint_hover(QPainter& painter) const {
    if (under_.terminal)
        paint_ring(painter, *under_.terminal);
    else if (under_.subject && !focus_.selected(*under_.subject))
        paint_rails(painter, *under_.subject, false);
}

void SheetView::paint_doing(QPainter& painter) const {
    using What = Doing::What;
    if (doing_.what == What::nothing || doing_.what == What::pressed) return;
    painter.save();
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(look::light().copper, rail_width_mm));
    const QPointF origin = origin_of(doing_.now.page);
    const auto grid = [](double mm) { return std::round(mm / catalogue::grid_mm) * catalogue::grid_mm; };
    const auto outline = [&](const catalogue::SymbolBox& box) {
        painter.drawRect(QRectF(QPointF(box.left_mm, box.top_mm), QPointF(box.right_mm, box.bottom_mm)));
    };
    painter.translate(origin);
    if (doing_.what == What::placing) {
        // As it will stand: nothing is there before the click but this.
        arrange::Symbol symbol;
        symbol.at = {grid(doing_.now.at.x_mm), grid(doing_.now.at.y_mm)};
        symbol.quarter_turns = doing_.quarter_turns;
        symbol.mirrored = doing_.mirrored;
        symbol.drawing = catalogue::symbol_for(doing_.part);
        drawing::paint_symbol(painter, *scene_, symbol);
        painter.translate(at(symbol.at));
        outline(catalogue::turned(symbol.drawing.box, doing_.quarter_turns, doing_.mirrored));
    }
    if (doing_.what == What::moving) {
        painter.translate(grid(doing_.now.at.x_mm - doing_.begun.at.x_mm),
                          grid(doing_.now.at.y_mm - doing_.begun.at.y_mm));
        for (const arrange::Symbol* one : chosen_symbols())
            outline({one->box.left_mm, one->box.top_mm, one->box.right_mm, one->box.bottom_mm});
    }
    const QPointF a = at(doing_.begun.at);
    if (doing_.what == What::wiring && doing_.went) {
        const QPointF b = under_.terminal ? at(under_.terminal->where.at) : at(doing_.now.at);
        painter.drawPolyline(QPolygonF({a, QPointF(b.x(), a.y()), b}));
    }
    if (doing_.what == What::banding && doing_.went) {
        painter.setPen(QPen(look::light().copper, quiet_mm, Qt::DashLine));
        painter.drawRect(QRectF(a, at(doing_.now.at)).normalized());
    }
    painter.restore();
}

} // namespace fl::ui
