#include "core/arrange/blocks.h"

#include <algorithm>
#include <set>

namespace fl::arrange {
namespace {

using plan::ComponentId;

constexpr int usual_pitch = 7; // symbols.json: 17.5 mm
constexpr int foot = 4;        // below the last way: the box's end, and a way out of its minus

} // namespace

int Blocks::gaps(ComponentId id) const {
    const auto* box = std::get_if<plan::FuseBox>(&d_.in.components.find(id)->with);
    return box && box->ways.size() > 1 ? static_cast<int>(box->ways.size()) - 1 : 0;
}

/// Steps between the ways of a box whose first stands at y.
int Blocks::pitch(ComponentId id, int y) const {
    const auto steps = catalogue::symbol_pitch(*d_.in.components.find(id));
    const int least = static_cast<int>(steps.least_mm / catalogue::grid_mm);
    return std::clamp((d_.area.bottom - foot - y) / std::max(1, gaps(id)), least, usual_pitch);
}

int Blocks::head_level(ComponentId id) const {
    return std::clamp(d_.area.bottom - foot - usual_pitch * gaps(id), d_.area.top + 4, d_.levels.plus);
}

/// The same for a box that hangs from a bar: its feed gives way before its rows do.
int Blocks::head_below_bar(const Limb& box) const {
    const int wanted = d_.levels.plus + d_.upright_length(box.chain) - 4;
    const int tight =
        d_.levels.plus + d_.devices_length(box.chain) + 3 * static_cast<int>(box.chain.conductors.size());
    return std::clamp(d_.area.bottom - foot - usual_pitch * gaps(box.child), std::min(tight, wanted), wanted);
}

int Blocks::row_reach(ComponentId id) const {
    int reach = short_room;
    for (const Limb& l : d_.limbs(tree_, id)) reach = std::max(reach, d_.length(l.chain));
    return reach;
}

int Blocks::return_reach(ComponentId id) const {
    int reach = return_room;
    for (const Limb& l : d_.limbs(tree_, id))
        if (const auto found = d_.chains.at.find(l.child); found != d_.chains.at.end())
            for (const int i : found->second) {
                const Chain& c = d_.chains.all[static_cast<std::size_t>(i)];
                if (c.side == Side::minus)
                    reach = std::max(reach, c.hops.empty() ? d_.room(c, 0, 1) : d_.length(c));
            }
    return reach;
}

void Blocks::below_bar(const std::vector<Limb>& boxes, int bar_x) {
    for (std::size_t i = 0; i < boxes.size();) {
        std::size_t n = i;
        int y = d_.levels.plus, wide = 0;
        std::vector<int> heads;
        for (; n < boxes.size(); ++n) {
            const ComponentId id = boxes[n].child;
            const int head = std::max(y, head_below_bar(boxes[n]));
            const int rows = gaps(id) * (n == i ? pitch(id, head) : usual_pitch);
            if (n > i && head + rows + foot > d_.area.bottom) break;
            heads.push_back(head);
            y = head + rows + 3 + 8;
            wide = std::max(wide, width(id));
        }
        const int feeds = static_cast<int>(n - i);
        wide += 2 * (feeds - 1); // an upper box's returns come down outside a lower one's
        const auto x_from = [&] {
            return d_.cursor <= d_.area.left ? d_.area.left + 10 : std::max(d_.cursor + 7, bar_x + 1);
        };
        d_.fit(x_from() + 8 * (feeds - 1) + 3 + wide - 1);
        const int x = x_from(), box_x = x + 8 * (feeds - 1) + 3;
        for (std::size_t k = i; k < n; ++k) {
            // the lowest box takes the leftmost line, so that none crosses another
            const int feed = x + 8 * static_cast<int>(n - 1 - k);
            if (d_.placed(boxes[k].child)) continue;
            d_.down(boxes[k].chain, d_.page, {feed, d_.levels.plus}, heads[k - i] + 4);
            lay(boxes[k].child, {box_x, heads[k - i]});
        }
        i = n;
    }
}

void Blocks::lay(ComponentId id, Cell at) {
    Place place = place_on(d_.page, at);
    place.pitch_mm = pitch(id, at.y) * catalogue::grid_mm;
    d_.places.emplace(id, place);
    const int way_x = d_.shapes.area(id, place).right, reach = row_reach(id);
    std::set<std::string> taken;
    int further = at.y + pitch(id, at.y) * gaps(id);
    for (const Limb& l : d_.limbs(tree_, id)) {
        if (d_.placed(l.child)) continue;
        const Spike way = d_.shapes.pin(id, l.chain.from.terminal, place);
        // what else hangs on a way stands in a row of its own below them all
        const bool first = taken.insert(l.chain.from.terminal).second;
        in_row(l, {way_x, first ? way.at.y : further += usual_pitch}, reach, id);
    }
    d_.rail_x[id] = way_x + reach + 6 + return_reach(id);
    d_.cursor = std::max(d_.cursor, d_.rail_x[id] + 1);
}

/// A load, or what leads on to several, at the end of a level line.
void Blocks::in_row(const Limb& l, Cell from, int reach, ComponentId owner) {
    Place place = place_on(d_.page, {}, 0, false, owner);
    if (d_.shapes.pin(l.child, l.chain.to.terminal, place).out == Direction::right) place.mirrored = true;
    place.at = d_.shapes.origin_for(l.child, l.chain.to.terminal, place, {from.x + reach, from.y});
    d_.places.emplace(l.child, place);
    d_.along(l.chain, d_.page, from);
    for (const Hop& hop : l.chain.hops) d_.places.at(hop.device).owner = owner;
    const int right = d_.shapes.area(l.child, place).right;
    int row = 0;
    for (const Limb& next : d_.limbs(tree_, l.child))
        if (!d_.placed(next.child))
            in_row(next, {right, from.y + usual_pitch * row++}, d_.length(next.chain), owner);
}

} // namespace fl::arrange
