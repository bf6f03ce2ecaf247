#include "ui/diagram/sheet_view.h"
#include "ui/drawing/mark.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/look/look.h"

#include <QPainter>
#include <cmath>

namespace fl::ui {
namespace {

constexpr double width_px = 22; // pins keep their size on the screen
constexpr double grown = 1.25;  // pointed at, docs/look.md 7

} // namespace

const std::vector<Pin>& SheetView::pins() const {
    const double px = 1 / transform().m11();
    if (pins_px_ != px) {
        const assess::Assessment* results = session_.assessment();
        pins_ = results ? place_pins(session_.layout(), results->findings, width_px * 1.1 * px)
                        : std::vector<Pin>{};
        pins_px_ = px;
    }
    return pins_;
}

std::optional<std::size_t> SheetView::pin_at(const Where& where) const {
    const double px = 1 / transform().m11();
    for (const Pin& pin : pins())
        if (pin.page == where.page &&
            std::hypot(pin.at.x() - where.at.x_mm, pin.at.y() - where.at.y_mm) <= width_px * px / 2)
            return pin.finding;
    return {};
}

void SheetView::press_pin(std::size_t finding) {
    const FindingKey key = key_of(session_.assessment()->findings[finding]);
    focus_.show_finding(key);
    focus_.select({key.place});
}

// A finding stands at its place: the mark tells its grade, the number its place in the list.
void SheetView::paint_pins(QPainter& painter) const {
    const assess::Assessment* results = session_.assessment();
    const double px = 1 / transform().m11();
    const QColor ink = session_.stale() ? look::light().ink2 : look::light().ink;
    painter.setPen(QPen(ink, px));
    for (const Pin& pin : pins())
        if (pin.led) painter.drawLine(pin.at + origin_of(pin.page), pin.place + origin_of(pin.page));
    for (const Pin& pin : pins()) {
        const rules::Finding& finding = results->findings[pin.finding];
        painter.save();
        painter.translate(pin.at + origin_of(pin.page));
        painter.scale(px, px);
        if (focus_.finding() == key_of(finding)) {
            painter.setBrush(Qt::NoBrush);
            painter.setPen(QPen(look::light().copper, 2));
            painter.drawEllipse(QPointF(), 16, 16);
        }
        drawing::paint_grade(painter, finding.grade, {},
                             under_.pin == pin.finding ? width_px * grown : width_px,
                             static_cast<int>(pin.finding) + 1, ink, QColor(look::paper));
        painter.restore();
    }
}

} // namespace fl::ui
