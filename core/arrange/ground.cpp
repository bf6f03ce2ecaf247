#include "core/arrange/ground.h"

#include <algorithm>

namespace fl::arrange {

std::vector<Ground::Way> Ground::ways_out(plan::ComponentId id, const Place& place) const {
    const auto kind = shapes_.kind(id);
    if (kind == plan::Kind::busbar || kind == plan::Kind::joint)
        return {{shapes_.area(id, place).grown(2), false}};
    std::vector<Way> all;
    for (const auto& t : shapes_.info(id).terminals)
        all.push_back({shapes_.way_out(id, t.name, place), shapes_.conductors(id, t.name) > 1});
    return all;
}

void Ground::take(plan::ComponentId id, const Place& place) {
    taken_.push_back({place.page, shapes_.area(id, place), ways_out(id, place)});
}

bool Ground::free(int page, const Area& box, const std::vector<Way>& ways) const {
    const auto meets = [](const std::vector<Way>& all, const Area& area) {
        return std::any_of(all.begin(), all.end(), [&](const Way& way) { return way.area.meets(area); });
    };
    return std::none_of(taken_.begin(), taken_.end(), [&](const Taken& t) {
        if (t.page != page) return false;
        if (t.box.meets(box.grown(1)) || meets(t.ways_out, box) || meets(ways, t.box)) return true;
        return std::any_of(ways.begin(), ways.end(), [&](const Way& way) {
            return std::any_of(t.ways_out.begin(), t.ways_out.end(), [&](const Way& other) {
                return (way.shared || other.shared) && way.area.meets(other.area);
            });
        });
    });
}

bool Ground::free(int page, const Area& area) const {
    return free(page, area, {});
}

bool Ground::free(plan::ComponentId id, const Place& place) const {
    if (place.page < 0 || place.page >= pages()) return false;
    const Area box = shapes_.area(id, place), &all = page(place.page);
    if (box.left < all.left || box.top < all.top || box.right > all.right || box.bottom > all.bottom)
        return false;
    // what is joined to a terminal must find a way within the frame
    const Area lines{all.left - 1, all.top - 3, all.right, all.bottom + 1};
    for (const auto& t : shapes_.info(id).terminals) {
        const int count = shapes_.lead_length(id, t.name);
        const Spike pin = shapes_.pin(id, t.name, place);
        if (count > 0 && !lines.holds(pin.at + step(pin.out, count))) return false;
    }
    return free(place.page, box, ways_out(id, place));
}

std::optional<Place> Ground::nearest(plan::ComponentId id, Place place) const {
    if (place.page < 0 || place.page >= pages()) return {};
    const Cell ideal = place.at;
    const Area& all = page(place.page);
    const int most = all.right - all.left + all.bottom - all.top;
    // rings of equal distance, each walked from below: what had to move goes down rather than up
    for (int ring = 0; ring <= most; ++ring)
        for (int dy = ring; dy >= -ring; --dy)
            for (const int dx : {std::abs(dy) - ring, ring - std::abs(dy)}) {
                place.at = ideal + Cell{dx, dy};
                if (all.grown(20).holds(place.at) && free(id, place)) return place;
                if (dx == 0) break;
            }
    return {};
}

} // namespace fl::arrange
