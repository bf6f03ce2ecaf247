#include "core/arrange/draft.h"

#include "core/arrange/captions.h"

namespace fl::arrange {
namespace {

/// The end of a device that lies on its left when it is drawn as in the table.
bool enters_left(const Hop& hop) {
    return hop.in == "1" || hop.in == "battery" || hop.in == "30";
}

} // namespace

int Draft::span(plan::ComponentId device) const {
    const Area a = shapes.area(device, {});
    return a.right - a.left;
}

int Draft::devices_length(const Chain& chain) const {
    int sum = 0;
    for (const Hop& hop : chain.hops) sum += span(hop.device);
    return sum;
}

int Draft::room(const Chain& chain, std::size_t conductor, int rows) const {
    return level_steps(in, *in.conductors.find(chain.conductors[conductor]), chain.side, rows);
}

/// The longest conductor of a chain gets more room than its label needs in three rows, the others just that:
/// so a device stands near the end it is near to. Where nothing is known the first is the short one.
int Draft::stretch(const Chain& chain, std::size_t conductor) const {
    std::size_t longest = chain.conductors.size() - 1;
    for (std::size_t i = chain.conductors.size(); i-- > 0;)
        if (metres(chain.conductors[i]) > metres(chain.conductors[longest])) longest = i;
    const int three = room(chain, conductor, 3);
    return conductor == longest ? std::min(room(chain, conductor, 2), three + 3) : three;
}

double Draft::metres(plan::ConductorId id) const {
    const auto length = plan::length_of(in, *in.conductors.find(id));
    return length ? length->si() : 0;
}

int Draft::length(const Chain& chain) const {
    int sum = devices_length(chain);
    for (std::size_t i = 0; i < chain.conductors.size(); ++i) sum += stretch(chain, i);
    return sum;
}

void Draft::along(const Chain& chain, int on_page, Cell from, bool leftwards) {
    int x = from.x;
    std::size_t next = 0;
    const int way = leftwards ? -1 : 1;
    for (const Hop& hop : chain.hops) {
        const bool mirrored = enters_left(hop) == leftwards;
        x += way * stretch(chain, next++);
        Place place = place_on(on_page, {}, 0, mirrored);
        place.at = shapes.origin_for(hop.device, hop.in, place, {x, from.y});
        places.try_emplace(hop.device, place);
        x += way * span(hop.device);
    }
}

void Draft::down(const Chain& chain, int on_page, Cell from, int y_end) {
    const int stretches = static_cast<int>(chain.hops.size()) + 1;
    const int each = std::clamp((y_end - from.y - devices_length(chain)) / stretches, 2, upright_room);
    int y = from.y;
    y += std::clamp(y_end - y - devices_length(chain) - each * stretches, 0, hang_room);
    for (const Hop& hop : chain.hops) {
        y += each;
        Place place = place_on(on_page, {}, 1, !enters_left(hop));
        place.at = shapes.origin_for(hop.device, hop.in, place, {from.x, y});
        places.try_emplace(hop.device, place);
        y += span(hop.device);
    }
}

std::optional<Spike> Draft::neighbour(plan::ComponentId id, const Chain& chain, int on_page) const {
    const Chain out = chain.from.component == id ? chain : chain.reversed();
    const auto next =
        out.hops.empty() ? out.to : plan::TerminalRef{out.hops.front().device, out.hops.front().in};
    const auto found = places.find(next.component);
    if (found == places.end() || found->second.page != on_page) return {};
    return shapes.pin(next.component, next.terminal, found->second);
}

namespace {

/// How long a level bar may grow before it runs into a fuse box with its rows.
int up_to_box(const Draft& d, const Place& bar, int length) {
    for (const auto& [id, place] : d.places) {
        if (place.page != bar.page || d.shapes.kind(id) != plan::Kind::fuse_box) continue;
        const Area box = d.shapes.area(id, place).grown(2);
        if (box.top <= bar.at.y && box.bottom >= bar.at.y && box.left > bar.at.x)
            length = std::min(length, box.left - bar.at.x);
    }
    return length;
}

} // namespace

void measure_bars(Draft& d) {
    for (auto& [id, place] : d.places) {
        if (d.shapes.kind(id) != plan::Kind::busbar) continue;
        const auto at = d.chains.at.find(id);
        int length = 4;
        if (at != d.chains.at.end()) length = std::max(length, static_cast<int>(at->second.size()) + 2);
        if (at != d.chains.at.end())
            for (const int i : at->second)
                if (const auto next =
                        d.neighbour(id, d.chains.all[static_cast<std::size_t>(i)], place.page)) {
                    if (level(next->out) == (place.turns == 1)) // beside the bar, not beyond its end
                        length = std::max(length, place.turns == 1 ? next->at.y - place.at.y + 1
                                                                   : next->at.x - place.at.x + 1);
                }
        place.length = place.turns == 0 ? up_to_box(d, place, length) : length;
    }
}

int Draft::upright_length(const Chain& chain) const {
    return devices_length(chain) + upright_room * static_cast<int>(chain.conductors.size()) + hang_room;
}

bool Draft::fit(int right) {
    if (right <= area.right || cursor <= area.left) return false;
    ++page;
    cursor = area.left;
    return true;
}

std::vector<Limb> Draft::limbs(const Tree& order, plan::ComponentId id) const {
    std::vector<Limb> all;
    const auto found = order.below.find(id);
    if (found == order.below.end()) return all;
    for (const Branch& b : found->second) {
        const Chain& c = chains.all[static_cast<std::size_t>(b.chain)];
        all.push_back({b.reversed ? c.reversed() : c, b.child});
    }
    return all;
}

} // namespace fl::arrange
