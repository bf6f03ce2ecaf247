#include "core/network/network.h"

#include "core/base/check.h"
#include "core/network/part.h"

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/connected_components.hpp>

#include <algorithm>

namespace fl::network {
namespace {

using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS>;

bool is_source(PortKind kind) {
    switch (kind) {
    case PortKind::battery:
    case PortKind::alternator:
    case PortKind::take_off_point:
    case PortKind::mains_charger:
    case PortKind::solar_controller:
        return true;
    case PortKind::starter_motor:
    case PortKind::inverter:
    case PortKind::load:
    case PortKind::relay_coil:
        return false;
    }
    return false;
}

} // namespace

int Network::node_of(const plan::TerminalRef& terminal) const {
    for (std::size_t i = 0; i < nodes.size(); ++i)
        if (std::binary_search(nodes[i].terminals.begin(), nodes[i].terminals.end(), terminal))
            return static_cast<int>(i);
    return -1;
}

int Network::branch_of(plan::ConductorId id) const {
    // Conductors come first, in the order of their ids.
    const auto end = std::partition_point(branches.begin(), branches.end(),
                                          [](const Branch& b) { return b.kind == BranchKind::conductor; });
    const auto at =
        std::lower_bound(branches.begin(), end, id,
                         [](const Branch& b, plan::ConductorId wanted) { return b.conductor < wanted; });
    return at != end && at->conductor == id ? static_cast<int>(at - branches.begin()) : -1;
}

const plan::Way* way_of(const plan::Installation& in, const Branch& branch) {
    if (branch.kind != BranchKind::way) return nullptr;
    const auto* box = parameters<plan::FuseBox>(in, branch);
    const auto at = static_cast<std::size_t>(branch.part);
    return box && at < box->ways.size() ? &box->ways[at] : nullptr;
}

std::vector<int> islands(const Network& network, const std::vector<bool>& closed) {
    FL_CHECK(closed.size() == network.branches.size());
    Graph graph(network.nodes.size());
    for (std::size_t i = 0; i < closed.size(); ++i)
        if (closed[i])
            boost::add_edge(static_cast<std::size_t>(network.branches[i].a),
                            static_cast<std::size_t>(network.branches[i].b), graph);
    std::vector<int> island(network.nodes.size());
    if (!island.empty()) boost::connected_components(graph, island.data()); // numbers in the order of nodes
    return island;
}

std::vector<bool> return_nodes(const Network& network) {
    const auto net = islands(network, std::vector<bool>(network.branches.size(), true));
    // What each net touches. A net that touches a plus of a source is live, whatever else it touches: the
    // middle of two batteries in series is the minus of one and the plus of the other.
    std::vector<bool> source_plus(net.size()), source_minus(net.size()), load_plus(net.size()),
        load_minus(net.size());
    const auto mark = [&](std::vector<bool>& what, int node) {
        what[static_cast<std::size_t>(net[static_cast<std::size_t>(node)])] = true;
    };
    for (const auto& p : network.ports) {
        if (p.kind == PortKind::relay_coil) continue; // may be wired either way round
        const bool source = is_source(p.kind);
        mark(source ? source_plus : load_plus, p.plus);
        mark(source ? source_minus : load_minus, p.minus);
    }
    for (const auto& c : network.converters) {
        mark(load_plus, c.in_plus);
        mark(load_minus, c.in_minus);
        mark(source_plus, c.out_plus);
        mark(source_minus, c.out_minus);
    }
    for (std::size_t i = 0; i < net.size(); ++i)
        if (network.nodes[i].body) mark(source_minus, static_cast<int>(i));
    std::vector<bool> out(net.size());
    for (std::size_t i = 0; i < net.size(); ++i) {
        const auto n = static_cast<std::size_t>(net[i]);
        out[i] = !source_plus[n] && (source_minus[n] || (load_minus[n] && !load_plus[n]));
    }
    return out;
}

} // namespace fl::network
