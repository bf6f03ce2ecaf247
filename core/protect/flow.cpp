#include "core/protect/flow.h"

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/push_relabel_max_flow.hpp>
#include <boost/range/iterator_range.hpp>

#include <algorithm>
#include <cstddef>
#include <map>
#include <set>
#include <utility>

namespace fl::protect {
namespace {

std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

using Traits = boost::adjacency_list_traits<boost::vecS, boost::vecS, boost::directedS>;

struct Arc {
    Microampere capacity = 0, left = 0;
    Traits::edge_descriptor back;
    int edge = -1; // of the network
};
using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS, boost::no_property, Arc>;

/// The edges for which `is_there` says true, those that are taken out left out.
template <class IsThere>
std::vector<network::Sides::Link> links_of(const FlowNetwork& network, const std::vector<bool>& taken_out,
                                           IsThere is_there) {
    std::vector<network::Sides::Link> links(network.edges.size());
    for (std::size_t i = 0; i < links.size(); ++i)
        if (const FlowEdge& e = network.edges[i]; !taken_out[i] && is_there(e)) links[i] = {e.a, e.b};
    return links;
}

std::vector<int> nodes_of(const std::vector<FlowSource>& sources) {
    std::vector<int> nodes;
    for (const FlowSource& s : sources) nodes.push_back(s.node);
    return nodes;
}

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
    , sides_(at(network.nodes),
             links_of(network, taken_out, [](const FlowEdge& e) { return e.capacity == no_limit; }))
    , blocks_(blocks(at(network.nodes),
                     links_of(network, taken_out, [](const FlowEdge& e) { return e.capacity > 0; }),
                     nodes_of(network.sources)))
    , unlimited_of_(at(network.nodes))
    , nodes_of_(at(network.nodes))
    , alive_(blocks_.hangs_at.size())
    , limited_of_(blocks_.hangs_at.size()) {
    for (int n = 0; n < network.nodes; ++n) nodes_of_[at(place_of(n))].push_back(n);
    for (std::size_t i = 0; i < network.edges.size(); ++i)
        if (!taken_out[i] && network.edges[i].capacity == no_limit)
            unlimited_of_[at(place_of(network.edges[i].a))].push_back(static_cast<int>(i));
    for (const FlowSource& s : network.sources) {
        int node = s.node;
        for (int block = blocks_.above[at(node)]; block >= 0 && !alive_[at(block)];
             block = blocks_.above[at(node)]) {
            alive_[at(block)] = true;
            node = blocks_.hangs_at[at(block)];
        }
        trunk_[blocks_.root[at(s.node)]];
    }
    for (std::size_t i = 0; i < network.edges.size(); ++i) {
        const int block = blocks_.of_link[i];
        if (block < 0 || network.edges[i].capacity == no_limit) continue;
        limited_of_[at(block)].push_back(static_cast<int>(i));
        if (is_alive(block)) trunk_[blocks_.root[at(network.edges[i].a)]].push_back(static_cast<int>(i));
    }
}

/// The limited edges that can have a part in a flow into this node; none where no source is.
std::vector<int> Flows::limited_towards(int node) const {
    const auto trunk = trunk_.find(blocks_.root[at(node)]);
    if (trunk == trunk_.end()) return {};
    auto all = trunk->second;
    for (int block = blocks_.above[at(node)]; block >= 0 && !is_alive(block);
         block = blocks_.above[at(blocks_.hangs_at[at(block)])])
        all.insert(all.end(), limited_of_[at(block)].begin(), limited_of_[at(block)].end());
    return all;
}

int Flows::dead_end(int edge) const {
    const int block = blocks_.of_link[at(edge)];
    if (block < 0 || is_alive(block) || blocks_.links[at(block)] != 1) return -1;
    const auto& e = network_.edges[at(edge)];
    return blocks_.hangs_at[at(block)] == e.a ? e.b : e.a;
}

Flow Flows::into(int node, const std::vector<bool>& from, int without) const {
    // The edge taken out may part its place in two; what was reached over it has a number of its own.
    const bool parts = without >= 0 && sides_.is_bridge(without);
    const int parted = parts ? place_of(sides_.beyond(without)) : -1;
    const auto here_of = [&](int n) {
        const int place = place_of(n);
        return place == parted && sides_.reached(without, sides_.beyond(without), n) ? -1 : place;
    };
    return flow_into(node, from, without, here_of);
}

Flows::Parted Flows::without(const std::vector<int>& edges) const {
    Parted out;
    std::set<int> places;
    for (const int e : edges) places.insert(place_of(network_.edges[at(e)].a));
    const std::set<int> taken(edges.begin(), edges.end());
    int pieces = 0;
    for (const int place : places) {
        std::map<int, std::vector<int>> next;
        for (const int e : unlimited_of_[at(place)]) {
            const FlowEdge& edge = network_.edges[at(e)];
            if (!taken.contains(e)) next[edge.a].push_back(edge.b), next[edge.b].push_back(edge.a);
        }
        for (const int start : nodes_of_[at(place)]) {
            if (!out.piece.try_emplace(start, pieces).second) continue;
            for (std::vector<int> open{start}; !open.empty();) {
                const int node = open.back();
                open.pop_back();
                for (const int to : next[node])
                    if (out.piece.try_emplace(to, pieces).second) open.push_back(to);
            }
            ++pieces;
        }
    }
    return out;
}

int Flows::place_of(int node, const Parted& parted) const {
    const auto piece = parted.piece.find(node);
    return piece == parted.piece.end() ? place_of(node) : -2 - piece->second;
}

Flow Flows::into(int node, const std::vector<bool>& from, const Parted& parted) const {
    return flow_into(node, from, -1, [&](int n) { return place_of(n, parted); });
}

/// `here_of`: the same number for all nodes that are one place.
template <class HereOf>
Flow Flows::flow_into(int node, const std::vector<bool>& from, int without, HereOf here_of) const {
    const auto limited = limited_towards(node);
    // Here, and everywhere that limited edges or sources touch; the rest has no part in it.
    std::map<int, Traits::vertex_descriptor> vertex{{here_of(node), 1}};
    const auto vertex_of = [&](int n) {
        return vertex.try_emplace(here_of(n), vertex.size() + 1).first->second;
    };
    Microampere all = 1; // more than can flow
    for (const int i : limited) all += network_.edges[at(i)].capacity;
    Microampere here = 0;
    std::vector<std::pair<Traits::vertex_descriptor, Microampere>> supplies;
    for (std::size_t i = 0; i < network_.sources.size(); ++i) {
        const auto& s = network_.sources[i];
        if (!from[i] || blocks_.root[at(s.node)] != blocks_.root[at(node)]) continue;
        if (here_of(s.node) != here_of(node)) {
            supplies.emplace_back(vertex_of(s.node), std::min(s.limit, all));
            continue;
        }
        if (s.limit == no_limit) return {no_limit, {}};
        here += s.limit;
    }
    if (supplies.empty() || limited.empty()) return {here, {}};
    const auto is_used = [&](int i) {
        const auto& e = network_.edges[at(i)];
        return i != without && here_of(e.a) != here_of(e.b);
    };
    for (const int i : limited)
        if (is_used(i)) vertex_of(network_.edges[at(i)].a), vertex_of(network_.edges[at(i)].b);

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
        if (!is_used(i)) continue;
        const auto& e = network_.edges[at(i)];
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
