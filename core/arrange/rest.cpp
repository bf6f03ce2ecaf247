#include "core/arrange/draft.h"

#include <algorithm>

namespace fl::arrange {
namespace {

using plan::ComponentId;

/// What stands on a page, what must stay open before its terminals, and the upright lines that will run down.
struct Taken {
    std::vector<Area> symbols, lines, captions; ///< captions: the room to the right of symbols
};
Taken taken(const Draft& d, int page) {
    Taken all;
    for (const auto& [id, place] : d.places) {
        if (place.page != page) continue;
        Area box = d.shapes.area(id, place);
        all.symbols.push_back(box.grown(1));
        constexpr int caption_steps = 9; // a word or two
        box.right += caption_steps;
        all.captions.push_back(box);
        for (const auto& t : d.shapes.info(id).terminals) {
            const Spike pin = d.shapes.pin(id, t.name, place);
            if (!d.chains.at.contains(id)) continue;
            const Cell end =
                pin.out == Direction::down ? Cell{pin.at.x, d.levels.body} : pin.at + step(pin.out, 3);
            all.lines.push_back(Area{std::min(pin.at.x, end.x), std::min(pin.at.y, end.y),
                                     std::max(pin.at.x, end.x), std::max(pin.at.y, end.y)}
                                    .grown(1));
        }
    }
    return all;
}

bool meets(const std::vector<Area>& all, const Area& area) {
    return std::any_of(all.begin(), all.end(), [&](const Area& one) { return one.meets(area); });
}

/// A signal point stands left of what it tells and below it, its devices in line, its line clear of symbols.
void place_signal(Draft& d, const Chain& chain) {
    const ComponentId id = chain.from.component;
    const Spike to = d.shapes.pin(chain.to.component, chain.to.terminal, d.places.at(chain.to.component));
    const int page = d.places.at(chain.to.component).page, length = d.length(chain);
    const Taken obstacles = taken(d, page);
    // `more`: steps that the point stands farther from its first device than that stretch's label asks for.
    const auto set_at = [&](Draft& on, Cell from, int more) {
        Place place = place_on(page, {});
        place.at = d.shapes.origin_for(id, chain.from.terminal, place, from + Cell{-more, 0});
        on.places.emplace(id, place);
        on.along(chain, page, from);
    };
    // the same from the origin, once: a candidate only shifts it
    Draft trial(d.in, d.chains, d.tree, d.shapes, d.area);
    set_at(trial, {}, 0);
    std::vector<std::pair<Area, bool>> boxes; // true: the point itself
    for (const auto& [part, place] : trial.places) boxes.emplace_back(d.shapes.area(part, place), part == id);
    const int stretch = d.stretch(chain, 0);
    // Upright lines across the first stretch must leave its label's room at one side of them.
    const auto labelled = [&](Cell from, int more) {
        if (chain.hops.empty()) return true;
        constexpr int label_steps = 6; // three rows of text
        // what is kept off a line is one step wider than it
        const int end = from.x + stretch, wanted = stretch - 1;
        int run = 0;
        for (int x = from.x - more; x <= end && run < wanted; ++x) {
            const Area column{x, from.y - label_steps, x, from.y};
            run = meets(obstacles.lines, column) || meets(obstacles.captions, column) ? 0 : run + 1;
        }
        return run >= wanted;
    };
    const auto fits = [&](Cell from, int more) {
        if (meets(obstacles.symbols, {from.x - more, from.y, to.at.x, from.y})) return false;
        return std::all_of(boxes.begin(), boxes.end(), [&](const auto& one) {
            const Area box = one.first.at(one.second ? from + Cell{-more, 0} : from);
            return box.left >= d.area.left && box.bottom <= d.area.bottom && !meets(obstacles.symbols, box) &&
                   !meets(obstacles.lines, one.second ? box.grown(1) : box);
        });
    };
    const Cell nearest = to.at + Cell{-1 - length, 5};
    for (const bool with_label : {true, false})
        for (int far = 0; far < 80; ++far)
            for (int left = 0; left <= far; ++left)
                for (int more = 0; more <= (with_label && !chain.hops.empty() ? 10 : 0); more += 2) {
                    const Cell from = nearest + Cell{-left, far - left};
                    if (fits(from, more) && (!with_label || labelled(from, more)))
                        return set_at(d, from, more);
                }
    set_at(d, nearest, 0);
}

} // namespace

void place_rest(Draft& d) {
    for (const Chain& c : d.chains.all) {
        if (c.side != Side::signal) continue;
        for (const Chain& chain : {c, c.reversed()})
            if (!d.placed(chain.from.component) && d.placed(chain.to.component) &&
                !d.chains.in_series(chain.from.component))
                place_signal(d, chain);
    }
    // what is joined to nothing waits below, from left to right
    int x = d.area.left, page = 0;
    for (const auto& c : d.in.components) {
        if (d.placed(c.id) || d.chains.in_series(c.id)) continue;
        const Area box = d.shapes.area(c.id, {});
        const int wide = std::max(box.right - box.left, 4) + 6;
        const auto at = [&] { return Cell{x - box.left, d.area.bottom - box.bottom}; };
        const auto stands = [&](const Taken& there) {
            const Area here = box.at(at());
            return meets(there.symbols, here) || meets(there.captions, here) ||
                   meets(there.lines, here.grown(1));
        };
        for (Taken there = taken(d, page); stands(there); x += 2)
            if (x + wide > d.area.right) {
                x = d.area.left, ++page;
                there = taken(d, page);
            }
        if (x + wide > d.area.right) x = d.area.left, ++page;
        d.places.emplace(c.id, place_on(page, at()));
        x += wide;
    }
}

} // namespace fl::arrange
