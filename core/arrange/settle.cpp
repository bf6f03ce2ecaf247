#include "core/arrange/settle.h"

#include "core/arrange/tree.h"

namespace fl::arrange {
namespace {

using plan::ComponentId;

class Settler {
public:
    Settler(const plan::Installation& in, const Chains& chains, const Shapes& shapes, const Places& draft)
        : in_(in)
        , chains_(chains)
        , shapes_(shapes)
        , draft_(draft)
        , ground_(shapes, {}) {}

    Settled settle() {
        for (const auto& sheet : in_.sheets) add_page(page_of(sheet.id, sheet.size));
        if (out_.pages.empty()) add_page(page_of({}, "A3"));
        hands();
        for (const auto& c : in_.components)
            if (!standing(c.id) && !chains_.in_series(c.id) && draft_.contains(c.id)) main_part(c.id);
        for (const bool between_devices : {false, true})
            for (const Chain& c : chains_.all)
                if ((chains_.in_series(c.from.component) || chains_.in_series(c.to.component)) ==
                    between_devices)
                    devices(c);
        for (const auto& c : in_.components) // what no line could take
            if (!standing(c.id)) stand(c.id, place_on(0, corner()));
        return std::move(out_);
    }

private:
    bool standing(ComponentId id) const { return out_.places.contains(id); }

    Cell corner() const { return {ground_.page(0).left + 8, ground_.page(0).top + 8}; }

    void add_page(const Page& page) {
        out_.pages.push_back(page);
        ground_.add_page(drawing_area(page));
    }

    void hands() {
        for (const auto& spot : in_.spots) {
            if (standing(spot.component) || !in_.components.find(spot.component)) continue;
            Place place = place_on(0, cell(spot.at), spot.quarter_turns, spot.mirrored);
            for (std::size_t i = 0; i < out_.pages.size(); ++i)
                if (out_.pages[i].sheet == spot.sheet) place.page = static_cast<int>(i);
            if (const auto drafted = draft_.find(spot.component); drafted != draft_.end())
                place.length = drafted->second.length, place.rail = drafted->second.rail;
            out_.by_hand.insert(spot.component);
            out_.places.emplace(spot.component, place);
            ground_.take(spot.component, place);
        }
    }

    /// Takes the nearest free place, on a further page when there is none.
    void stand(ComponentId id, Place place) {
        while (place.page >= ground_.pages()) add_page(page_of({}, "A3"));
        for (;; ++place.page) {
            if (place.page >= ground_.pages()) add_page(page_of({}, "A3"));
            if (const auto found = ground_.nearest(id, place)) {
                place = *found;
                break;
            }
            // larger than any paper: it overhangs a page of its own
            if (const bool empty =
                    place.page + 1 == ground_.pages() && ground_.free(place.page, ground_.page(place.page));
                empty) {
                const Area& all = ground_.page(place.page);
                const Area box = shapes_.area(id, place);
                place.at = place.at + Cell{all.left - box.left, all.top - box.top};
                break;
            }
        }
        out_.places.emplace(id, place);
        ground_.take(id, place);
    }

    /// How far a part stands from its draft: what belongs to it goes along.
    Cell shift(ComponentId id) const {
        return standing(id) && draft_.contains(id) ? out_.places.at(id).at - draft_.at(id).at : Cell{};
    }

    void main_part(ComponentId id) {
        Place place = draft_.at(id);
        if (place.owner && !standing(place.owner)) main_part(place.owner);
        if (place.owner && standing(place.owner)) {
            place.at = place.at + shift(place.owner);
            place.page = out_.places.at(place.owner).page;
        }
        stand(id, place);
    }

    bool as_drafted(ComponentId id) const {
        const auto drafted = draft_.find(id);
        const Place& now = out_.places.at(id);
        return drafted != draft_.end() && drafted->second.turns == now.turns &&
               drafted->second.mirrored == now.mirrored;
    }

    /// The end whose shift the devices of a chain follow; nothing when its ends moved apart.
    std::optional<ComponentId> leading_end(const Chain& c) const {
        const ComponentId a = c.from.component, b = c.to.component;
        if (!standing(a) || !standing(b) || !as_drafted(a) || !as_drafted(b)) return {};
        const bool drafted = std::all_of(c.hops.begin(), c.hops.end(), [&](const Hop& hop) {
            return draft_.contains(hop.device) && !standing(hop.device);
        });
        if (!drafted) return {};
        const int page_a = out_.places.at(a).page, page_b = out_.places.at(b).page;
        const bool moved_by_hand = out_.by_hand.contains(a) || out_.by_hand.contains(b);
        if (page_a == page_b && shift(a) == shift(b)) return a;
        if (moved_by_hand) return {};
        // one had to give way a little: with the source; on two pages: with the end they were drafted beside
        if (page_a == page_b) return rank(b) < rank(a) ? b : a;
        return draft_.at(c.hops.front().device).page == draft_.at(a).page ? a : b;
    }

    void devices(const Chain& c) {
        if (c.hops.empty()) return;
        const auto leader = leading_end(c);
        if (!leader) return on_line(rank(c.to.component) < rank(c.from.component) ? c.reversed() : c);
        for (const Hop& hop : c.hops) {
            Place place = draft_.at(hop.device);
            place.at = place.at + shift(*leader);
            place.page = out_.places.at(*leader).page;
            stand(hop.device, place);
        }
    }
    /// Sources before what they feed.
    int rank(ComponentId id) const {
        static constexpr int order[] = {0, 5, 4, 3, 1, 2, 6}; // of Part
        return order[static_cast<std::size_t>(part_of(*in_.components.find(id)))];
    }

    /// Where a chain leaves a part, towards `aim`.
    std::optional<Spike> start(const plan::TerminalRef& at, Cell aim) const {
        if (!standing(at.component)) return {};
        const Place& place = out_.places.at(at.component);
        if (shapes_.kind(at.component) != plan::Kind::busbar) {
            const Spike pin = shapes_.pin(at.component, at.terminal, place);
            const int shared = shapes_.conductors(at.component, at.terminal);
            if (shared < 2) return pin;
            // beside the lead that it shares with others
            const Cell from = pin.at + step(pin.out, std::max(2, shared));
            if (level(pin.out)) return Spike{from, aim.y < from.y ? Direction::up : Direction::down};
            return Spike{from, aim.x < from.x ? Direction::left : Direction::right};
        }
        Area box = shapes_.area(at.component, place);
        (box.top == box.bottom ? box.right : box.bottom) += 8; // it grows to what is joined to it
        const Cell on{std::clamp(aim.x, box.left, box.right), std::clamp(aim.y, box.top, box.bottom)};
        if (box.top == box.bottom) return Spike{on, aim.y < on.y ? Direction::up : Direction::down};
        return Spike{on, aim.x < on.x ? Direction::left : Direction::right};
    }

    /// Sets each device in line with the one before it, near the end the chain begins at.
    void on_line(const Chain& c) {
        int page = standing(c.from.component) ? out_.places.at(c.from.component).page : 0;
        const bool here = standing(c.to.component) && out_.places.at(c.to.component).page == page;
        // on another page: off beyond the end of a bar
        auto now = start(c.from, here ? out_.places.at(c.to.component).at : Cell{1 << 12, 1 << 12});
        for (const Hop& hop : c.hops) {
            if (standing(hop.device)) {
                page = out_.places.at(hop.device).page;
                now = shapes_.pin(hop.device, hop.out, out_.places.at(hop.device));
                continue;
            }
            if (!now) { // nothing before it stands: begin where its own draft says
                const auto drafted = draft_.find(hop.device);
                stand(hop.device, drafted == draft_.end() ? place_on(page, corner()) : drafted->second);
            } else {
                stand(hop.device, in_line(hop, *now, page));
            }
            page = out_.places.at(hop.device).page;
            now = shapes_.pin(hop.device, hop.out, out_.places.at(hop.device));
        }
    }

    Place in_line(const Hop& hop, const Spike& from, int page) const {
        const auto at = [&](int room) {
            Place place = place_on(page, {}, level(from.out) ? 0 : 1, false);
            if (shapes_.pin(hop.device, hop.in, place).out != catalogue::opposite(from.out))
                place.mirrored = true;
            place.at = shapes_.origin_for(hop.device, hop.in, place, from.at + step(from.out, room));
            return place;
        };
        for (int room = short_room; room >= 2; --room)
            if (ground_.free(hop.device, at(room))) return at(room);
        for (int room = short_room + 1; room <= 24; ++room)
            if (ground_.free(hop.device, at(room))) return at(room);
        return at(short_room);
    }

    const plan::Installation& in_;
    const Chains& chains_;
    const Shapes& shapes_;
    const Places& draft_;
    Ground ground_;
    Settled out_;
};

} // namespace

Settled settle(const plan::Installation& in, const Chains& chains, const Shapes& shapes,
               const Places& draft) {
    return Settler(in, chains, shapes, draft).settle();
}

} // namespace fl::arrange
