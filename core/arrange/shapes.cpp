#include "core/arrange/shapes.h"

namespace fl::arrange {

Shapes::Shapes(const plan::Installation& in, BoxForms boxes)
    : in_(in)
    , boxes_(std::move(boxes)) {
    for (const auto& w : in.conductors) ++conductors_[w.from], ++conductors_[w.to];
}

int Shapes::conductors(plan::ComponentId id, std::string_view terminal) const {
    const auto found = conductors_.find({id, std::string(terminal)});
    return found == conductors_.end() ? 0 : found->second;
}

int Shapes::lead_length(plan::ComponentId id, std::string_view terminal) const {
    const int count = conductors(id, terminal);
    // the minus bar of a box with many returns is drawn apart
    return kind(id) == plan::Kind::fuse_box && terminal == "-" ? std::min(count, 2) : count;
}

Area Shapes::way_out(plan::ComponentId id, std::string_view terminal, const Place& place) const {
    const Spike from = pin(id, terminal, place);
    const int count = lead_length(id, terminal), aside = count > 1 ? 2 : 0;
    const Cell near = from.at + step(from.out), far = from.at + step(from.out, std::max(2, count));
    const int dx = level(from.out) ? 0 : aside, dy = level(from.out) ? aside : 0;
    return {std::min(near.x, far.x) - dx, std::min(near.y, far.y) - dy, std::max(near.x, far.x) + dx,
            std::max(near.y, far.y) + dy};
}

const catalogue::SymbolInfo& Shapes::info(plan::ComponentId id) const {
    const auto [at, added] = made_.try_emplace(id);
    if (!added) return at->second;
    const auto& component = *in_.components.find(id);
    const auto form = boxes_.find(id);
    if (form == boxes_.end()) return at->second = catalogue::symbol_for(component);
    catalogue::BoxWays ways;
    for (const int y : form->second.ways) ways.ways_mm.push_back(y * catalogue::grid_mm);
    ways.feed_mm = form->second.feed * catalogue::grid_mm;
    return at->second = catalogue::symbol_for(component, ways);
}

Area Shapes::area(plan::ComponentId id, const Place& place) const {
    if (kind(id) == plan::Kind::busbar) {
        const double mm = place.length * catalogue::grid_mm;
        return arrange::area(catalogue::turned({0, 0, mm, 0}, place.turns, place.mirrored)).at(place.at);
    }
    if (kind(id) == plan::Kind::joint) { // a dot, or a short line for more than three
        const int length = 2 * std::max(0, conductors(id, "1") - 3);
        return {place.at.x, place.at.y, place.at.x + length, place.at.y};
    }
    return arrange::area(catalogue::turned(info(id).box, place.turns, place.mirrored)).at(place.at);
}

Spike Shapes::pin(plan::ComponentId id, std::string_view terminal, const Place& place) const {
    for (const auto& t : info(id).terminals)
        if (t.name == terminal)
            return {cell(catalogue::turned(t.at, place.turns, place.mirrored)) + place.at,
                    catalogue::turned(t.direction, place.turns, place.mirrored)};
    return {place.at, Direction::up};
}

Cell Shapes::origin_for(plan::ComponentId id, std::string_view terminal, Place as, Cell target) const {
    as.at = {};
    return target - pin(id, terminal, as).at;
}

plan::Kind Shapes::kind(plan::ComponentId id) const {
    return in_.components.find(id)->kind();
}

} // namespace fl::arrange
