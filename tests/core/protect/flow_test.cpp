#include "core/protect/flow.h"
#include "tests/support/property.h"

#include <gtest/gtest.h>

#include <algorithm>

using namespace fl::protect;

namespace {

/// The least cut by trying every set of nodes that holds `to`: what crosses into it, and what starts in it.
Microampere least_of_all_cuts(const FlowNetwork& net, const std::vector<bool>& out, int to,
                              const std::vector<bool>& from) {
    Microampere least = no_limit;
    for (unsigned set = 0; set < 1u << net.nodes; ++set) {
        const auto in = [&](int node) { return (set >> node & 1u) != 0; };
        if (!in(to)) continue;
        Microampere sum = 0;
        const auto add = [&](Microampere x) { sum = x == no_limit || sum == no_limit ? no_limit : sum + x; };
        for (std::size_t i = 0; i < net.edges.size(); ++i)
            if (!out[i] && in(net.edges[i].a) != in(net.edges[i].b)) add(net.edges[i].capacity);
        for (std::size_t i = 0; i < net.sources.size(); ++i)
            if (from[i] && in(net.sources[i].node)) add(net.sources[i].limit);
        least = std::min(least, sum);
    }
    return least;
}

struct Drawn {
    FlowNetwork net;
    std::vector<bool> out, from;
    int to = 0;
};

Drawn draw() {
    Drawn d;
    d.net.nodes = *rc::gen::inRange(1, 9);
    const auto node = [&] { return *rc::gen::inRange(0, d.net.nodes); };
    const auto capacity = [&]() -> Microampere {
        const int tens = *rc::gen::inRange(0, 9); // 0 and every third without limit
        return tens % 3 == 2 ? no_limit : 10'000'000 * Microampere{tens};
    };
    const int edges = *rc::gen::inRange(0, 14), sources = *rc::gen::inRange(0, 4);
    for (int i = 0; i < edges; ++i) {
        d.net.edges.push_back({node(), node(), capacity()});
        d.out.push_back(*rc::gen::inRange(0, 5) == 0);
    }
    for (int i = 0; i < sources; ++i) {
        d.net.sources.push_back({node(), capacity()});
        d.from.push_back(*rc::gen::inRange(0, 4) > 0);
    }
    d.to = node();
    return d;
}

TEST(Flow, EqualsTheLeastOfAllCuts) {
    int unlimited = 0, none = 0, limited = 0;
    fl::test::property(2000, [&] {
        const Drawn d = draw();
        const Flow flow = Flows(d.net, d.out).into(d.to, d.from);
        RC_ASSERT(flow.greatest == least_of_all_cuts(d.net, d.out, d.to, d.from));
        // With one more edge out, asked of the same picture or of a new one.
        for (std::size_t e = 0; e < d.net.edges.size(); ++e) {
            if (d.out[e]) continue;
            auto more = d.out;
            more[e] = true;
            const Flow asked = Flows(d.net, d.out).into(d.to, d.from, static_cast<int>(e));
            RC_ASSERT(asked.greatest == least_of_all_cuts(d.net, more, d.to, d.from));
            RC_ASSERT(asked.cut == Flows(d.net, more).into(d.to, d.from).cut);
        }
        // And with several unlimited ones.
        std::vector<int> several;
        auto fewer = d.out;
        for (std::size_t e = 0; e < d.net.edges.size(); ++e)
            if (!d.out[e] && d.net.edges[e].capacity == no_limit && *rc::gen::arbitrary<bool>())
                several.push_back(static_cast<int>(e)), fewer[e] = true;
        const Flows whole(d.net, d.out);
        RC_ASSERT(whole.into(d.to, d.from, whole.without(several)).greatest ==
                  least_of_all_cuts(d.net, fewer, d.to, d.from));
        ++(flow.greatest == no_limit ? unlimited : flow.greatest == 0 ? none : limited);
        // The edges named, taken out, leave only the sources on this side of the cut.
        if (flow.greatest == no_limit) return;
        auto out = d.out;
        Microampere cut = 0;
        for (const int e : flow.cut) {
            RC_ASSERT(!out[static_cast<std::size_t>(e)]);
            out[static_cast<std::size_t>(e)] = true;
            cut += d.net.edges[static_cast<std::size_t>(e)].capacity;
        }
        RC_ASSERT(cut + Flows(d.net, out).into(d.to, d.from).greatest == flow.greatest);
    });
    if (fl::test::deep(2000) < 2000) return; // a tenth is too few for floors
    // Each sort has come up, so that the property says something about each.
    EXPECT_GT(unlimited, 10);
    EXPECT_GT(none, 10);
    EXPECT_GT(limited, 10);
}

TEST(Flow, NamesTheCutNearestToWhereItGoes) {
    // 100 A, then 100 A again, then 150 A: both hundreds are a least cut; the second lies nearer.
    FlowNetwork net{4, {{0, 1, 100}, {1, 2, 100}, {2, 3, 150}}, {{0, no_limit}}};
    const Flow flow = Flows(net, std::vector<bool>(3)).into(3, {true});
    EXPECT_EQ(flow.greatest, 100);
    EXPECT_EQ(flow.cut, std::vector{1});
}

// What lies beyond a dead end is reached over it alone, and its other end loses nothing when it is out.
TEST(Flow, BeyondADeadEndNothingComes) {
    int ends = 0;
    fl::test::property(2000, [&] {
        const Drawn d = draw();
        const Flows flows(d.net, d.out);
        const std::vector<bool> all(d.net.sources.size(), true);
        for (std::size_t e = 0; e < d.net.edges.size(); ++e) {
            const auto& edge = d.net.edges[e];
            if (d.out[e] || edge.capacity == 0) continue;
            const int dead = flows.dead_end(static_cast<int>(e));
            if (dead < 0) continue;
            ++ends;
            auto more = d.out;
            more[e] = true;
            RC_ASSERT(least_of_all_cuts(d.net, more, dead, all) == 0);
            const int other = dead == edge.a ? edge.b : edge.a;
            RC_ASSERT(least_of_all_cuts(d.net, more, other, d.from) ==
                      least_of_all_cuts(d.net, d.out, other, d.from));
        }
    });
    EXPECT_GT(ends, 10);
}

} // namespace
