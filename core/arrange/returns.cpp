#include "core/arrange/draft.h"

#include <algorithm>
#include <optional>

namespace fl::arrange {
namespace {

using plan::ComponentId;
using plan::Kind;

class Returns {
public:
    explicit Returns(Draft& draft)
        : d_(draft) {}

    void place() {
        for (const auto& c : d_.in.components)
            if (c.kind() == Kind::busbar && !d_.placed(c.id)) place_bar(c.id);
        // each further part next to one that stands already
        for (bool again = true; again;) {
            again = false;
            for (const auto& c : d_.in.components)
                if (!d_.placed(c.id) && !d_.chains.in_series(c.id)) again = place_at_partner(c) || again;
        }
        for (const Chain& c : d_.chains.all)
            if (c.side == Side::minus && !c.hops.empty()) place_devices(c);
    }

private:
    /// The minus chains of a part, each running to it.
    std::vector<Chain> chains_to(ComponentId id) const {
        std::vector<Chain> all;
        const auto found = d_.chains.at.find(id);
        if (found == d_.chains.at.end()) return all;
        for (const int i : found->second) {
            const Chain& c = d_.chains.all[static_cast<std::size_t>(i)];
            if (c.side == Side::minus && c.from.component != c.to.component)
                all.push_back(c.to.component == id ? c : c.reversed());
        }
        return all;
    }
    bool is_bar(ComponentId id) const { return d_.shapes.kind(id) == Kind::busbar; }
    const Place& place_of(ComponentId id) const { return d_.places.at(id); }
    /// Where a chain leaves a part that has a place; of a bar, where it lies above or below `x`.
    Spike end(const plan::TerminalRef& at) const {
        return d_.shapes.pin(at.component, at.terminal, place_of(at.component));
    }

    int reach(const Chain& c) const { return c.hops.empty() ? d_.room(c, 0, 1) : d_.length(c); }

    /// A minus bar runs below what it collects; the returns of a box's loads stand at the right end of its
    /// rows.
    void place_bar(ComponentId id) {
        std::map<int, std::vector<int>> by_page;
        std::map<ComponentId, std::vector<Cell>> rows;
        int others = 0;
        for (const Chain& c : chains_to(id)) {
            if (!d_.placed(c.from.component) || is_bar(c.from.component)) continue;
            const Spike from = end(c.from);
            by_page[place_of(c.from.component).page].push_back(from.at.x);
            if (const auto owner = place_of(c.from.component).owner; owner && from.out == Direction::right)
                rows[owner].push_back(from.at + Cell{reach(c), 0});
            else
                ++others;
        }
        if (by_page.empty()) return;
        for (const auto& [box, ends] : rows)
            if (static_cast<int>(ends.size()) >= std::max(2, others)) {
                Cell top = ends.front();
                for (const Cell c : ends) top = {std::max(top.x, c.x), std::min(top.y, c.y)};
                Place place = place_on(place_of(box).page, top - Cell{0, 1}, 1, false, box);
                d_.places.emplace(id, place);
                return;
            }
        const auto most = std::max_element(by_page.begin(), by_page.end(), [](const auto& a, const auto& b) {
            return a.second.size() < b.second.size();
        });
        const int lower = bars_[most->first]++, y = d_.levels.minus - 8 * lower;
        d_.places.emplace(id, place_on(most->first, {clear_of_boxes(most->first, most->second, y) - 1, y}));
    }

    /// Where a bar begins that lies below these columns; not through a box that reaches down to it.
    int clear_of_boxes(int page, const std::vector<int>& columns, int y) const {
        const auto [least, greatest] = std::minmax_element(columns.begin(), columns.end());
        int left = *least;
        for (const auto& [id, place] : d_.places) {
            if (place.page != page || d_.shapes.kind(id) != Kind::fuse_box) continue;
            const Area box = d_.shapes.area(id, place).grown(2);
            if (box.bottom < y || box.right < left || box.left > *greatest) continue;
            const auto before =
                std::count_if(columns.begin(), columns.end(), [&](int x) { return x < box.left; });
            if (2 * before < static_cast<std::ptrdiff_t>(columns.size())) left = box.right + 1;
        }
        return left;
    }

    bool place_at_partner(const plan::Component& c) {
        for (const Chain& chain : chains_to(c.id)) {
            if (!d_.placed(chain.from.component)) continue;
            Place place = place_on(place_of(chain.from.component).page, {});
            const Spike from = end(chain.from);
            const int devices = d_.devices_length(chain) + upright_room * static_cast<int>(chain.hops.size());
            if (c.kind() == Kind::earth_point) {
                place_earth(c.id, chain, place, from);
            } else if (is_bar(c.id)) {
                place.at = {from.at.x - 1, std::max(from.at.y + devices + 6, d_.levels.minus)};
                d_.places.emplace(c.id, place);
            } else {
                const Cell target = from.at + step(from.out, devices + 6);
                place.at = d_.shapes.origin_for(c.id, chain.to.terminal, place, target);
                d_.places.emplace(c.id, place);
            }
            return true;
        }
        return false;
    }

    /// Where a box gathers the returns of its own minus bar; far left when it has none.
    int collector(ComponentId box) const {
        return d_.shapes.conductors(box, "-") > 1 && d_.rail_x.contains(box) ? d_.rail_x.at(box) : 0;
    }

    /// Body points stand in a row at the bottom; that of a load in a row stands at its end.
    void place_earth(ComponentId id, const Chain& chain, Place place, Spike from) {
        const auto owner = place_of(chain.from.component).owner;
        const bool alone = chains_to(id).size() == 1;
        Cell at{from.at.x, d_.levels.body};
        if (is_bar(chain.from.component)) {
            at.x = place_of(chain.from.component).at.x + 3 + 8 * below_bar_[chain.from.component]++;
        } else if (owner && from.out == Direction::right) {
            place.owner = owner;
            at = alone ? from.at + Cell{reach(chain), 2}
                       : Cell{std::max(from.at.x + reach(chain), collector(owner) + 3), d_.levels.body};
        } else if (d_.rail_x.contains(chain.from.component)) {
            at.x = d_.rail_x.at(chain.from.component);
        } else if (level(from.out)) {
            at.x = from.at.x + step(from.out, 3).x;
        }
        place.at = at;
        d_.places.emplace(id, place);
    }

    void place_devices(const Chain& chain) {
        if (!d_.placed(chain.from.component) || !d_.placed(chain.to.component)) return;
        const Place &a = place_of(chain.from.component), &b = place_of(chain.to.component);
        if (a.page != b.page) return;
        const bool bar_a = is_bar(chain.from.component), bar_b = is_bar(chain.to.component);
        if (bar_a && !bar_b) return place_devices(chain.reversed());
        if (bar_a) return;
        const Spike from = end(chain.from);
        Spike to = end(chain.to);
        if (bar_b && b.turns == 0) to.at = {from.at.x, b.at.y};
        if (bar_b && b.turns == 1) to.at = {b.at.x, from.at.y};
        if (from.at.x == to.at.x && from.out == Direction::down && to.at.y > from.at.y)
            d_.down(chain, a.page, from.at, to.at.y);
        else if (from.at.x == to.at.x && from.out == Direction::up && to.at.y < from.at.y)
            d_.down(chain.reversed(), a.page, to.at, from.at.y);
        else if (from.out == Direction::right && to.at.x > from.at.x)
            d_.along(chain, a.page, from.at);
        if (a.owner)
            for (const Hop& hop : chain.hops)
                if (d_.placed(hop.device)) d_.places.at(hop.device).owner = a.owner;
    }

    Draft& d_;
    std::map<int, int> bars_;
    std::map<ComponentId, int> below_bar_;
};

} // namespace

void place_returns(Draft& draft) {
    Returns(draft).place();
}

} // namespace fl::arrange
