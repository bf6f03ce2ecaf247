#include "core/edit/edit.h"
#include "core/edit/sheet.h"
#include "ui/diagram/sheet_view.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/look/look.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QScrollBar>
#include <algorithm>
#include <cmath>

namespace fl::ui {
namespace {

constexpr double near_mm = 1.8; // a hand's reach round a terminal or a line

double distance(const plan::Point& a, const plan::Point& b) {
    return std::hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm);
}

// From a point to a horizontal or vertical line.
double distance(const plan::Point& p, const plan::Point& a, const plan::Point& b) {
    const plan::Point nearest{std::clamp(p.x_mm, std::min(a.x_mm, b.x_mm), std::max(a.x_mm, b.x_mm)),
                              std::clamp(p.y_mm, std::min(a.y_mm, b.y_mm), std::max(a.y_mm, b.y_mm))};
    return distance(p, nearest);
}

bool two_terminals(const plan::Component& part) {
    using enum plan::Kind;
    return part.kind() == fuse || part.kind() == breaker || part.kind() == switch_ || part.kind() == shunt;
}

plan::Point moved(const plan::Point& p, double x_mm, double y_mm) {
    return {p.x_mm + x_mm, p.y_mm + y_mm};
}

} // namespace

std::optional<SheetView::Where> SheetView::where(const QPoint& pixel) const {
    const QPointF at = mapToScene(pixel);
    const auto& pages = session_.layout().pages;
    for (int page = 0; page < static_cast<int>(pages.size()); ++page) {
        const QPointF local = at - origin_of(page);
        const arrange::Page& paper = pages[static_cast<std::size_t>(page)];
        if (QRectF(0, 0, paper.width_mm, paper.height_mm).contains(local))
            return Where{page, {local.x(), local.y()}};
    }
    return {};
}

std::optional<plan::TerminalRef> SheetView::terminal_at(const Where& where) const {
    for (const arrange::Symbol& symbol : session_.layout().symbols) {
        if (symbol.page != where.page) continue;
        for (const arrange::Pin& pin : symbol.pins)
            if (distance(pin.at, where.at) <= near_mm)
                return plan::TerminalRef{symbol.component, pin.terminal};
        // A terminal that carries nothing yet has no pin of its own on a bar; the symbol's drawing knows it.
        for (const catalogue::SymbolTerminal& one : symbol.drawing.terminals) {
            const plan::Point local = catalogue::turned(one.at, symbol.quarter_turns, symbol.mirrored);
            if (distance(moved(symbol.at, local.x_mm, local.y_mm), where.at) <= near_mm)
                return plan::TerminalRef{symbol.component, one.name};
        }
    }
    return {};
}

std::optional<plan::Subject> SheetView::subject_at(const Where& where) const {
    const auto inside = [&](const arrange::Rect& r) {
        return where.at.x_mm >= r.left_mm && where.at.x_mm <= r.right_mm && where.at.y_mm >= r.top_mm &&
               where.at.y_mm <= r.bottom_mm;
    };
    for (const arrange::Symbol& symbol : session_.layout().symbols)
        if (symbol.page == where.page && inside(symbol.box)) return plan::Subject::of(symbol.component);
    for (const arrange::Wire& wire : session_.layout().wires)
        for (const arrange::Stretch& stretch : wire.stretches)
            for (std::size_t i = 0; stretch.page == where.page && i + 1 < stretch.points.size(); ++i)
                if (distance(where.at, stretch.points[i], stretch.points[i + 1]) <= near_mm)
                    return plan::Subject::of(wire.conductor);
    for (const arrange::Label& label : session_.layout().labels)
        for (const arrange::Line& line : label.lines)
            if (label.page == where.page && inside(line.box))
                return plan::Subject{label.subject.kind, label.subject.id, {}};
    return {};
}

void SheetView::offer(const plan::Component& part) {
    stop();
    doing_.what = Doing::What::placing;
    doing_.part = part;
    if (const auto here = where(viewport()->mapFromGlobal(QCursor::pos())))
        doing_.now = *here;
    else
        doing_.now = {0, {150, 130}};
    say();
    viewport()->update();
}

void SheetView::stop() {
    close_question();
    doing_ = {};
    say();
    viewport()->update();
}

void SheetView::drop_part() {
    const plan::Component part = doing_.part;
    const Where at = doing_.now;
    stop();
    const QString what = tr("place %1").arg(QString::fromStdString(part.name));
    const auto under = subject_at(at);
    if (under && under->kind == plan::Subject::Kind::conductor && two_terminals(part)) {
        ask_distance(part, plan::ConductorId{under->id}, at);
        return;
    }
    const auto added = edit::add(session_.installation(), part);
    if (!added) {
        session_.apply(what, tl::unexpected(added.error()));
        return;
    }
    if (session_.apply(what, edit::place(added->installation, added->id, {at.page, at.at, 0, false})))
        focus_.select({plan::Subject::of(added->id)});
}

void SheetView::drop_moved() {
    const Doing done = doing_;
    stop();
    const arrange::Symbol* symbol = session_.layout().symbol(done.component);
    if (!symbol) return;
    const plan::Point to =
        moved(symbol->at, done.now.at.x_mm - done.begun.at.x_mm, done.now.at.y_mm - done.begun.at.y_mm);
    session_.apply(tr("move"), edit::place(session_.installation(), done.component,
                                           {done.now.page, to, symbol->quarter_turns, symbol->mirrored}));
}

void SheetView::draw_conductor() {
    const Doing done = doing_;
    stop();
    const auto to = terminal_at(done.now);
    if (!to || *to == done.from) return;
    plan::Conductor conductor;
    conductor.from = done.from;
    conductor.to = *to;
    const auto added = edit::add(session_.installation(), conductor);
    if (session_.apply(tr("draw a conductor"),
                       added.map([](const edit::Added<plan::Conductor>& one) { return one.installation; })))
        focus_.select({plan::Subject::of(added->id)});
}

void SheetView::mousePressEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton) return QGraphicsView::mousePressEvent(event);
    const auto here = where(event->pos());
    if (!here) {
        focus_.select({});
        return;
    }
    if (doing_.what == Doing::What::placing) {
        doing_.now = *here;
        return drop_part();
    }
    doing_ = {};
    doing_.begun = doing_.now = *here;
    if (const auto terminal = terminal_at(*here)) {
        doing_.what = Doing::What::wiring;
        doing_.from = *terminal;
        focus_.select({plan::Subject::of(terminal->component)});
    } else if (const auto subject = subject_at(*here)) {
        auto chosen = focus_.selection();
        if (!event->modifiers().testFlag(Qt::ControlModifier))
            chosen = {*subject};
        else if (std::erase(chosen, *subject) == 0)
            chosen.push_back(*subject);
        focus_.select(std::move(chosen));
        if (subject->kind == plan::Subject::Kind::component) {
            doing_.what = Doing::What::pressed;
            doing_.component = {subject->id};
        }
    } else {
        focus_.select({});
    }
    say();
}

void SheetView::mouseMoveEvent(QMouseEvent* event) {
    QGraphicsView::mouseMoveEvent(event);
    if (doing_.what == Doing::What::nothing) return;
    // A release that went elsewhere ends the drag.
    if (doing_.what != Doing::What::placing && !event->buttons().testFlag(Qt::LeftButton)) return stop();
    if (const auto here = where(event->pos())) doing_.now = *here;
    if (doing_.what == Doing::What::pressed &&
        distance(doing_.begun.at, doing_.now.at) > catalogue::grid_mm / 2)
        doing_.what = Doing::What::moving;
    say();
    viewport()->update();
}

void SheetView::mouseReleaseEvent(QMouseEvent* event) {
    QGraphicsView::mouseReleaseEvent(event);
    if (event->button() != Qt::LeftButton) return;
    if (doing_.what == Doing::What::moving) return drop_moved();
    if (doing_.what == Doing::What::wiring) return draw_conductor();
    if (doing_.what == Doing::What::pressed) stop();
}

void SheetView::focusOutEvent(QFocusEvent* event) {
    if (doing_.what != Doing::What::placing && doing_.what != Doing::What::nothing) stop();
    QGraphicsView::focusOutEvent(event);
}

void SheetView::paint_doing(QPainter& painter) const {
    if (doing_.what == Doing::What::nothing || doing_.what == Doing::What::pressed) return;
    painter.save();
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(look::light().copper, 0.5));
    painter.translate(origin_of(doing_.now.page));
    const auto grid = [](double mm) { return std::round(mm / catalogue::grid_mm) * catalogue::grid_mm; };
    const auto outline = [&](const catalogue::SymbolBox& box, double x, double y) {
        painter.drawRect(QRectF(QPointF(box.left_mm, box.top_mm), QPointF(box.right_mm, box.bottom_mm))
                             .translated(grid(x), grid(y)));
    };
    if (doing_.what == Doing::What::placing)
        outline(catalogue::symbol_for(doing_.part).box, doing_.now.at.x_mm, doing_.now.at.y_mm);
    if (doing_.what == Doing::What::moving)
        if (const arrange::Symbol* symbol = session_.layout().symbol(doing_.component))
            outline(catalogue::turned(symbol->drawing.box, symbol->quarter_turns, symbol->mirrored),
                    symbol->at.x_mm + doing_.now.at.x_mm - doing_.begun.at.x_mm,
                    symbol->at.y_mm + doing_.now.at.y_mm - doing_.begun.at.y_mm);
    if (doing_.what == Doing::What::wiring) {
        const QPointF a(doing_.begun.at.x_mm, doing_.begun.at.y_mm),
            b(doing_.now.at.x_mm, doing_.now.at.y_mm);
        painter.drawPolyline(QPolygonF({a, QPointF(b.x(), a.y()), b}));
    }
    painter.restore();
}

} // namespace fl::ui
