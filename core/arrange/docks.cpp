#include "core/arrange/docks.h"

#include "core/arrange/captions.h"
#include "core/arrange/paper.h"
#include "core/arrange/rail.h"
#include "core/arrange/stem.h"

#include <algorithm>

namespace fl::arrange {
namespace {

using plan::ComponentId;
using plan::Kind;

class Finder {
public:
    Finder(const plan::Installation& in, const Shapes& shapes, const Settled& settled)
        : in_(in)
        , shapes_(shapes)
        , settled_(settled)
        , ground_(shapes, {}) {
        for (const Page& page : settled.pages)
            ground_.add_page({0, 0, cell({page.frame.right_mm, 0}).x, cell({0, page.frame.bottom_mm}).y});
        for (const auto& [id, place] : settled.places) ground_.take(id, place);
        for (const auto& w : in.conductors) {
            ends_[w.from].push_back({w.id, 0});
            ends_[w.to].push_back({w.id, 1});
            out_.of[w.id];
        }
    }

    Docks find() {
        std::vector<const plan::Component*> boxes;
        for (const auto& c : in_.components)
            if (c.kind() == Kind::fuse_box && place_of(c.id)) boxes.push_back(&c);
        // from below: the returns of an upper box come down outside those of a lower one
        std::stable_sort(boxes.begin(), boxes.end(), [&](const auto* a, const auto* b) {
            return place_of(a->id)->at.y > place_of(b->id)->at.y;
        });
        for (const auto* c : boxes) box_rail(*c);
        for (const auto& c : in_.components)
            if (c.kind() == Kind::busbar || c.kind() == Kind::joint) bar(c);
        for (const auto& [at, ends] : ends_)
            if (!on_rail_.contains(at)) terminal(at, ends);
        return std::move(out_);
    }

private:
    struct End {
        plan::ConductorId conductor;
        std::size_t side;
    };

    const plan::TerminalRef& partner(const End& end) const {
        const auto& w = *in_.conductors.find(end.conductor);
        return end.side == 0 ? w.to : w.from;
    }
    const Place* place_of(ComponentId id) const {
        const auto found = settled_.places.find(id);
        return found == settled_.places.end() ? nullptr : &found->second;
    }

    /// Where a conductor's other end will be, seen from `self`; nothing when it is on another page.
    std::optional<Spike> aim(const End& end, int page, Cell self) const {
        const auto& at = partner(end);
        for (const Rail& rail : out_.rails)
            if (rail.component == at.component && rail.page == page && rail.part != "-")
                return nearest(rail.area(), self);
            else if (rail.component == at.component && rail.part == at.terminal)
                return rail.page == page ? std::optional(nearest(rail.area(), self)) : std::nullopt;
        const Place* place = place_of(at.component);
        if (!place) return {};
        if (place->page != page && shapes_.kind(at.component) == Kind::busbar)
            return going_on(at.component, page, self);
        if (place->page != page) return {};
        if (const auto kind = shapes_.kind(at.component); kind == Kind::busbar || kind == Kind::joint)
            return nearest(shapes_.area(at.component, *place), self);
        return shapes_.pin(at.component, at.terminal, *place);
    }
    /// A bar of another page goes on on this one at its own level.
    Spike going_on(ComponentId bar, int page, Cell self) const {
        const Levels levels = levels_of(drawing_area(settled_.pages[static_cast<std::size_t>(page)]));
        const bool plus =
            std::get<plan::Busbar>(in_.components.find(bar)->with).polarity == plan::Polarity::plus;
        const int y = plus ? levels.plus : levels.minus;
        return {{self.x, y}, self.y < y ? Direction::up : Direction::down};
    }
    /// What goes on on another page: off to the left when that is an earlier one, else to the right.
    Spike far(const End& end, int page, const Spike& self) const {
        const Place* there = place_of(partner(end).component);
        const int x = there && there->page < page ? -4096 : 4096;
        return {self.at + Cell{x, 0} + step(self.out, 4), self.out};
    }
    static Spike nearest(const Area& line, Cell self) {
        const Cell on{std::clamp(self.x, line.left, line.right), std::clamp(self.y, line.top, line.bottom)};
        const bool upright = line.left == line.right && line.top != line.bottom;
        if (upright && self.y > line.bottom) return {{line.left, line.bottom}, Direction::down};
        if (upright) return {on, self.x < on.x ? Direction::left : Direction::right};
        return {on, self.y < on.y ? Direction::up : Direction::down};
    }

    int first_used_way(ComponentId box, const Place& place) const {
        for (const auto& t : shapes_.info(box).terminals)
            if (t.direction == Direction::right && ends_.contains({box, t.name}))
                return shapes_.pin(box, t.name, place).at.y;
        return place.at.y;
    }

    /// The returns of a box's loads are gathered at the right end of their rows, when there are several.
    void box_rail(const plan::Component& box) {
        const Place* place = place_of(box.id);
        const auto found = ends_.find({box.id, "-"});
        if (!place || found == ends_.end()) return;
        const Area body = shapes_.area(box.id, *place);
        int x = 0, top = body.bottom, bottom = body.top, rows = 0;
        for (const End& end : found->second) {
            const auto to = aim(end, place->page, {body.right, body.top});
            if (!to || to->out != Direction::right || to->at.x < body.right) continue;
            const int label = level_steps(in_, *in_.conductors.find(end.conductor), Side::minus, 1);
            x = std::max(x, to->at.x + in_leaps(label, return_room));
            top = std::min(top, to->at.y), bottom = std::max(bottom, to->at.y);
            ++rows;
        }
        const auto count = static_cast<int>(found->second.size());
        if (count < 2) return;
        // where the draft had it: a load that a hand has moved does not take the line along
        if (place->rail > 0 && place->turns == 0 && !place->mirrored) {
            x = place->at.x + place->rail;
            top = first_used_way(box.id, *place);
        }
        // outside the line of a box below it, so that its own can come down
        for (const Rail& r : out_.rails)
            if (r.part == "-" && r.page == place->page && r.at.y > bottom && r.at.x > body.right &&
                r.at.x < x + 20)
                x = std::max(x, r.at.x + 2);
        const auto below_another = [&](const Area& line) {
            return std::any_of(out_.rails.begin(), out_.rails.end(), [&](const Rail& r) {
                return r.page == place->page && r.at.y > bottom && r.at.x > line.left - 2 &&
                       r.at.x < line.left + 20;
            });
        };
        const Area& page = ground_.page(place->page);
        const auto gather = [&](const Area& line) {
            if (line.right > page.right - 1 || !ground_.free(place->page, line)) return false;
            rail({box.id, "-", place->page, {line.left, line.top}, true, 0}, found->second, {box.id, "-"});
            return true;
        };
        for (const int off : {0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, -6, -7, -8, -9, -10})
            if (const Area line{x + off, top - 1, x + off, bottom + 1};
                rows > 0 && !below_another(line) && gather(line))
                return;
        // The lead of the box itself has room for two (Shapes::lead_length): more are gathered wherever there
        // is a place to each.
        if (count <= 2) return;
        const int least = count + 3;
        x = std::max(x, body.right + return_room);
        const Area within = drawing_area(settled_.pages[static_cast<std::size_t>(place->page)]).grown(-2);
        for (int off = 0; off <= within.right - within.left; ++off)
            for (const int at : {x + off, x - off})
                for (int y = within.top;
                     at >= within.left && at <= within.right && y + least <= within.bottom; ++y)
                    if (gather({at, y, at, y + least})) return;
    }

    void bar(const plan::Component& c) {
        const Place* place = place_of(c.id);
        if (!place) return;
        std::vector<End> ends;
        for (const std::string& terminal : plan::terminals(c.with)) {
            const plan::TerminalRef at{c.id, terminal};
            if (const auto found = ends_.find(at); found != ends_.end())
                ends.insert(ends.end(), found->second.begin(), found->second.end());
            on_rail_.insert(at);
        }
        if (c.kind() == Kind::joint) return rail({c.id, {}, place->page, place->at, false, 0}, ends, {});
        // on each further page with something joined to it the bar goes on
        std::map<int, std::vector<End>> by_page{{place->page, {}}};
        for (const End& end : ends) {
            const auto& at = partner(end);
            const Place* there = place_of(at.component);
            const bool bar = there && shapes_.kind(at.component) == Kind::busbar;
            by_page[there && !bar ? there->page : place->page].push_back(end);
        }
        const bool upright = place->turns % 2 == 1;
        for (const auto& [page, here] : by_page)
            if (page == place->page)
                rail({c.id, {}, page, place->at, upright, 4}, here, {});
            else
                rail({c.id, "/" + std::to_string(page + 1), page, continued(c, *place, page, here), false, 4},
                     here, {});
    }
    /// Where a bar begins on a further page: at its level, left of all that hangs from it.
    Cell continued(const plan::Component& c, const Place& main, int page,
                   const std::vector<End>& ends) const {
        const Area area = drawing_area(settled_.pages[static_cast<std::size_t>(page)]);
        const Levels levels = levels_of(area);
        const bool plus = std::get<plan::Busbar>(c.with).polarity == plan::Polarity::plus;
        Cell at{area.right, main.turns % 2 == 0 && main.page == 0 ? main.at.y
                            : plus                                ? levels.plus
                                                                  : levels.minus};
        int far = 0;
        for (const End& end : ends)
            if (const auto to = aim(end, page, plus ? at : Cell{at.x, area.bottom})) {
                // beside what it feeds along its own line, with room for a label
                if (!plus && to->out == Direction::down) { // below the returns that a box gathers
                    at = {std::min(at.x, to->at.x - 3), std::max(at.y, to->at.y + 4)};
                    continue;
                }
                const bool beside = to->out == Direction::left;
                at.x = std::min(at.x, to->at.x - (beside ? 4 + short_room : 1));
                if (beside)
                    at.y = to->at.y;
                else
                    far = std::max(far, to->at.x + 1);
            }
        at.x = std::max(at.x, area.left);
        // up and down from there until the line is free: all of it, else so much that each tap has its place
        const int least = ends.size() == 1 ? 2 : static_cast<int>(ends.size()) + 3;
        for (const int length : {std::max(far - at.x, least), least})
            for (int off = 0; off < area.bottom - area.top; ++off)
                for (const int y : {at.y + off, at.y - off})
                    if (y >= area.top && y <= area.bottom && ground_.free(page, {at.x, y, at.x + length, y}))
                        return {at.x, y};
        return at;
    }

    void rail(Rail rail, const std::vector<End>& ends, const plan::TerminalRef& terminal) {
        if (terminal.component) on_rail_.insert(terminal);
        std::vector<std::optional<Spike>> aims;
        for (const End& end : ends) aims.push_back(aim(end, rail.page, rail.at));
        const bool joint = rail.part.empty() && shapes_.kind(rail.component) == Kind::joint;
        if (joint)
            for (std::size_t i = 0; i < ends.size(); ++i)
                if (!aims[i]) aims[i] = far(ends[i], rail.page, {rail.at, Direction::up});
        const auto taps = joint ? join(rail, aims) : tap(rail, aims, free_length(rail));
        for (std::size_t i = 0; i < ends.size(); ++i) {
            const auto& w = *in_.conductors.find(ends[i].conductor);
            const auto& own = ends[i].side == 0 ? w.from : w.to;
            out_.of[w.id][ends[i].side] = {rail.page, taps[i].at, taps[i].out, own.terminal};
        }
        ground_.take(rail.page, rail.area());
        out_.rails.push_back(std::move(rail));
    }
    /// True where a part stands, or would lead out a terminal that several conductors share.
    bool stands_at(const std::pair<const ComponentId, Place>& part, Cell c) const {
        const auto& [id, place] = part;
        return shapes_.area(id, place).grown(1).holds(c) || leads_through(part, c, {});
    }
    /// True where another terminal that several conductors share leads out.
    bool leads_through(const std::pair<const ComponentId, Place>& part, Cell c,
                       const plan::TerminalRef& own) const {
        const auto& [id, place] = part;
        if (shapes_.kind(id) == Kind::busbar || shapes_.kind(id) == Kind::joint) return false;
        const auto& terminals = shapes_.info(id).terminals;
        return std::any_of(terminals.begin(), terminals.end(), [&](const auto& t) {
            return shapes_.conductors(id, t.name) > 1 && !(id == own.component && t.name == own.terminal) &&
                   shapes_.way_out(id, t.name, place).holds(c);
        });
    }
    /// How far a rail may grow before it meets a symbol.
    int free_length(const Rail& rail) const {
        int length = 0;
        for (; length < 400; ++length) {
            const Cell end = rail.at + (rail.upright ? Cell{0, length + 1} : Cell{length + 1, 0});
            const bool taken =
                std::any_of(settled_.places.begin(), settled_.places.end(), [&](const auto& one) {
                    return one.first != rail.component && one.second.page == rail.page && stands_at(one, end);
                });
            const bool other = std::any_of(out_.rails.begin(), out_.rails.end(), [&](const Rail& r) {
                return r.page == rail.page && r.area().grown(1).holds(end);
            });
            const Area& page = ground_.page(rail.page);
            if (taken || other || end.x >= page.right || end.y >= page.bottom) break;
        }
        return length;
    }

    void terminal(const plan::TerminalRef& at, const std::vector<End>& ends) {
        const Place* place = place_of(at.component);
        if (!place) return;
        const Spike pin = shapes_.pin(at.component, at.terminal, *place);
        if (ends.size() == 1) {
            out_.of[ends[0].conductor][ends[0].side] = {place->page, pin.at, pin.out, at.terminal};
            return;
        }
        std::vector<std::optional<Spike>> aims;
        for (const End& end : ends) {
            aims.push_back(aim(end, place->page, pin.at));
            if (!aims.back()) aims.back() = far(end, place->page, pin);
        }
        bool polite = true; // keeps off where other leads will come out
        const auto blocked = [&](Cell c) {
            const Area& page = ground_.page(place->page);
            if (!page.grown(-1).holds(c) || stem_cells_.contains({place->page, c})) return true;
            for (const Rail& rail : out_.rails)
                if (rail.page == place->page && rail.area().holds(c)) return true;
            return std::any_of(settled_.places.begin(), settled_.places.end(), [&](const auto& one) {
                if (one.second.page != place->page) return false;
                return shapes_.area(one.first, one.second).holds(c) || (polite && leads_through(one, c, at));
            });
        };
        Branching made = branch(pin, aims, blocked);
        if (std::any_of(made.docks.begin(), made.docks.end(), [](const auto& dock) { return !dock; })) {
            polite = false;
            made = branch(pin, aims, blocked);
        }
        for (std::size_t i = 0; i < ends.size(); ++i)
            if (made.docks[i])
                out_.of[ends[i].conductor][ends[i].side] = {place->page, made.docks[i]->at,
                                                            made.docks[i]->out, at.terminal};
        for (Cell c = pin.at; c != made.end; c = c + step(pin.out)) stem_cells_.insert({place->page, c});
        stem_cells_.insert({place->page, made.end});
        out_.stems.push_back({at, place->page, pin.at, made.end, made.dots});
    }

    const plan::Installation& in_;
    const Shapes& shapes_;
    const Settled& settled_;
    Ground ground_;
    std::map<plan::TerminalRef, std::vector<End>> ends_;
    std::set<plan::TerminalRef> on_rail_;
    std::set<std::pair<int, Cell>> stem_cells_;
    Docks out_;
};

} // namespace

Docks docks(const plan::Installation& in, const Shapes& shapes, const Settled& settled) {
    return Finder(in, shapes, settled).find();
}

} // namespace fl::arrange
