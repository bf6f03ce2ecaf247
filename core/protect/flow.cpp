#include "core/protect/flow.h"

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/connected_components.hpp>
#include <boost/graph/push_relabel_max_flow.hpp>
#include <boost/range/iterator_range.hpp>

#include <algorithm>
#include <cstddef>
#include <map>
#include <utility>

namespace fl::protect {
namespace {

using Join = boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS>;
using Traits = boost::adjacency_list_traits<boost::vecS, boost::vecS, boost::directedS>;

struct Arc {
    Microampere capacity = 0, left = 0;
    Traits::edge_descriptor back;
    int edge = -1; // of the network
};
using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS, boost::no_property, Arc>;

/// The vertices from which there is still room to `to`.
std::vector<bool> with_room(const Graph& graph, Traits::vertex_descriptor to) {
    std::vector<bool> room(boost::num_vertices(graph));
    std::vector<Traits::vertex_descriptor> open{to};
    room[to] = true;
    while (!open.empty()) {
        const auto at = open.back();
        open.pop_back();
        for (const auto out : boost::make_iterator_range(boost::out_edges(at, graph))) {
            const auto next = boost::target(out, graph);
            if (room[next] || graph[graph[out].back].left == 0) continue;
            room[next] = true;
            open.push_back(next);
        }
    }
    return room;
}

} // namespace

Flows::Flows(const FlowNetwork& network, const std::vector<bool>& taken_out)
    : network_(network)
    , place_(static_cast<std::size_t>(network.nodes)) {
    Join join(place_.size());
    for (std::size_t i = 0; i < network.edges.size(); ++i)
        if (const auto& e = network.edges[i]; !taken_out[i] && e.capacity == no_limit)
            boost::add_edge(static_cast<std::size_t>(e.a), static_cast<std::size_t>(e.b), join);
    if (!place_.empty()) boost::connected_components(join, place_.data());
    for (std::size_t i = 0; i < network.edges.size(); ++i) {
        const auto& e = network.edges[i];
        if (!taken_out[i] && e.capacity != no_limit && e.capacity > 0 && !joined(e.a, e.b))
            limited_.push_back(static_cast<int>(i));
    }
}

bool Flows::joined(int node_a, int node_b) const {
    return place_[static_cast<std::size_t>(node_a)] == place_[static_cast<std::size_t>(node_b)];
}

Flow Flows::into(int node, const std::vector<bool>& from) const {
    const auto place_of = [&](int n) { return place_[static_cast<std::size_t>(n)]; };
    // Here, and everywhere that limited edges or sources touch; the rest has no part in it.
    std::map<int, Traits::vertex_descriptor> vertex{{place_of(node), 1}};
    const auto vertex_of = [&](int n) {
        return vertex.try_emplace(place_of(n), vertex.size() + 1).first->second;
    };
    Microampere all = 1; // more than can flow
    for (const int i : limited_) all += network_.edges[static_cast<std::size_t>(i)].capacity;
    Microampere here = 0;
    std::vector<std::pair<Traits::vertex_descriptor, Microampere>> supplies;
    for (std::size_t i = 0; i < network_.sources.size(); ++i) {
        if (!from[i]) continue;
        const auto& s = network_.sources[i];
        if (place_of(s.node) != place_of(node)) {
            supplies.emplace_back(vertex_of(s.node), std::min(s.limit, all));
            continue;
        }
        if (s.limit == no_limit) return {no_limit, {}};
        here += s.limit;
    }
    if (supplies.empty() || limited_.empty()) return {here, {}};
    for (const int i : limited_) {
        vertex_of(network_.edges[static_cast<std::size_t>(i)].a);
        vertex_of(network_.edges[static_cast<std::size_t>(i)].b);
    }

    Graph graph(vertex.size() + 1); // 0 is where all sources come from
    std::vector<Traits::edge_descriptor> arcs;
    // Each with a way back that has no capacity of its own: the algorithm tells the two apart by that.
    const auto add = [&](Traits::vertex_descriptor a, Traits::vertex_descriptor b, Microampere capacity,
                         int edge) {
        const auto there = boost::add_edge(a, b, Arc{capacity, 0, {}, edge}, graph).first;
        const auto back = boost::add_edge(b, a, Arc{0, 0, there, edge}, graph).first;
        graph[there].back = back;
        arcs.push_back(there);
    };
    for (const auto& [at, limit] : supplies) add(0, at, limit, -1);
    for (const int i : limited_) {
        const auto& e = network_.edges[static_cast<std::size_t>(i)];
        add(vertex_of(e.a), vertex_of(e.b), e.capacity, i);
        add(vertex_of(e.b), vertex_of(e.a), e.capacity, i);
    }
    Flow out;
    out.greatest = here + boost::push_relabel_max_flow(
                              graph, Traits::vertex_descriptor{0}, Traits::vertex_descriptor{1},
                              boost::get(&Arc::capacity, graph), boost::get(&Arc::left, graph),
                              boost::get(&Arc::back, graph), boost::get(boost::vertex_index, graph));
    const auto room = with_room(graph, 1);
    for (const auto arc : arcs)
        if (graph[arc].edge >= 0 && room[boost::target(arc, graph)] && !room[boost::source(arc, graph)])
            out.cut.push_back(graph[arc].edge);
    std::sort(out.cut.begin(), out.cut.end());
    return out;
}

} // namespace fl::protect
