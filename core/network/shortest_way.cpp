#include "core/base/check.h"
#include "core/network/network.h"

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/dijkstra_shortest_paths.hpp>

#include <algorithm>
#include <compare>
#include <functional>
#include <limits>
#include <utility>

namespace fl::network {
namespace {

/// Compared in this order: a way with an unknown length counts it as nothing, so that the way found is the
/// shortest for certain where its own lengths are known, and not known where they are not.
struct Far {
    double length_m = 0;
    int unknown = 0;
    int hops = 0;
    auto operator<=>(const Far&) const = default;
};

constexpr Far beyond{std::numeric_limits<double>::infinity(), 0, 0};

struct Add {
    Far operator()(const Far& x, const Far& y) const {
        return {x.length_m + y.length_m, x.unknown + y.unknown, x.hops + y.hops};
    }
};

struct Edge {
    int branch = -1; // -1: from nowhere to a start
    Far far;
};
using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS, boost::no_property, Edge>;
using Vertex = boost::graph_traits<Graph>::vertex_descriptor;

/// Remembers the edge by which each vertex was last reached nearer.
struct Record : boost::dijkstra_visitor<> {
    std::vector<std::pair<Vertex, int>>* by;
    explicit Record(std::vector<std::pair<Vertex, int>>& all)
        : by(&all) {}
    template <class E>
    void edge_relaxed(E edge, const Graph& graph) {
        (*by)[boost::target(edge, graph)] = {boost::source(edge, graph), graph[edge].branch};
    }
};

/// All ways from the starts, as Dijkstra leaves them.
struct Ways {
    std::vector<Far> far;
    std::vector<std::pair<Vertex, int>> by;

    std::optional<Way> to(Vertex at) const {
        if (!(far[at] < beyond)) return {};
        Way way;
        way.at_least = Length::si(far[at].length_m);
        if (far[at].unknown == 0) way.length = way.at_least;
        for (; by[at].second >= 0; at = by[at].first) way.branches.push_back(by[at].second);
        std::reverse(way.branches.begin(), way.branches.end());
        return way;
    }
};

Ways ways_from(const plan::Installation& installation, const Network& network, const std::vector<int>& from,
               const std::vector<bool>& usable) {
    FL_CHECK(usable.size() == network.branches.size());
    const Vertex nowhere = network.nodes.size();
    Graph graph(nowhere + 1);
    for (const int start : from)
        if (start >= 0) boost::add_edge(nowhere, static_cast<Vertex>(start), Edge{}, graph);
    for (std::size_t i = 0; i < usable.size(); ++i) {
        if (!usable[i]) continue;
        const Branch& b = network.branches[i];
        Edge edge{static_cast<int>(i), {0, 0, 1}};
        if (const auto* w = installation.conductors.find(b.conductor)) {
            const auto length = plan::length_of(installation, *w);
            length ? edge.far.length_m = (*length).si() : edge.far.unknown = 1;
        }
        boost::add_edge(static_cast<Vertex>(b.a), static_cast<Vertex>(b.b), edge, graph);
        boost::add_edge(static_cast<Vertex>(b.b), static_cast<Vertex>(b.a), edge, graph);
    }
    Ways ways{std::vector<Far>(nowhere + 1), std::vector<std::pair<Vertex, int>>(nowhere + 1, {nowhere, -1})};
    boost::dijkstra_shortest_paths(graph, nowhere,
                                   boost::weight_map(boost::get(&Edge::far, graph))
                                       .distance_map(boost::make_iterator_property_map(
                                           ways.far.begin(), boost::get(boost::vertex_index, graph)))
                                       .distance_compare(std::less<Far>{})
                                       .distance_combine(Add{})
                                       .distance_inf(beyond)
                                       .distance_zero(Far{})
                                       .visitor(Record(ways.by)));
    return ways;
}

} // namespace

std::optional<Way> shortest_way(const plan::Installation& installation, const Network& network,
                                const std::vector<int>& from, int to, const std::vector<bool>& usable) {
    if (to < 0) return {};
    return ways_from(installation, network, from, usable).to(static_cast<Vertex>(to));
}

std::vector<std::optional<Way>> shortest_ways(const plan::Installation& installation, const Network& network,
                                              const std::vector<int>& from, const std::vector<bool>& usable) {
    const Ways ways = ways_from(installation, network, from, usable);
    std::vector<std::optional<Way>> out;
    for (Vertex at = 0; at < network.nodes.size(); ++at) out.push_back(ways.to(at));
    return out;
}

} // namespace fl::network
