#include "core/arrange/arrange.h"

#include "core/arrange/draft.h"
#include "core/arrange/labels.h"
#include "core/arrange/wires.h"

#include <algorithm>
#include <iterator>

namespace fl::arrange {
namespace {

Rect rect(const catalogue::SymbolBox& b, plan::Point at) {
    return {b.left_mm + at.x_mm, b.top_mm + at.y_mm, b.right_mm + at.x_mm, b.bottom_mm + at.y_mm};
}

/// Where a document's first page takes symbols.
Area first_area(const plan::Installation& in) {
    return drawing_area(in.sheets.empty() ? page_of({}, "A3")
                                          : page_of(in.sheets.begin()->id, in.sheets.begin()->size));
}

Places draft_of(const plan::Installation& in, const Chains& chains, const Tree& tree, const Shapes& shapes) {
    Draft draft(in, chains, tree, shapes, first_area(in));
    place_columns(draft);
    place_returns(draft);
    place_rest(draft);
    measure_bars(draft);
    return std::move(draft.places);
}

/// Everything that stands at its place, with pins where conductors really meet it.
class Assembly {
public:
    Assembly(const plan::Installation& in, const Shapes& shapes, const Settled& settled, const Docks& docks)
        : in_(in)
        , shapes_(shapes)
        , settled_(settled)
        , docks_(docks) {}

    /// A bar that goes on on other pages names, at each end, the piece before and after.
    std::vector<Mark> marks() const {
        std::vector<Mark> all;
        std::map<plan::ComponentId, std::map<int, const Rail*>> pieces;
        for (const Rail& r : docks_.rails)
            if (r.part != "-") pieces[r.component][r.page] = &r;
        for (const auto& [id, by_page] : pieces)
            for (auto next = by_page.begin(); next != by_page.end(); ++next) {
                const auto here = next;
                if (here != by_page.begin())
                    all.push_back(mark(id, *here->second, *std::prev(here)->second, false));
                if (std::next(here) != by_page.end())
                    all.push_back(mark(id, *here->second, *std::next(here)->second, true));
            }
        return all;
    }

    std::vector<Symbol> symbols() const {
        std::vector<Symbol> all;
        for (const auto& c : in_.components) {
            const auto found = settled_.places.find(c.id);
            if (found == settled_.places.end()) continue;
            if (c.kind() != plan::Kind::busbar && c.kind() != plan::Kind::joint)
                all.push_back(plain(c.id, found->second));
            for (const Rail& rail : docks_.rails)
                if (rail.component == c.id) all.push_back(bar(rail));
        }
        return all;
    }

private:
    Symbol plain(plan::ComponentId id, const Place& place) const {
        Symbol s{id,
                 {},
                 place.page,
                 point(place.at),
                 place.turns,
                 place.mirrored,
                 settled_.by_hand.contains(id),
                 shapes_.info(id),
                 {},
                 {}};
        s.box = rect(catalogue::turned(s.drawing.box, s.quarter_turns, s.mirrored), s.at);
        for (const auto& t : s.drawing.terminals) {
            if (apart(id, t.name)) continue;
            const Spike pin = shapes_.pin(id, t.name, place);
            s.pins.push_back({t.name, point(pin.at), pin.out});
        }
        return s;
    }
    bool apart(plan::ComponentId id, const std::string& terminal) const {
        return std::any_of(docks_.rails.begin(), docks_.rails.end(),
                           [&](const Rail& r) { return r.component == id && r.part == terminal; });
    }

    Mark mark(plan::ComponentId id, const Rail& here, const Rail& there, bool at_far_end) const {
        const auto end = [](const Rail& r, bool far) {
            return point(far ? Cell{r.area().right, r.area().bottom} : r.at);
        };
        const Direction out = here.upright ? (at_far_end ? Direction::down : Direction::up)
                                           : (at_far_end ? Direction::right : Direction::left);
        const Page& page = settled_.pages[static_cast<std::size_t>(there.page)];
        return {{},        id,
                here.page, end(here, at_far_end),
                out,       "/" + std::to_string(there.page + 1) + "." + zone(page, end(there, !at_far_end)),
                {},        {}};
    }

    Symbol bar(const Rail& rail) const {
        Symbol s;
        s.component = rail.component;
        s.part = rail.part;
        s.page = rail.page;
        s.at = point(rail.at);
        s.quarter_turns = rail.upright ? 1 : 0;
        s.by_hand = rail.part.empty() && settled_.by_hand.contains(rail.component);
        const bool joint = shapes_.kind(rail.component) == plan::Kind::joint;
        if (rail.part != "-") s.drawing = shapes_.info(rail.component);
        const double mm = rail.length * catalogue::grid_mm;
        s.drawing.box = {0, joint && rail.length == 0 ? 0 : -1.25, mm, joint && rail.length == 0 ? 0 : 1.25};
        s.drawing.terminals.clear();
        s.drawing.strokes.clear();
        if (!joint) s.drawing.strokes.push_back({{0, 0}, {mm, 0}, 1.4});
        if (joint && rail.length > 0) s.drawing.strokes.push_back({{0, 0}, {mm, 0}, 0.7});
        s.box = rect(catalogue::turned(s.drawing.box, s.quarter_turns, false), s.at);
        for (const auto& [conductor, ends] : docks_.of)
            for (std::size_t side = 0; side < 2; ++side) {
                const auto& w = *in_.conductors.find(conductor);
                const auto& own = side == 0 ? w.from : w.to;
                const bool here = rail.part == "-" ? rail.part == own.terminal : ends[side].page == rail.page;
                if (own.component == rail.component && here)
                    s.pins.push_back({own.terminal, point(ends[side].at), ends[side].out});
            }
        return s;
    }

    const plan::Installation& in_;
    const Shapes& shapes_;
    const Settled& settled_;
    const Docks& docks_;
};

} // namespace

Layout arrange(const plan::Installation& in, const network::Network& network) {
    const Chains found = chains(in, network);
    const Tree order = tree(in, found);
    const Shapes shapes(in, box_forms(in, found, order, first_area(in)));
    const Settled settled = settle(in, found, shapes, draft_of(in, found, order, shapes));
    const Docks at = docks(in, shapes, settled);
    Layout out;
    out.pages = settled.pages;
    const Assembly assembly(in, shapes, settled, at);
    out.symbols = assembly.symbols();
    for (const Stem& stem : at.stems) {
        Lead lead{stem.terminal, stem.page, {point(stem.from), point(stem.to)}, {}};
        for (const Cell c : stem.dots) lead.dots.push_back(point(c));
        out.leads.push_back(std::move(lead));
    }
    Wires led = lead_wires(in, shapes, settled, at);
    out.wires = std::move(led.wires);
    out.marks = std::move(led.marks);
    for (Mark& mark : assembly.marks()) out.marks.push_back(std::move(mark));
    put_labels(in, found, out);
    return out;
}

const Symbol* Layout::symbol(plan::ComponentId id, std::string_view part) const {
    for (const Symbol& s : symbols)
        if (s.component == id && s.part == part) return &s;
    return nullptr;
}

const Wire* Layout::wire(plan::ConductorId id) const {
    for (const Wire& w : wires)
        if (w.conductor == id) return &w;
    return nullptr;
}

plan::Installation settled(plan::Installation in, const Layout& layout) {
    std::vector<plan::SheetId> sheets;
    for (const Page& page : layout.pages) {
        plan::SheetId id = page.sheet;
        if (!id) {
            plan::Sheet sheet;
            sheet.id = id = {in.next_id++};
            in.sheets = in.sheets.with(std::move(sheet));
        }
        sheets.push_back(id);
    }
    for (const Symbol& s : layout.symbols) {
        if (s.by_hand || !s.part.empty()) continue;
        plan::Spot spot;
        spot.id = {in.next_id++};
        spot.component = s.component;
        spot.sheet = sheets[static_cast<std::size_t>(s.page)];
        spot.at = s.at;
        spot.quarter_turns = s.quarter_turns;
        spot.mirrored = s.mirrored;
        in.spots = in.spots.with(std::move(spot));
    }
    return in;
}

} // namespace fl::arrange
