#include "core/protect/graph.h"

#include <cmath>
#include <limits>

namespace fl::protect {

Microampere whole(Current current) {
    const double microampere = current.si() * 1e6;
    if (!(microampere > 0)) return 0;
    return microampere < 1e15 ? std::llround(microampere) : no_limit; // 1e9 A: no device
}

Current current_of(Microampere flow) {
    return Current::si(flow == no_limit ? std::numeric_limits<double>::infinity()
                                        : static_cast<double>(flow) / 1e6);
}

Graph make_graph(const plan::Installation& installation, const network::Network& network) {
    Graph g;
    g.returns = network::return_nodes(network);
    g.sources = sources(installation, network);
    g.flow.nodes = static_cast<int>(network.nodes.size());
    g.edge_of.assign(network.branches.size(), -1);
    const auto add = [&](int a, int b, int branch, Microampere capacity) {
        g.flow.edges.push_back({a, b, capacity});
        g.branch_of.push_back(branch);
    };
    g.lenient = g.flow;
    std::vector<Microampere> lenient;
    for (std::size_t i = 0; i < network.branches.size(); ++i) {
        const auto& b = network.branches[i];
        if (g.returns[at(b.a)] || !is_fitted(installation, b)) continue;
        if (b.kind == network::BranchKind::isolator) continue; // one way only: its outputs are sources
        const auto rating = device_rating(installation, b);
        const bool unknown = is_device(b) && !rating;
        g.edge_of[i] = static_cast<int>(g.flow.edges.size());
        add(b.a, b.b, static_cast<int>(i), rating ? whole(*rating) : no_limit);
        lenient.push_back(unknown ? 0 : g.flow.edges.back().capacity);
        g.has_unknown |= unknown;
    }
    for (const auto& p : network.ports)
        if (p.kind == network::PortKind::battery && !g.returns[at(p.minus)]) {
            add(p.minus, p.plus, -1, no_limit);
            lenient.push_back(no_limit);
        }
    for (const auto& s : g.sources) {
        g.flow.sources.push_back({s.node, s.limit ? whole(*s.limit) : no_limit});
        g.has_unknown |= s.not_known;
    }
    g.lenient = g.flow;
    for (std::size_t i = 0; i < lenient.size(); ++i) g.lenient.edges[i].capacity = lenient[i];
    for (std::size_t i = 0; i < g.sources.size(); ++i)
        if (g.sources[i].not_known) g.lenient.sources[i].limit = 0;
    return g;
}

} // namespace fl::protect
