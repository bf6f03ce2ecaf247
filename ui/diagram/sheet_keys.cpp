#include "core/edit/edit.h"
#include "core/edit/sheet.h"
#include "core/wording/wording.h"
#include "ui/diagram/sheet_view.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"

#include <QKeyEvent>
#include <QWheelEvent>
#include <cmath>
#include <vector>

namespace fl::ui {
namespace {

// Every nudge of one hold of the key joins the same step.
constexpr int nudge_step = 1'000'000'000;

} // namespace

void SheetView::say() {
    using What = Doing::What;
    switch (doing_.what) {
    case What::placing:
        Q_EMIT status(tr("Click: places the %1 here. On a conductor: in series. Esc gives up.")
                          .arg(QString::fromStdString(doing_.part.name)));
        return;
    case What::wiring:
        Q_EMIT status(tr("Let go on a terminal: draws a conductor from %1. Esc gives up.")
                          .arg(QString::fromStdString(plan::text(session_.installation(), doing_.from))));
        return;
    case What::moving:
        Q_EMIT status(tr("Let go: moves it here. Esc gives up."));
        return;
    case What::nothing:
    case What::pressed:
        break;
    }
    if (focus_.selection().empty()) {
        Q_EMIT status(tr("Click selects, drag moves; drag from a terminal draws a conductor."));
        return;
    }
    QStringList names;
    for (const plan::Subject& one : focus_.selection())
        names << QString::fromStdString(wording::name(one, session_.installation()));
    Q_EMIT status(
        tr("Selected: %1. R turns, M mirrors, Delete removes.").arg(names.join(QStringLiteral(", "))));
}

const arrange::Symbol* SheetView::chosen_symbol() const {
    const auto& chosen = focus_.selection();
    if (chosen.size() != 1 || chosen.front().kind != plan::Subject::Kind::component) return nullptr;
    return session_.layout().symbol(plan::ComponentId{chosen.front().id});
}

void SheetView::turn_selected(int quarters, bool mirror) {
    const arrange::Symbol* symbol = chosen_symbol();
    if (!symbol) return;
    session_.apply(mirror ? tr("mirror") : tr("turn"),
                   edit::place(session_.installation(), symbol->component,
                               {symbol->page, symbol->at, symbol->quarter_turns + quarters,
                                symbol->mirrored != mirror}));
}

void SheetView::nudge(double x_mm, double y_mm) {
    const arrange::Symbol* symbol = chosen_symbol();
    if (!symbol) return;
    session_.apply(tr("nudge"),
                   edit::place(session_.installation(), symbol->component,
                               {symbol->page,
                                {symbol->at.x_mm + x_mm, symbol->at.y_mm + y_mm},
                                symbol->quarter_turns,
                                symbol->mirrored}),
                   nudge_step + static_cast<int>(symbol->component.value));
}

void SheetView::remove_selected() {
    plan::Installation after = session_.installation();
    for (const plan::Subject& one : focus_.selection()) {
        // A conductor may have gone with the component before it.
        const bool there = one.kind == plan::Subject::Kind::component
                               ? after.components.find(plan::ComponentId{one.id}) != nullptr
                               : after.conductors.find(plan::ConductorId{one.id}) != nullptr;
        if (!there) continue;
        auto removed = edit::remove(after, one);
        if (!removed) {
            session_.apply(tr("remove"), tl::unexpected(removed.error()));
            return;
        }
        after = std::move(*removed);
    }
    if (session_.apply(tr("remove"), after)) focus_.select({});
}

// From part to part in the order of the drawing, for those who use no mouse.
void SheetView::walk(int by) {
    std::vector<plan::Subject> all;
    for (const arrange::Symbol& one : session_.layout().symbols)
        if (one.part.empty()) all.push_back(plan::Subject::of(one.component));
    if (all.empty()) return;
    const auto count = static_cast<std::ptrdiff_t>(all.size());
    std::ptrdiff_t at = by > 0 ? -1 : count;
    for (std::ptrdiff_t i = 0; i < count; ++i)
        if (focus_.selected(all[static_cast<std::size_t>(i)])) at = i;
    const plan::Subject& next = all[static_cast<std::size_t>((at + by + count) % count)];
    focus_.select({next});
    ensureVisible(box_of(next), 40, 40);
}

void SheetView::keyPressEvent(QKeyEvent* event) {
    const double step = catalogue::grid_mm;
    switch (event->key()) {
    case Qt::Key_Escape:
        if (doing_.what != Doing::What::nothing || asking()) return stop();
        return focus_.select({});
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (doing_.what == Doing::What::placing) return drop_part();
        break;
    case Qt::Key_Delete:
        return remove_selected();
    case Qt::Key_R:
        return turn_selected(1, false);
    case Qt::Key_M:
        return turn_selected(0, true);
    case Qt::Key_F:
        return zoom_to_selection();
    case Qt::Key_A:
        return zoom_to_all();
    case Qt::Key_N:
        return walk(event->modifiers().testFlag(Qt::ShiftModifier) ? -1 : 1);
    case Qt::Key_Left:
        return nudge(-step, 0);
    case Qt::Key_Right:
        return nudge(step, 0);
    case Qt::Key_Up:
        return nudge(0, -step);
    case Qt::Key_Down:
        return nudge(0, step);
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
