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
    std::vector<int> limited;
    for (std::size_t i = 0; i < network.edges.size(); ++i) {
        const auto& e = network.edges[i];
        if (!taken_out[i] && e.capacity != no_limit && e.capacity > 0 && !joined(e.a, e.b))
            limited.push_back(static_cast<int>(i));
    }
    take_off_dead_ends(limited);
}

/// A place that hangs on the rest by one edge and has no source gives nothing to any other. Most ways of fuse
/// boxes are such; taking them off leaves little to search.
void Flows::take_off_dead_ends(const std::vector<int>& limited) {
    const auto places = place_.empty() ? 0 : *std::max_element(place_.begin(), place_.end()) + 1;
    const auto at = [](int i) { return static_cast<std::size_t>(i); };
    std::vector<std::vector<int>> edges(at(places));
    std::vector<int> degree(at(places));
    std::vector<bool> has_source(at(places)), gone(network_.edges.size());
    for (const auto& s : network_.sources) has_source[at(place_[at(s.node)])] = true;
    const auto ends = [&](int edge) {
        return std::pair(place_[at(network_.edges[at(edge)].a)], place_[at(network_.edges[at(edge)].b)]);
    };
    for (const int e : limited)
        for (const int place : {ends(e).first, ends(e).second}) {
            edges[at(place)].push_back(e);
            ++degree[at(place)];
        }
    dead_end_.assign(at(places), -1);
    std::vector<int> open;
    for (int p = 0; p < places; ++p) open.push_back(p);
    while (!open.empty()) {
        const int place = open.back();
        open.pop_back();
        if (degree[at(place)] != 1 || has_source[at(place)]) continue;
        for (const int e : edges[at(place)]) {
            if (gone[at(e)]) continue;
            const auto [a, b] = ends(e);
            gone[at(e)] = true;
            dead_end_[at(place)] = e;
            --degree[at(a)];
            --degree[at(b)];
            open.push_back(a == place ? b : a);
        }
    }
    for (const int e : limited)
        if (!gone[at(e)]) limited_.push_back(e);
}

/// The limited edges that can have a part in a flow into this place.
std::vector<int> Flows::limited_towards(int place) const {
    std::vector<int> all = limited_;
    while (dead_end_[static_cast<std::size_t>(place)] >= 0) {
        const int edge = dead_end_[static_cast<std::size_t>(place)];
        all.push_back(edge);
        const auto& e = network_.edges[static_cast<std::size_t>(edge)];
        const int a = place_[static_cast<std::size_t>(e.a)];
        place = a == place ? place_[static_cast<std::size_t>(e.b)] : a;
    }
    return all;
}

bool Flows::joined(int node_a, int node_b) const {
    return place_[static_cast<std::size_t>(node_a)] == place_[static_cast<std::size_t>(node_b)];
}

Flow Flows::into(int node, const std::vector<bool>& from) const {
    const auto place_of = [&](int n) { return place_[static_cast<std::size_t>(n)]; };
    const auto limited = limited_towards(place_of(node));
    // Here, and everywhere that limited edges or sources touch; the rest has no part in it.
    std::map<int, Traits::vertex_descriptor> vertex{{place_of(node), 1}};
    const auto vertex_of = [&](int n) {
        return vertex.try_emplace(place_of(n), vertex.size() + 1).first->second;
    };
    Microampere all = 1; // more than can flow
    for (const int i : limited) all += network_.edges[static_cast<std::size_t>(i)].capacity;
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
    if (supplies.empty() || limited.empty()) return {here, {}};
    for (const int i : limited) {
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
    for (const int i : limited) {
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
