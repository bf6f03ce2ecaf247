#include "core/solve/topology.h"

#include "core/solve/blocks.h"
#include "core/solve/index.h"

#include <algorithm>
#include <utility>

namespace fl::solve {

namespace {

/// Marks the blocks that have something to give: those with a battery or regulator, and from them on through
/// converters whose input is alive.
std::vector<char> live_blocks(const std::vector<Port>& ports, const std::vector<int>& block) {
    std::vector<char> alive(ports.size() + 1, 0); // there are no more blocks than ports
    for (std::size_t p = 0; p < ports.size(); ++p)
        if (ports[p].supply && !ports[p].output) alive[at(block[p])] = 1;
    for (bool changed = true; changed;) {
        changed = false;
        for (std::size_t p = 1; p < ports.size(); ++p) { // an output stands right behind its input
            if (!ports[p].output || !alive[at(block[p - 1])] || alive[at(block[p])]) continue;
            alive[at(block[p])] = 1;
            changed = true;
        }
    }
    return alive;
}

/// Finds converters in a ring: from their output, over blocks and other converters, back to their input.
/// Those without a living input feed themselves.
void find_rings(Topology& t, const std::vector<int>& block) {
    std::vector<std::size_t> outputs;
    for (std::size_t p = 1; p < t.ports.size(); ++p)
        if (t.ports[p].output) outputs.push_back(p);
    for (const std::size_t mine : outputs) {
        std::vector<std::size_t> reached{mine};
        bool ring = false;
        for (std::size_t k = 0; k < reached.size() && !ring; ++k) {
            const int into = block[reached[k]];
            ring = into == block[mine - 1];
            for (const std::size_t other : outputs)
                if (block[other - 1] == into &&
                    std::find(reached.begin(), reached.end(), other) == reached.end())
                    reached.push_back(other);
        }
        if (ring) (t.live[mine - 1] ? t.rings : t.feed_selves).push_back(t.ports[mine].element);
    }
}

/// Finds loops of exactly 0 ohm. Sources first, so that of two such loops the resistor is the one too many.
void find_zero_loops(Topology& t, int nodes) {
    t.spare.assign(t.ports.size(), 0);
    Union joined(nodes), with_source(nodes);
    std::vector<char> source(at(nodes), 0);
    for (const bool supplies : {true, false}) {
        for (std::size_t p = 0; p < t.ports.size(); ++p) {
            const Port& port = t.ports[p];
            if (!port.ideal || port.supply != supplies) continue;
            if (port.plus == port.minus && !supplies) continue; // both ends on one node: no loop to speak of
            if (joined.join(port.plus, port.minus)) continue;
            if (supplies)
                t.opposed.push_back(port.element);
            else
                t.spare[p] = 1;
        }
    }
    // A resistor that closes a loop through a 0 ohm source short-circuits it: seen by leaving the sources
    // out.
    Union resistors(nodes);
    for (std::size_t p = 0; p < t.ports.size(); ++p) {
        const Port& port = t.ports[p];
        if (!port.ideal || port.supply || port.plus == port.minus) continue;
        const bool new_way = resistors.join(port.plus, port.minus);
        if (t.spare[p] && new_way) {
            t.opposed.push_back(port.element);
        }
    }
}

/// Guesses voltages by walking from the reference: 0 across resistors, EMF across supplies, and only where
/// nothing else leads on, 0 across loads.
void guess(Topology& t) {
    const int nodes = static_cast<int>(t.voltage.size());
    const std::vector<int>& node_class = t.joined;
    const std::vector<char>& reference = t.reference;
    std::vector<std::vector<std::size_t>> touching(at(nodes));
    for (std::size_t p = 0; p < t.ports.size(); ++p) {
        if (!t.live[p]) continue;
        touching[at(node_class[at(t.ports[p].plus)])].push_back(p);
        touching[at(node_class[at(t.ports[p].minus)])].push_back(p);
    }
    std::vector<double> volts(at(nodes), 0);
    std::vector<char> seen(at(nodes), 0);
    constexpr std::size_t regulated = 3;
    auto rank = [&t](std::size_t p) -> std::size_t {
        const Port& port = t.ports[p];
        if (port.ideal) return 0;
        if (port.element.kind == ElementKind::battery && port.supply) return 1;
        if (port.element.kind == ElementKind::resistor) return 2;
        return port.supply ? regulated : 4;
    };
    for (int start = 0; start < nodes; ++start) {
        if (!reference[at(start)]) continue;
        std::vector<std::vector<int>> frontier(5); // nodes whose ports of that rank are still to be walked
        auto visit = [&](int node, double v) {
            seen[at(node)] = 1;
            volts[at(node)] = v;
            for (auto& level : frontier) level.push_back(node);
        };
        auto walk = [&](int node, std::size_t p) {
            const int plus = node_class[at(t.ports[p].plus)], minus = node_class[at(t.ports[p].minus)];
            const int other = plus == node ? minus : plus;
            if (seen[at(other)]) return false;
            visit(other, volts[at(node)] + (plus == node ? -1 : 1) * t.ports[p].volts);
            return true;
        };
        visit(start, 0);
        std::size_t level = 0;
        while (level < frontier.size()) {
            if (level == regulated) {
                // Of several such sources the highest sets the voltage when nothing is drawn.
                std::pair<double, std::pair<int, std::size_t>> best{-1, {}};
                for (const int node : frontier[level])
                    for (const std::size_t p : touching[at(node)])
                        if (rank(p) == level && (!seen[at(node_class[at(t.ports[p].plus)])] ||
                                                 !seen[at(node_class[at(t.ports[p].minus)])]))
                            best = std::max(best, {t.ports[p].volts, {node, p}});
                if (best.first >= 0) {
                    walk(best.second.first, best.second.second);
                    level = 0;
                    continue;
                }
                frontier[level].clear();
            }
            if (frontier[level].empty()) {
                ++level;
                continue;
            }
            const int node = frontier[level].back();
            frontier[level].pop_back();
            bool moved = false;
            for (const std::size_t p : touching[at(node)])
                if (rank(p) == level) moved = walk(node, p) || moved;
            if (moved) level = 0;
        }
    }
    t.first_V.assign(at(t.voltages), 0);
    for (int n = 0; n < nodes; ++n)
        if (t.voltage[at(n)] >= 0) t.first_V[at(t.voltage[at(n)])] = volts[at(node_class[at(n)])];
}

Topology made(const Circuit& circuit, bool whole) {
    Topology t;
    const int nodes = circuit.nodes;
    t.ports = ports_of(circuit);
    t.block = blocks_of(nodes, t.ports);
    const std::vector<int>& block = t.block;
    const std::vector<char> alive = live_blocks(t.ports, block);
    t.live.resize(t.ports.size());
    for (std::size_t p = 0; p < t.ports.size(); ++p) t.live[p] = whole || alive[at(block[p])];
    find_rings(t, block);
    find_zero_loops(t, nodes);

    Union islands(nodes), classes(nodes);
    std::vector<int> score(at(nodes), 0);
    for (std::size_t p = 0; p < t.ports.size(); ++p) {
        const Port& port = t.ports[p];
        islands.join(port.plus, port.minus);
        if (!t.live[p]) {
            classes.join(port.plus, port.minus); // nothing flows: no voltage across
            continue;
        }
        ++score[at(port.plus)];
        ++score[at(port.minus)];
        if (port.element.kind == ElementKind::battery)
            score[at(port.minus)] += 1 << 20;
        else if (port.supply)
            score[at(port.minus)] += 1 << 10;
    }
    std::vector<int> node_class(at(nodes));
    std::vector<int> best(at(nodes), -1); // per island: the node that becomes its reference
    std::vector<int> number(at(nodes), -1);
    t.island.assign(at(nodes), -1);
    int island_count = 0;
    for (int n = 0; n < nodes; ++n) {
        node_class[at(n)] = classes.find(n);
        const int root = islands.find(n);
        if (number[at(root)] < 0) number[at(root)] = island_count++;
        t.island[at(n)] = number[at(root)];
        int& chosen = best[at(number[at(root)])];
        if (score[at(n)] > 0 && (chosen < 0 || score[at(n)] > score[at(chosen)])) chosen = n;
    }
    std::vector<char> reference(at(nodes), 0), counts(at(nodes), 0);
    for (const int node : best)
        if (node >= 0) reference[at(node_class[at(node)])] = 1;
    for (int n = 0; n < nodes; ++n)
        if (score[at(n)] > 0) counts[at(node_class[at(n)])] = 1;
    std::vector<int> unknown(at(nodes), -1);
    for (int n = 0; n < nodes; ++n)
        if (node_class[at(n)] == n && counts[at(n)] && !reference[at(n)]) unknown[at(n)] = t.voltages++;
    t.voltage.resize(at(nodes));
    for (int n = 0; n < nodes; ++n) t.voltage[at(n)] = unknown[at(node_class[at(n)])];
    t.joined = std::move(node_class);
    t.reference = std::move(reference);
    guess(t);
    return t;
}

} // namespace

Topology topology_of(const Circuit& circuit) {
    return made(circuit, false);
}

Topology topology_of(const Topology& known, std::vector<Port> ports) {
    Topology t = known;
    const bool same = std::equal(ports.begin(), ports.end(), known.ports.begin(), known.ports.end(),
                                 [](const Port& a, const Port& b) { return a.volts == b.volts; });
    if (same) return t;
    t.ports = std::move(ports);
    guess(t);
    return t;
}

bool hang_alike(const std::vector<Port>& a, const std::vector<Port>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const Port& x, const Port& y) {
        return x.element == y.element && x.output == y.output && x.plus == y.plus && x.minus == y.minus &&
               x.supply == y.supply && x.ideal == y.ideal;
    });
}

Topology whole_topology_of(const Circuit& circuit) {
    return made(circuit, true);
}

} // namespace fl::solve
