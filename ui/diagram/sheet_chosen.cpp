#include "core/edit/edit.h"
#include "core/edit/sheet.h"
#include "ui/diagram/sheet_view.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"

#include <algorithm>
#include <cmath>

namespace fl::ui {
namespace {

double on_grid(double mm) {
    return std::round(mm / catalogue::grid_mm) * catalogue::grid_mm;
}

arrange::Rect around(const std::vector<const arrange::Symbol*>& symbols) {
    arrange::Rect all = symbols.front()->box;
    for (const arrange::Symbol* one : symbols)
        all = {std::min(all.left_mm, one->box.left_mm), std::min(all.top_mm, one->box.top_mm),
               std::max(all.right_mm, one->box.right_mm), std::max(all.bottom_mm, one->box.bottom_mm)};
    return all;
}

bool on_one_page(const std::vector<const arrange::Symbol*>& symbols) {
    return std::all_of(symbols.begin(), symbols.end(),
                       [&](const arrange::Symbol* one) { return one->page == symbols.front()->page; });
}

// One after the other, all or none.
class Stands {
public:
    explicit Stands(const plan::Installation& before)
        : made_(before) {}
    void put(plan::ComponentId component, const edit::Stand& stand) {
        if (made_) made_ = edit::place(*made_, component, stand);
    }
    void lead(plan::ConductorId conductor, const std::vector<plan::Point>& corners) {
        if (made_) made_ = edit::route(*made_, conductor, corners);
    }
    const Result<plan::Installation>& made() const { return made_; }

private:
    Result<plan::Installation> made_;
};

} // namespace

std::vector<const arrange::Symbol*> SheetView::chosen_symbols() const {
    std::vector<const arrange::Symbol*> all;
    for (const plan::Subject& one : focus_.selection())
        if (one.kind == plan::Subject::Kind::component)
            if (const arrange::Symbol* symbol = session_.layout().symbol(plan::ComponentId{one.id}))
                all.push_back(symbol);
    return all;
}

void SheetView::move_chosen(int pages, double x_mm, double y_mm, const QString& what, int merge) {
    const auto symbols = chosen_symbols();
    if (symbols.empty()) return;
    if (on_one_page(symbols)) {
        // All stay on the paper, as far apart as they were.
        const arrange::Rect box = around(symbols);
        const arrange::Page& paper = session_.layout().pages[static_cast<std::size_t>(symbols.front()->page)];
        x_mm = std::clamp(x_mm, std::min(0.0, -box.left_mm), std::max(0.0, paper.width_mm - box.right_mm));
        y_mm = std::clamp(y_mm, std::min(0.0, -box.top_mm), std::max(0.0, paper.height_mm - box.bottom_mm));
    }
    Stands after(session_.installation());
    for (const arrange::Symbol* one : symbols)
        after.put(one->component, {std::max(0, one->page + pages),
                                   {one->at.x_mm + on_grid(x_mm), one->at.y_mm + on_grid(y_mm)},
                                   one->quarter_turns,
                                   one->mirrored});
    // Corners that a hand has placed go along where both ends do.
    for (const plan::Route& route : session_.installation().routes) {
        const plan::Conductor* w = session_.installation().conductors.find(route.conductor);
        if (!w || pages != 0 || !focus_.selected(plan::Subject::of(w->from.component)) ||
            !focus_.selected(plan::Subject::of(w->to.component)))
            continue;
        std::vector<plan::Point> corners = route.corners;
        for (plan::Point& corner : corners)
            corner = {corner.x_mm + on_grid(x_mm), corner.y_mm + on_grid(y_mm)};
        after.lead(w->id, corners);
    }
    session_.apply(what, after.made(), merge);
}

// One turns about its origin and is mirrored end for end; several turn about their middle and are mirrored
// left for right, together.
void SheetView::turn_chosen(bool mirror) {
    const auto symbols = chosen_symbols();
    if (symbols.empty()) return;
    Stands after(session_.installation());
    const bool together = symbols.size() > 1 && on_one_page(symbols);
    const arrange::Rect box = around(symbols);
    const double x = on_grid((box.left_mm + box.right_mm) / 2), y = on_grid((box.top_mm + box.bottom_mm) / 2);
    for (const arrange::Symbol* one : symbols) {
        edit::Stand stand{one->page, one->at, one->quarter_turns, one->mirrored};
        if (!mirror) {
            ++stand.quarter_turns;
            if (together) stand.at = {x - (one->at.y_mm - y), y + (one->at.x_mm - x)};
        } else {
            stand.mirrored = !stand.mirrored;
            // Seen in a mirror, a turn to the right is one to the left.
            if (together) stand.at.x_mm = 2 * x - one->at.x_mm, stand.quarter_turns = -one->quarter_turns;
        }
        after.put(one->component, stand);
    }
    session_.apply(mirror ? tr("mirror") : tr("turn"), after.made());
}

void SheetView::nudge(double x_mm, double y_mm) {
    if (nudging_ == 0) nudging_ = session_.interaction();
    move_chosen(0, x_mm, y_mm, tr("nudge"), nudging_);
}

void SheetView::remove_chosen() {
    if (focus_.selection().empty()) return;
    plan::Installation after = session_.installation();
    for (const plan::Subject& one : focus_.selection()) {
        // A conductor may have gone with the component before it.
        const bool there = one.kind == plan::Subject::Kind::component
                               ? after.components.find(plan::ComponentId{one.id}) != nullptr
                           : one.kind == plan::Subject::Kind::condition
                               ? after.conditions.find(plan::ConditionId{one.id}) != nullptr
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

void SheetView::select_all() {
    focus_.select(whereabouts::in_reading_order(session_.layout()));
}

// From one to the next as a page is read, for those who use no mouse.
void SheetView::walk(int by) {
    const auto all = whereabouts::in_reading_order(session_.layout());
    if (all.empty()) return;
    const auto count = static_cast<std::ptrdiff_t>(all.size());
    std::ptrdiff_t at = by > 0 ? -1 : count;
    for (std::ptrdiff_t i = 0; i < count; ++i)
        if (focus_.selected(all[static_cast<std::size_t>(i)])) at = i;
    const plan::Subject& next = all[static_cast<std::size_t>((at + by + count) % count)];
    focus_.select({next});
    ensureVisible(box_of(next), 40, 40);
}

} // namespace fl::ui
