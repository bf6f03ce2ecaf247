#include "core/fault/back.h"

#include <limits>
#include <queue>
#include <tuple>

namespace fl::fault {
namespace {

std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

/// A part with a live and a return terminal.
struct Meeting {
    int plus = -1, minus = -1;
};

std::vector<Meeting> meetings(const plan::Installation& in, const network::Network& net,
                              const std::vector<bool>& returns) {
    std::vector<Meeting> all;
    for (const auto& p : net.ports) all.push_back({p.plus, p.minus});
    for (const auto& c : net.converters) {
        all.push_back({c.in_plus, c.in_minus});
        all.push_back({c.out_plus, c.out_minus});
    }
    for (const auto& c : in.components)
        if (const auto* box = std::get_if<plan::FuseBox>(&c.with); box && box->minus_bar)
            all.push_back({net.node_of({c.id, "in"}), net.node_of({c.id, "-"})});
    std::erase_if(all, [&](const Meeting& m) {
        return m.plus < 0 || m.minus < 0 || returns[at(m.plus)] || !returns[at(m.minus)];
    });
    return all;
}

} // namespace

std::vector<std::vector<int>> backs(const plan::Installation& installation, const network::Network& network) {
    const auto returns = network::return_nodes(network);
    const auto all = meetings(installation, network, returns);
    struct Edge {
        int to;
        double length_m;
    };
    std::vector<std::vector<Edge>> edges(network.nodes.size());
    const auto join = [&](int a, int b, double length_m) {
        edges[at(a)].push_back({b, length_m});
        edges[at(b)].push_back({a, length_m});
    };
    for (const auto& b : network.branches) {
        if (returns[at(b.a)]) continue;
        double length_m = 0;
        if (const auto* w = installation.conductors.find(b.conductor)) {
            constexpr double usual_m = 1; // only to tell near from far
            const auto length = plan::length_of(installation, *w);
            length_m = length ? (*length).si() : usual_m;
        }
        join(b.a, b.b, length_m);
    }
    // A block of a string passes on to the block below it.
    for (const auto& p : network.ports)
        if (p.kind == network::PortKind::battery && !returns[at(p.plus)] && !returns[at(p.minus)])
            join(p.plus, p.minus, 0);

    // From all meetings at once, each node takes the nearest; by branches where lengths are equal, then by
    // the order of the drawing.
    using Reached = std::tuple<double, int, int, int>; // metres, branches, meeting, node
    std::priority_queue<Reached, std::vector<Reached>, std::greater<>> open;
    for (std::size_t m = 0; m < all.size(); ++m) open.emplace(0, 0, static_cast<int>(m), all[m].plus);
    std::vector<int> nearest(network.nodes.size(), -1);
    while (!open.empty()) {
        const auto [metres, branches, meeting, node] = open.top();
        open.pop();
        if (nearest[at(node)] >= 0) continue;
        nearest[at(node)] = meeting;
        for (const Edge& e : edges[at(node)])
            if (nearest[at(e.to)] < 0) open.emplace(metres + e.length_m, branches + 1, meeting, e.to);
    }
    std::vector<std::vector<int>> out(network.nodes.size());
    std::vector<int> bodies;
    for (std::size_t n = 0; n < out.size(); ++n)
        if (network.nodes[n].body && returns[n]) bodies.push_back(static_cast<int>(n));
    for (std::size_t n = 0; n < out.size(); ++n) {
        if (returns[n]) continue;
        if (nearest[n] >= 0) out[n].push_back(all[at(nearest[n])].minus);
        out[n].insert(out[n].end(), bodies.begin(), bodies.end());
    }
    return out;
}

} // namespace fl::fault
