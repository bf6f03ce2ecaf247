#include "core/network/sides.h"
#include "tests/support/property.h"

#include <gtest/gtest.h>

#include <vector>

using fl::network::Sides;

namespace {

/// Nodes reached from one over all links but one, by plain search.
std::vector<bool> search(int nodes, const std::vector<Sides::Link>& links, int without, int from) {
    std::vector<bool> seen(static_cast<std::size_t>(nodes));
    seen[static_cast<std::size_t>(from)] = true;
    for (bool again = true; again;) {
        again = false;
        for (std::size_t i = 0; i < links.size(); ++i) {
            if (static_cast<int>(i) == without || links[i].a < 0) continue;
            const auto a = static_cast<std::size_t>(links[i].a), b = static_cast<std::size_t>(links[i].b);
            if (seen[a] != seen[b]) seen[a] = seen[b] = again = true;
        }
    }
    return seen;
}

TEST(Sides, AreWhatASearchFinds) {
    int bridges = 0, rings = 0;
    fl::test::property(2000, [&] {
        const int nodes = *rc::gen::inRange(1, 10), count = *rc::gen::inRange(0, 14);
        std::vector<Sides::Link> links;
        for (int i = 0; i < count; ++i) {
            if (*rc::gen::inRange(0, 8) == 0)
                links.emplace_back(); // not there
            else
                links.push_back({*rc::gen::inRange(0, nodes), *rc::gen::inRange(0, nodes)});
        }
        const Sides sides(static_cast<std::size_t>(nodes), links);
        for (int a = 0; a < nodes; ++a) {
            const auto all = search(nodes, links, -1, a);
            for (int b = 0; b < nodes; ++b)
                RC_ASSERT((sides.island(a) == sides.island(b)) == all[static_cast<std::size_t>(b)]);
            const auto [from, to] = sides.numbers(sides.island(a));
            RC_ASSERT(from <= sides.number(a) && sides.number(a) < to);
        }
        for (int i = 0; i < count; ++i) {
            const auto& link = links[static_cast<std::size_t>(i)];
            if (link.a < 0) continue;
            for (const int end : {link.a, link.b}) {
                const auto there = search(nodes, links, i, end);
                for (int n = 0; n < nodes; ++n)
                    RC_ASSERT(sides.reached(i, end, n) == there[static_cast<std::size_t>(n)]);
                RC_ASSERT(sides.is_bridge(i) ==
                          !search(nodes, links, i, link.a)[static_cast<std::size_t>(link.b)]);
            }
            ++(sides.is_bridge(i) ? bridges : rings);
        }
    });
    EXPECT_GT(bridges, 10);
    EXPECT_GT(rings, 10);
}

} // namespace
