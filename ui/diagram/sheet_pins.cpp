#include "ui/diagram/sheet_view.h"
#include "ui/drawing/mark.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/look/look.h"

#include <QPainter>
#include <cmath>

namespace fl::ui {

// A finding stands at its place: the mark tells its grade, the number its place in the list. Pins keep their
// size on the screen.
void SheetView::paint_pins(QPainter& painter) const {
    const assess::Assessment* results = session_.assessment();
    if (!results) return;
    constexpr double width_px = 22, apart_px = 24;
    const double px = 1 / transform().m11();
    std::vector<QPointF> taken;
    for (std::size_t i = 0; i < results->findings.size(); ++i) {
        const rules::Finding& finding = results->findings[i];
        const FindingKey key = key_of(finding);
        if (key.place.id == 0 || finding.grade == rules::Grade::practice) continue;
        const QRectF box = box_of(key.place);
        if (box.isNull()) continue;
        QPointF at = box.topRight() + QPointF(0, -10 * px);
        for (const QPointF& other : taken)
            if (std::hypot(other.x() - at.x(), other.y() - at.y()) < width_px * px) at.rx() += apart_px * px;
        taken.push_back(at);
        painter.save();
        painter.translate(at);
        painter.scale(px, px);
        if (focus_.finding() == key) {
            painter.setBrush(Qt::NoBrush);
            painter.setPen(QPen(look::light().copper, 2));
            painter.drawEllipse(QPointF(), 16, 16);
        }
        drawing::paint_grade(painter, finding.grade, {}, width_px, static_cast<int>(i) + 1,
                             session_.stale() ? look::light().ink2 : look::light().ink, QColor(look::paper));
        painter.restore();
    }
}

} // namespace fl::ui
