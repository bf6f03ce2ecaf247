#include "core/solve/blocks.h"
#include "core/solve/index.h"
#include "core/solve/topology.h"
#include "tests/support/draft.h"
#include "tests/support/property.h"
#include "tests/support/random_circuit.h"

#include <gtest/gtest.h>

#include <set>

namespace fl::test {
namespace {

using namespace fl::solve;

Port line(int a, int b) {
    Port p;
    p.plus = a;
    p.minus = b;
    return p;
}

TEST(Blocks, BridgesAndParallels) {
    // 0=1 (two side by side), 1-2 (bridge), 2-3-4-2 (triangle), 4-4 (on one node), 5 alone.
    const std::vector<Port> ports{line(0, 1), line(1, 0), line(1, 2), line(2, 3),
                                  line(3, 4), line(4, 2), line(4, 4)};
    const std::vector<int> b = blocks_of(6, ports);
    EXPECT_EQ(b[0], b[1]);
    EXPECT_EQ(b[3], b[4]);
    EXPECT_EQ(b[4], b[5]);
    EXPECT_EQ((std::set<int>{b[0], b[2], b[3], b[6]}).size(), 4u);
}

/// Whether the two ends of port `k` still hang together without it, and without the ports of `but`.
bool joined_without(int nodes, const std::vector<Port>& ports, std::size_t k, int without_node) {
    Union u(nodes);
    for (std::size_t p = 0; p < ports.size(); ++p)
        if (p != k && ports[p].plus != without_node && ports[p].minus != without_node)
            u.join(ports[p].plus, ports[p].minus);
    return u.find(ports[k].plus) == u.find(ports[k].minus);
}

// Against the definition: a port is alone in its block exactly if taking it out parts its ends; two ports at
// one node are of one block exactly if their other ends hang together without that node.
TEST(Blocks, AgreeWithTheDefinition) {
    const int count = deep(1000);
    int alone = 0, together = 0, apart = 0;
    for (int seed = 0; seed < count; ++seed) {
        const Circuit c = random_circuit(static_cast<std::uint32_t>(seed), 14);
        const std::vector<Port> ports = ports_of(c);
        const std::vector<int> block = blocks_of(c.nodes, ports);
        std::vector<int> size(ports.size() + 1, 0);
        for (const int b : block) {
            ASSERT_GE(b, 0);
            ++size[at(b)];
        }
        for (std::size_t p = 0; p < ports.size(); ++p) {
            if (ports[p].plus == ports[p].minus) continue;
            const bool bridge = !joined_without(c.nodes, ports, p, -1);
            ASSERT_EQ(size[at(block[p])] == 1, bridge) << "seed " << seed << " port " << p;
            alone += bridge;
        }
        for (std::size_t p = 0; p < ports.size(); ++p)
            for (std::size_t q = p + 1; q < ports.size(); ++q) {
                const Port &a = ports[p], &b = ports[q];
                if (a.plus != b.plus || a.plus == a.minus || b.plus == b.minus) continue;
                Union u(c.nodes); // everything but what touches their common node
                for (const Port& other : ports)
                    if (other.plus != a.plus && other.minus != a.plus) u.join(other.plus, other.minus);
                const bool one = u.find(a.minus) == u.find(b.minus);
                ASSERT_EQ(block[p] == block[q], one) << "seed " << seed << " ports " << p << " " << q;
                ++(one ? together : apart);
            }
    }
    say_ran(count);
    EXPECT_GT(alone, count);
    EXPECT_GT(together, count / 2);
    EXPECT_GT(apart, count / 2);
}

TEST(Topology, IslandsAndReferences) {
    Draft d;
    const int minus = d.node(), plus = d.node(), far = d.node();
    const int other_minus = d.node(), other_plus = d.node();
    const int lone = d.node();
    d.battery(plus, minus, 12, 0.01);
    d.resistor(plus, far, 0.01);
    d.ohms(far, minus, 1);
    d.battery(other_plus, other_minus, 24, 0.01);
    d.amps(other_plus, other_minus, 1, 12);
    const Topology t = topology_of(d.c);
    EXPECT_EQ(t.island[at(minus)], t.island[at(far)]);
    EXPECT_NE(t.island[at(minus)], t.island[at(other_minus)]);
    EXPECT_NE(t.island[at(lone)], t.island[at(minus)]);
    EXPECT_EQ(t.voltage[at(minus)], -1); // batteries' minuses are the references
    EXPECT_EQ(t.voltage[at(other_minus)], -1);
    EXPECT_EQ(t.voltages, 3);
    // First guess: EMFs without current.
    EXPECT_EQ(t.first_V[at(t.voltage[at(far)])], 12);
    EXPECT_EQ(t.first_V[at(t.voltage[at(other_plus)])], 24);
}

TEST(Topology, WhatHangsOnOneEndIsDead) {
    Draft d;
    const int minus = d.node(), plus = d.node(), far = d.node();
    d.battery(plus, minus, 12, 0.01);
    d.c.resistors.resize(1);
    d.c.resistors[0].a = plus, d.c.resistors[0].b = far, d.c.resistors[0].closed = false;
    d.ohms(far, minus, 1);
    const Topology t = topology_of(d.c);
    ASSERT_EQ(t.ports.size(), 2u); // the open switch is no branch
    EXPECT_TRUE(t.live[0]);
    EXPECT_FALSE(t.live[1]);
    EXPECT_EQ(t.island[at(far)], t.island[at(minus)]);
    EXPECT_EQ(t.voltage[at(far)], t.voltage[at(minus)]); // no current, no voltage across
}

TEST(Topology, AliveThroughConverters) {
    Draft d;
    const int minus = d.node(), plus = d.node(), middle = d.node(), end = d.node();
    d.battery(plus, minus, 24, 0.01);
    d.converter(middle, minus, end, minus, 5, 0.01, 3); // fed by the next one
    d.converter(plus, minus, middle, minus, 12, 0.01, 10);
    d.ohms(end, minus, 5);
    const Topology t = topology_of(d.c);
    for (const char live : t.live) EXPECT_TRUE(live);
    d.c.batteries[0].connected = false;
    const Topology dead = topology_of(d.c);
    for (const char live : dead.live) EXPECT_FALSE(live);
    EXPECT_TRUE(dead.feed_selves.empty());
}

} // namespace
} // namespace fl::test
