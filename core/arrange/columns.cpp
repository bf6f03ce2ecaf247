#include "core/arrange/blocks.h"

#include <algorithm>
#include <vector>

namespace fl::arrange {
namespace {

using plan::ComponentId;

/// Where a line along the plus level comes from; a page of its own when it comes from nowhere near.
struct Rail {
    bool on = false;
    int page = 0, x = 0;
};

class Columns {
public:
    Columns(Draft& draft)
        : d_(draft)
        , tree_(draft.tree)
        , blocks_(draft, tree_) {}

    void place() {
        for (const ComponentId root : tree_.roots) {
            lay(root, nullptr, {});
            d_.cursor += 4;
        }
    }

private:
    int half(ComponentId id) const {
        const Area a = d_.shapes.area(id, upright(id));
        return std::max(a.right, -a.left);
    }
    /// As a part hangs in a column: plus on top.
    Place upright(ComponentId id) const {
        const auto kind = d_.shapes.kind(id);
        const bool drawn_level = kind == plan::Kind::load || kind == plan::Kind::starter_motor ||
                                 kind == plan::Kind::fuse || kind == plan::Kind::breaker ||
                                 kind == plan::Kind::switch_ || kind == plan::Kind::shunt ||
                                 kind == plan::Kind::relay;
        return place_on(d_.page, {}, drawn_level ? 1 : 0, false);
    }
    std::vector<Limb> limbs(ComponentId id) const { return d_.limbs(tree_, id); }
    bool hangs(const Limb& limb) const {
        const Part part = part_of(*d_.in.components.find(limb.child));
        return !tree_.below.contains(limb.child) &&
               (part == Part::source || part == Part::taker || part == Part::other);
    }

    /// Begins a page where `right` lies beyond this one; a line from elsewhere then comes in at its left.
    void fit(int right, Rail& rail) {
        if (d_.fit(right) && rail.on) rail = {true, d_.page, d_.area.left + 5};
    }

    void lay(ComponentId id, const Chain* by, Rail rail) {
        switch (part_of(*d_.in.components.find(id))) {
        case Part::bar:
            return lay_bar(id, by, rail);
        case Part::box:
            return lay_box_on_rail(id, by, rail);
        case Part::through:
        case Part::joint:
            return lay_through(id, by, rail);
        default:
            return lay_column(id, by, rail);
        }
    }

    /// A source or a load on a line of its own that comes down from the plus level.
    void lay_column(ComponentId id, const Chain* by, Rail rail) {
        auto below = limbs(id);
        const int reach = by ? d_.length(*by) : 0, wide = half(id);
        const auto x_from = [&] {
            return std::max(d_.cursor + std::max(wide, d_.cursor <= d_.area.left ? 0 : 10),
                            rail.on ? rail.x + reach : 0);
        };
        fit(x_from() + wide + 2, rail);
        const int x = x_from();
        if (by) d_.along(*by, d_.page, {rail.on ? rail.x : x - reach, d_.levels.plus});
        const int hanging =
            static_cast<int>(std::count_if(below.begin(), below.end(), [&](auto& l) { return hangs(l); }));
        const std::string plus = plus_terminal(id, by, below);
        Place place = upright(id);
        place.at = d_.shapes.origin_for(id, plus, place, {x, d_.levels.plus + std::max(6, 3 + 5 * hanging)});
        d_.places.emplace(id, place);
        d_.cursor = x + wide + 1;
        hang(std::move(below), x);
    }

    static std::string plus_terminal(ComponentId, const Chain* by, const std::vector<Limb>& below) {
        return by ? by->to.terminal : below.empty() ? "+" : below.front().chain.from.terminal;
    }

    /// What hangs from a hub at x: ends below it, one line on along the plus level, the rest by a drop.
    void hang(std::vector<Limb> below, int x) {
        std::vector<Limb> ends, on;
        for (Limb& l : below) (hangs(l) ? ends : on).push_back(std::move(l));
        if (on.empty() && !ends.empty()) {
            on.push_back(std::move(ends.front()));
            ends.erase(ends.begin());
        }
        int level = static_cast<int>(ends.size());
        const int page = d_.page;
        for (const Limb& l : ends) {
            d_.cursor += 3; // room for the hub's own name
            drop(l, d_.levels.plus + 5 * level--, 0);
        }
        go_on(on, {true, page, x});
    }

    void go_on(const std::vector<Limb>& on, Rail rail) {
        for (const Limb& l : on) {
            if (d_.placed(l.child)) continue;
            if (rail.on) {
                lay(l.child, &l.chain, rail);
                rail.on = false;
                continue;
            }
            // its devices stay near the source, the line finds its own way
            if (!l.chain.hops.empty()) {
                const int column = d_.cursor + 8;
                d_.down(l.chain, d_.page, {column, d_.levels.plus}, d_.levels.minus);
                d_.cursor = column + 3;
            }
            lay(l.child, nullptr, {});
        }
    }

    /// A source or a load below the plus level; `top` is the least level of its upper end.
    void drop(const Limb& l, int from_y, int top) {
        if (d_.placed(l.child)) return;
        const int wide = half(l.child);
        d_.fit(d_.cursor + 9 + 2 * wide);
        const int x = d_.cursor + (d_.cursor <= d_.area.left ? 10 : 7) + wide;
        const Place as = upright(l.child);
        const Area box = d_.shapes.area(l.child, as);
        const int lowest = d_.levels.minus - (box.bottom - box.top) - 4;
        const int y = std::min(std::max(top, from_y + d_.upright_length(l.chain)),
                               std::max(lowest, from_y + d_.devices_length(l.chain) + 4));
        Place place = as;
        place.page = d_.page;
        place.at = d_.shapes.origin_for(l.child, l.chain.to.terminal, as, {x, y});
        d_.places.emplace(l.child, place);
        d_.down(l.chain, d_.page, {x, from_y}, y);
        d_.cursor = x + wide + 1;
    }

    void lay_bar(ComponentId id, const Chain* by, Rail rail) {
        const int reach = by ? d_.length(*by) : 0;
        const auto x_from = [&] { return std::max(d_.cursor + 3, rail.on ? rail.x + reach : 0); };
        fit(x_from() + 20, rail);
        const int x = x_from();
        if (by) d_.along(*by, d_.page, {rail.on ? rail.x : x - reach, d_.levels.plus});
        const int page = d_.page;
        d_.places.emplace(id, place_on(page, {x, d_.levels.plus}));
        std::vector<Limb> ends, boxes, on;
        for (Limb& l : limbs(id)) {
            const bool box = part_of(*d_.in.components.find(l.child)) == Part::box;
            (box ? boxes : hangs(l) ? ends : on).push_back(std::move(l));
        }
        // units hang at one height
        int top = 0;
        for (const Limb& l : ends) top = std::max(top, d_.levels.plus + d_.upright_length(l.chain));
        d_.cursor = std::max(d_.cursor, x + 1 - (ends.empty() ? 0 : 7 + half(ends.front().child)));
        for (const Limb& l : ends) drop(l, d_.levels.plus, std::min(top, d_.levels.minus - 30));
        blocks_.below_bar(boxes, x);
        go_on(on, {true, page, std::max(d_.cursor, x + 4)});
    }

    void lay_through(ComponentId id, const Chain* by, Rail rail) {
        const Part part = part_of(*d_.in.components.find(id));
        Place place = place_on(d_.page, {});
        const int reach = by ? d_.length(*by) : 0;
        Area box = d_.shapes.area(id, place);
        const auto x_from = [&] { return std::max(d_.cursor + 2, rail.on ? rail.x + reach : 0); };
        fit(x_from() + box.right - box.left + 2, rail);
        const int x = x_from();
        place.page = d_.page;
        if (by) {
            place.mirrored =
                part == Part::through && d_.shapes.pin(id, by->to.terminal, place).out == Direction::right;
            place.at = d_.shapes.origin_for(id, by->to.terminal, place, {x, d_.levels.plus});
            d_.along(*by, d_.page, {rail.on ? rail.x : x - reach, d_.levels.plus});
        } else {
            place.at = {x - box.left, d_.levels.plus};
        }
        d_.places.emplace(id, place);
        const int right = d_.shapes.area(id, place).right;
        d_.cursor = right + (part == Part::joint ? 0 : 1);
        hang(limbs(id), right);
    }

    void lay_box_on_rail(ComponentId id, const Chain* by, Rail rail) {
        const int reach = by ? d_.length(*by) : 4;
        const auto x_from = [&] { return std::max(d_.cursor + 3, rail.on ? rail.x + reach : 0); };
        fit(x_from() + blocks_.width(id), rail);
        const int x = x_from();
        if (by) d_.along(*by, d_.page, {rail.on ? rail.x : x - reach, d_.levels.plus});
        blocks_.lay(id, {x, first_way(d_.area)});
    }

    Draft& d_;
    const Tree& tree_;
    Blocks blocks_;
};

} // namespace

void place_columns(Draft& draft) {
    Columns(draft).place();
}

} // namespace fl::arrange
