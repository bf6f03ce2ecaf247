#include "core/rules/look.h"

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/biconnected_components.hpp>

namespace fl::rules {
namespace {

struct Edge {
    std::size_t a, b;
    bool added;
};

} // namespace

std::vector<bool> changed_by_new_work(const Facts& facts) {
    const auto& net = facts.network;
    const auto is_new = [](const auto* row) { return row && plan::is_ours(row->origin); };
    const auto component = [&](plan::ComponentId id) { return facts.installation.components.find(id); };
    std::vector<Edge> edges; // branches first
    for (const auto& b : net.branches)
        edges.push_back({at(b.a), at(b.b),
                         b.conductor ? is_new(facts.installation.conductors.find(b.conductor))
                                     : is_new(component(b.component))});
    for (const auto& p : net.ports)
        edges.push_back({at(p.plus), at(p.minus), is_new(component(p.component))});
    for (const auto& c : net.converters) {
        edges.push_back({at(c.in_plus), at(c.in_minus), is_new(component(c.component))});
        edges.push_back({at(c.out_plus), at(c.out_minus), is_new(component(c.component))});
    }
    // Each edge gets a node in its middle, so that no two run in parallel: the algorithm would leave one of
    // such a pair without a number.
    using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS, boost::no_property,
                                        boost::property<boost::edge_index_t, std::size_t>>;
    Graph graph(net.nodes.size() + edges.size());
    std::size_t halves = 0;
    for (std::size_t e = 0; e < edges.size(); ++e) {
        boost::add_edge(edges[e].a, net.nodes.size() + e, halves++, graph);
        if (edges[e].a != edges[e].b) boost::add_edge(net.nodes.size() + e, edges[e].b, halves, graph);
        ++halves;
    }
    std::vector<std::size_t> block(halves);
    const auto count = boost::biconnected_components(
        graph, boost::make_iterator_property_map(block.begin(), boost::get(boost::edge_index, graph)));
    std::vector<bool> touched(count + 1);
    for (std::size_t e = 0; e < edges.size(); ++e)
        if (edges[e].added) touched[block[2 * e]] = true;
    std::vector<bool> changed(net.branches.size());
    for (std::size_t b = 0; b < changed.size(); ++b) changed[b] = touched[block[2 * b]];
    return changed;
}

} // namespace fl::rules
