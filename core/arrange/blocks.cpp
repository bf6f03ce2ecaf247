#include "core/arrange/blocks.h"

#include <algorithm>

namespace fl::arrange {
namespace {

using plan::ComponentId;

constexpr int between_boxes = 8; // the lower one's name, the upper one's way out of its minus

} // namespace

int Blocks::row_reach(ComponentId id) const {
    int reach = 0;
    for (const Limb& l : d_.limbs(tree_, id))
        reach = std::max(reach, l.chain.hops.empty() ? d_.room(l.chain, 0, 2) : d_.length(l.chain));
    return in_leaps(reach, row_room);
}

int Blocks::return_reach(ComponentId id) const {
    int reach = 0;
    for (const Limb& l : d_.limbs(tree_, id))
        if (const auto found = d_.chains.at.find(l.child); found != d_.chains.at.end())
            for (const int i : found->second) {
                const Chain& c = d_.chains.all[static_cast<std::size_t>(i)];
                if (c.side == Side::minus)
                    reach = std::max(reach, c.hops.empty() ? d_.room(c, 0, 1) : d_.length(c));
            }
    return in_leaps(reach, return_room);
}

/// The levels of the boxes that share a page from this one on: the first near the top, the others so that
/// the last has room for all its ways above the bottom. So none moves when another gets a circuit.
std::vector<int> Blocks::heads(const std::vector<Limb>& boxes, std::size_t from) const {
    const int top = first_way(d_.area);
    std::vector<int> levels{top};
    for (std::size_t n = boxes.size(); n > from + 1; --n) {
        std::vector<int> below;
        int floor = d_.area.bottom - 1;
        for (std::size_t k = n; k-- > from + 1;) {
            below.push_back(floor - d_.shapes.box(boxes[k].child).full);
            floor = below.back() - between_boxes;
        }
        if (floor < top + d_.shapes.box(boxes[from].child).end) continue;
        levels.insert(levels.end(), below.rbegin(), below.rend());
        break;
    }
    return levels;
}

void Blocks::below_bar(const std::vector<Limb>& boxes, int bar_x) {
    for (std::size_t i = 0; i < boxes.size();) {
        const auto levels = heads(boxes, i);
        const std::size_t n = i + levels.size();
        int wide = 0;
        for (std::size_t k = i; k < n; ++k) wide = std::max(wide, width(boxes[k].child));
        const int feeds = static_cast<int>(levels.size());
        wide += 2 * (feeds - 1); // an upper box's returns come down outside a lower one's
        const auto x_from = [&] {
            return d_.cursor <= d_.area.left ? d_.area.left + 12 : std::max(d_.cursor + 5, bar_x + 1);
        };
        d_.fit(x_from() + 8 * (feeds - 1) + 3 + wide - 1);
        const int x = x_from(), box_x = x + 8 * (feeds - 1) + 3;
        for (std::size_t k = i; k < n; ++k) {
            // the lowest box takes the leftmost line, so that none crosses another
            const int feed = x + 8 * static_cast<int>(n - 1 - k);
            if (d_.placed(boxes[k].child)) continue;
            const int head = levels[k - i], enters = head + d_.shapes.box(boxes[k].child).feed;
            d_.down(boxes[k].chain, d_.page, {feed, d_.levels.plus}, enters + 4);
            lay(boxes[k].child, {box_x, head});
        }
        i = n;
    }
}

void Blocks::lay(ComponentId id, Cell at) {
    Place place = place_on(d_.page, at);
    const BoxForm& form = d_.shapes.box(id);
    const int way_x = d_.shapes.area(id, place).right, reach = row_reach(id);
    place.rail = way_x + reach + 6 + return_reach(id) - at.x;
    d_.places.emplace(id, place);
    std::map<std::string, int> rows; // of each way so far
    for (const Limb& l : d_.limbs(tree_, id)) {
        const Spike way = d_.shapes.pin(id, l.chain.from.terminal, place);
        // what else hangs on a way stands in rows of its own below the first
        int& row = rows[l.chain.from.terminal];
        if (!d_.placed(l.child)) in_row(l, {way_x, way.at.y + form.pitch * row}, reach, id, form.pitch);
        row += rows_of(tree_, l.child);
    }
    d_.rail_x[id] = at.x + place.rail;
    d_.cursor = std::max(d_.cursor, d_.rail_x[id] + 1);
}

/// A load, or what leads on to several, at the end of a level line.
void Blocks::in_row(const Limb& l, Cell from, int reach, ComponentId owner, int pitch) {
    Place place = place_on(d_.page, {}, 0, false, owner);
    if (d_.shapes.pin(l.child, l.chain.to.terminal, place).out == Direction::right) place.mirrored = true;
    place.at = d_.shapes.origin_for(l.child, l.chain.to.terminal, place, {from.x + reach, from.y});
    d_.places.emplace(l.child, place);
    d_.along(l.chain, d_.page, from);
    for (const Hop& hop : l.chain.hops) d_.places.at(hop.device).owner = owner;
    const int right = d_.shapes.area(l.child, place).right;
    int row = 0;
    for (const Limb& next : d_.limbs(tree_, l.child)) {
        if (!d_.placed(next.child))
            in_row(next, {right, from.y + pitch * row}, d_.length(next.chain), owner, pitch);
        row += rows_of(tree_, next.child);
    }
}

} // namespace fl::arrange
