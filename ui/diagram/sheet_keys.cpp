#include "ui/diagram/sheet_view.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"

#include <QKeyEvent>
#include <QWheelEvent>
#include <cmath>

namespace fl::ui {

void SheetView::keyPressEvent(QKeyEvent* event) {
    refused_ = false;
    const bool placing = doing_.what == Doing::What::placing;
    const double step = catalogue::grid_mm;
    const auto go = [&](double x_mm, double y_mm) {
        if (!placing) return nudge(x_mm, y_mm);
        doing_.now.at = {doing_.now.at.x_mm + x_mm, doing_.now.at.y_mm + y_mm};
        hover(doing_.now);
        viewport()->update();
    };
    const bool dragging = doing_.what != Doing::What::nothing && !placing;
    if (dragging && event->key() != Qt::Key_Escape) return;
    if (event->matches(QKeySequence::SelectAll)) return select_all();
    // Letters with Ctrl or Alt are menus' and not ours.
    if (event->modifiers() & (Qt::ControlModifier | Qt::AltModifier))
        return QGraphicsView::keyPressEvent(event);
    switch (event->key()) {
    case Qt::Key_Escape:
        if (doing_.what == Doing::What::banding) focus_.select(doing_.kept);
        if (doing_.what != Doing::What::nothing || asking()) return stop();
        return focus_.select({});
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (placing) return drop_part();
        if (!focus_.selection().empty()) Q_EMIT details_wanted();
        return;
    case Qt::Key_Delete:
        return remove_chosen();
    case Qt::Key_R:
        return placing ? turn_offered(false) : turn_chosen(false);
    case Qt::Key_M:
        return placing ? turn_offered(true) : turn_chosen(true);
    case Qt::Key_F:
        return zoom_to_selection();
    case Qt::Key_A:
        return zoom_to_all();
    case Qt::Key_N:
        return walk(event->modifiers().testFlag(Qt::ShiftModifier) ? -1 : 1);
    case Qt::Key_Left:
        return go(-step, 0);
    case Qt::Key_Right:
        return go(step, 0);
    case Qt::Key_Up:
        return go(0, -step);
    case Qt::Key_Down:
        return go(0, step);
    default:
        break;
    }
    QGraphicsView::keyPressEvent(event);
}

void SheetView::wheelEvent(QWheelEvent* event) {
    if (!event->modifiers().testFlag(Qt::ControlModifier)) return QGraphicsView::wheelEvent(event);
    constexpr double notch = 120, per_notch = 1.15, least = 0.5, greatest = 40; // pixels a millimetre
    const double factor = std::pow(per_notch, event->angleDelta().y() / notch);
    const double after = transform().m11() * factor;
    if (after < least || after > greatest) return;
    fitted_ = false;
    scale(factor, factor);
}

void SheetView::resizeEvent(QResizeEvent* event) {
    QGraphicsView::resizeEvent(event);
    if (fitted_) zoom_to_all();
}

} // namespace fl::ui
