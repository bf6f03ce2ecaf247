#include "core/edit/edit.h"
#include "core/edit/sheet.h"
#include "ui/diagram/sheet_view.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <algorithm>
#include <cmath>

namespace fl::ui {
namespace {

constexpr double near_mm = 1.8;              // a hand's reach round a terminal or a line, on paper
constexpr double near_px = 8, most_mm = 3.5; // the least on the screen, as far as neighbours allow
constexpr double end_mm = 4;                 // reach of a conductor's end

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

double SheetView::reach() const {
    return std::clamp(near_px / transform().m11(), near_mm, most_mm);
}

bool SheetView::Under::operator==(const Under& o) const {
    return subject == o.subject && pin == o.pin && terminal.has_value() == o.terminal.has_value() &&
           (!terminal || terminal->ref == o.terminal->ref);
}

SheetView::Under SheetView::under(const Where& where) const {
    const arrange::Layout& layout = session_.layout();
    if (doing_.what == Doing::What::wiring) {
        Under end{whereabouts::terminal_for_end(layout, where, end_mm), {}, {}};
        if (end.terminal) return end;
        end.subject = whereabouts::subject_at(layout, where, reach());
        if (end.subject && end.subject->kind != plan::Subject::Kind::conductor) end.subject.reset();
        return end;
    }
    if (doing_.what == Doing::What::placing) {
        // Only a device goes on a conductor; everything else stands where it is dropped.
        Under there{{}, whereabouts::subject_at(layout, where, reach()), {}};
        if (!whereabouts::goes_in_series(doing_.part) ||
            (there.subject && there.subject->kind != plan::Subject::Kind::conductor))
            there.subject.reset();
        return there;
    }
    if (const auto pin = pin_at(where)) return {{}, {}, pin};
    return {whereabouts::terminal_near(layout, where, reach(), near_mm),
            whereabouts::subject_at(layout, where, reach()),
            {}};
}

void SheetView::offer(const plan::Component& part) {
    stop();
    doing_.what = Doing::What::placing;
    doing_.part = part;
    if (const auto here = where(viewport()->mapFromGlobal(QCursor::pos())))
        doing_.now = *here;
    else
        doing_.now = {0, {150, 130}};
    hover(doing_.now);
    say();
    viewport()->update();
}

void SheetView::stop() {
    close_question();
    doing_ = {};
    under_ = {};
    say();
    viewport()->update();
}

void SheetView::turn_offered(bool mirror) {
    if (mirror)
        doing_.mirrored = !doing_.mirrored;
    else
        doing_.quarter_turns = (doing_.quarter_turns + 1) % 4;
    viewport()->update();
}

void SheetView::drop_part() {
    const Doing done = doing_;
    const auto on = under(done.now).subject;
    stop();
    if (on) return ask_series(done.part, plan::ConductorId{on->id}, done.now);
    const QString what = tr("place %1").arg(QString::fromStdString(done.part.name));
    const auto added = edit::add(session_.installation(), done.part);
    if (!added) {
        session_.apply(what, tl::unexpected(added.error()));
        return;
    }
    if (session_.apply(what, edit::place(added->installation, added->id,
                                         {done.now.page, done.now.at, done.quarter_turns, done.mirrored})))
        focus_.select({plan::Subject::of(added->id)});
}

void SheetView::draw_conductor() {
    const Doing done = doing_;
    const Under end = under(done.now);
    stop();
    if (done.went && end.subject) return ask_joint(done.from, plan::ConductorId{end.subject->id}, done.now);
    if (!done.went || !end.terminal) return;
    plan::Conductor conductor;
    conductor.from = done.from;
    conductor.to = end.terminal->ref;
    auto added = edit::add(session_.installation(), conductor);
    // A conductor that was not made has no name to be spoken of; the terminal it was drawn from has.
    if (!added) added.error().where = plan::text(session_.installation(), done.from);
    if (session_.apply(tr("draw a conductor"),
                       added.map([](const edit::Added<plan::Conductor>& one) { return one.installation; })))
        focus_.select({plan::Subject::of(added->id)});
}

void SheetView::draw_band() {
    const plan::Point &a = doing_.begun.at, &b = doing_.now.at;
    const QRectF band = QRectF(QPointF(a.x_mm, a.y_mm), QPointF(b.x_mm, b.y_mm)).normalized();
    auto chosen = doing_.kept;
    if (doing_.went)
        for (const plan::Subject& one : whereabouts::inside(session_.layout(), doing_.begun.page, band))
            if (std::find(chosen.begin(), chosen.end(), one) == chosen.end()) chosen.push_back(one);
    focus_.select(std::move(chosen));
}

void SheetView::press(const Where& here, bool add) {
    using What = Doing::What;
    doing_ = {};
    const Under there = under(here);
    if (there.pin) return press_pin(*there.pin);
    doing_.begun = doing_.now = here;
    auto chosen = focus_.selection();
    if (add && there.subject) {
        if (std::erase(chosen, *there.subject) == 0) chosen.push_back(*there.subject);
        focus_.select(std::move(chosen));
    } else if (there.terminal && !add) {
        doing_.what = What::wiring;
        doing_.from = there.terminal->ref;
        doing_.begun = there.terminal->where;
        focus_.select({plan::Subject::of(there.terminal->ref.component)});
    } else if (there.subject) {
        doing_.what = What::pressed;
        doing_.subject = *there.subject;
        // What is one of several keeps them, so that all can be taken along.
        if (!focus_.selected(*there.subject)) focus_.select({*there.subject});
    } else {
        doing_.what = What::banding;
        if (add) doing_.kept = std::move(chosen);
        focus_.select(doing_.kept);
    }
}

void SheetView::mousePressEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton) return QGraphicsView::mousePressEvent(event);
    refused_ = false;
    const auto here = where(event->pos());
    if (!here) {
        if (doing_.what != Doing::What::placing) focus_.select({});
        return;
    }
    if (doing_.what == Doing::What::placing) {
        doing_.now = *here;
        return drop_part();
    }
    press(*here,
          event->modifiers().testFlag(Qt::ControlModifier) || event->modifiers().testFlag(Qt::ShiftModifier));
    say();
    viewport()->update();
}

void SheetView::mouseDoubleClickEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton) return;
    mousePressEvent(event); // two quick clicks are two clicks, on a terminal too
}

void SheetView::mouseMoveEvent(QMouseEvent* event) {
    QGraphicsView::mouseMoveEvent(event);
    using What = Doing::What;
    const auto here = where(event->pos());
    // A release that went elsewhere ends the drag.
    if (doing_.what != What::nothing && doing_.what != What::placing &&
        !event->buttons().testFlag(Qt::LeftButton))
        return stop();
    if (doing_.what == What::nothing) {
        if (!asking()) hover(here);
        return;
    }
    if (here && (doing_.what != What::banding || here->page == doing_.begun.page)) doing_.now = *here;
    doing_.went = doing_.went || doing_.now.page != doing_.begun.page ||
                  whereabouts::distance(doing_.begun.at, doing_.now.at) > catalogue::grid_mm / 2;
    if (doing_.what == What::pressed && doing_.went)
        doing_.what = chosen_symbols().empty() ? What::nothing : What::moving;
    if (doing_.what == What::banding) draw_band();
    under_ = {};
    if (doing_.what == What::wiring || doing_.what == What::placing) under_ = under(doing_.now);
    say();
    viewport()->update();
}

void SheetView::mouseReleaseEvent(QMouseEvent* event) {
    QGraphicsView::mouseReleaseEvent(event);
    if (event->button() != Qt::LeftButton) return;
    const Doing done = doing_;
    switch (done.what) {
    case Doing::What::moving:
        stop();
        return move_chosen(done.now.page - done.begun.page, done.now.at.x_mm - done.begun.at.x_mm,
                           done.now.at.y_mm - done.begun.at.y_mm, tr("move"));
    case Doing::What::wiring:
        return draw_conductor();
    case Doing::What::pressed:
        stop();
        return focus_.select({done.subject});
    case Doing::What::banding:
        return stop();
    case Doing::What::nothing:
    case Doing::What::placing:
        return;
    }
}

void SheetView::hover(const std::optional<Where>& where) {
    const Under now = where ? under(*where) : Under{};
    if (now == under_) return;
    under_ = now;
    say();
    viewport()->update();
}

void SheetView::leaveEvent(QEvent* event) {
    if (doing_.what == Doing::What::nothing) hover({});
    QGraphicsView::leaveEvent(event);
}

void SheetView::focusOutEvent(QFocusEvent* event) {
    if (doing_.what != Doing::What::placing && doing_.what != Doing::What::nothing) stop();
    QGraphicsView::focusOutEvent(event);
}

} // namespace fl::ui
