#include "core/base/check.h"
#include "core/network/network.h"

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/biconnected_components.hpp>

namespace fl::network {
namespace {

struct Edge {
    int branch = -1;
    std::size_t component = 0;
};
using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS, boost::no_property, Edge>;

} // namespace

std::vector<bool> on_ways_between(const Network& network, int node_a, int node_b,
                                  const std::vector<bool>& usable) {
    FL_CHECK(usable.size() == network.branches.size());
    std::vector<bool> on(network.branches.size());
    if (node_a < 0 || node_b < 0 || node_a == node_b) return on;
    // With an edge between the two, a branch lies on such a way when it is in one ring with that edge, which
    // is when both are of the same biconnected component.
    Graph graph(network.nodes.size());
    std::vector<Graph::edge_descriptor> edges;
    const auto add = [&](int a, int b, int branch) {
        edges.push_back(
            boost::add_edge(static_cast<std::size_t>(a), static_cast<std::size_t>(b), Edge{branch, 0}, graph)
                .first);
    };
    add(node_a, node_b, -1);
    for (std::size_t i = 0; i < usable.size(); ++i)
        if (const Branch& b = network.branches[i]; usable[i] && b.a != b.b)
            add(b.a, b.b, static_cast<int>(i));
    boost::biconnected_components(graph, boost::get(&Edge::component, graph));
    const auto ring = graph[edges.front()].component;
    for (const auto& e : edges)
        if (graph[e].branch >= 0 && graph[e].component == ring)
            on[static_cast<std::size_t>(graph[e].branch)] = true;
    return on;
}

} // namespace fl::network
