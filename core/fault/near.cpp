#include "core/fault/near.h"

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/biconnected_components.hpp>

#include <algorithm>
#include <deque>
#include <utility>

namespace fl::fault {
namespace {

std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS, boost::no_property,
                                    boost::property<boost::edge_index_t, std::size_t>>;

} // namespace

Near::Near(const Snapshot& snapshot, std::vector<bool> device)
    : device_(std::move(device))
    , edges_(at(snapshot.nodes))
    , count_(at(snapshot.nodes))
    , seen_(at(snapshot.nodes)) {
    for (std::size_t i = 0; i < snapshot.elements.size(); ++i) {
        const Element& e = snapshot.elements[i];
        if (e.a == e.b) continue;
        edges_[at(e.a)].push_back({e.b, static_cast<int>(i)});
        edges_[at(e.b)].push_back({e.a, static_cast<int>(i)});
    }
    find_blocks(snapshot);
}

void Near::find_blocks(const Snapshot& snapshot) {
    // Each element with a vertex of its own in the middle, so that two side by side are two.
    const int up = snapshot.nodes, first = up + 1;
    const std::size_t vertices = at(first) + snapshot.elements.size();
    Graph graph(vertices);
    std::size_t edges = 0;
    std::vector<std::pair<int, int>> ends; // of each edge
    std::vector<std::size_t> half;         // of each element: one of its edges
    const auto join = [&](int a, int b) {
        boost::add_edge(at(a), at(b), edges++, graph);
        ends.emplace_back(a, b);
    };
    for (std::size_t i = 0; i < snapshot.elements.size(); ++i) {
        const int middle = first + static_cast<int>(i);
        half.push_back(edges);
        join(snapshot.elements[i].a, middle);
        if (snapshot.elements[i].a != snapshot.elements[i].b) join(middle, snapshot.elements[i].b);
    }
    std::vector<int> poles;
    for (const Feeder& f : snapshot.feeders) poles.insert(poles.end(), {f.plus, f.minus});
    std::sort(poles.begin(), poles.end());
    poles.erase(std::unique(poles.begin(), poles.end()), poles.end());
    for (const int pole : poles) join(pole, up);
    std::vector<std::size_t> block(edges);
    const auto blocks = boost::biconnected_components(
        graph, boost::make_iterator_property_map(block.begin(), boost::get(boost::edge_index, graph)));
    std::vector<std::vector<int>> on(blocks);       // vertices of each block
    std::vector<std::vector<int>> around(vertices); // blocks of each vertex
    for (std::size_t e = 0; e < edges; ++e)
        for (const int vertex : {ends[e].first, ends[e].second}) {
            on[block[e]].push_back(vertex);
            around[at(vertex)].push_back(static_cast<int>(block[e]));
        }
    block_of_.resize(snapshot.elements.size());
    for (std::size_t i = 0; i < block_of_.size(); ++i) block_of_[i] = static_cast<int>(block[half[i]]);
    home_.assign(vertices, -1);
    top_.assign(blocks, -1);
    open_.assign(blocks, 0);
    std::vector<int> queue{up};
    for (std::size_t i = 0; i < queue.size(); ++i)
        for (const int b : around[at(queue[i])]) {
            if (top_[at(b)] >= 0) continue;
            top_[at(b)] = queue[i];
            for (const int vertex : on[at(b)])
                if (vertex != queue[i] && home_[at(vertex)] < 0) {
                    home_[at(vertex)] = b;
                    queue.push_back(vertex);
                }
        }
}

std::vector<Near::Device> Near::devices(int node) {
    ++walk_;
    for (int b = home_[at(node)]; b >= 0; b = home_[at(top_[at(b)])]) open_[at(b)] = walk_;
    std::vector<Device> found;
    std::deque<std::pair<int, int>> queue{{0, node}}; // devices on the way, node
    const auto reach = [&](int count, int to) {
        if (seen_[at(to)] == walk_ && count_[at(to)] <= count) return false;
        seen_[at(to)] = walk_;
        count_[at(to)] = count;
        return true;
    };
    reach(0, node);
    while (!queue.empty()) {
        const auto [count, from] = queue.front();
        queue.pop_front();
        if (count > count_[at(from)]) continue;
        for (const Edge& e : edges_[at(from)]) {
            if (open_[at(block_of_[at(e.element)])] != walk_) continue;
            const bool device = device_[at(e.element)];
            const auto known = [&](const Device& d) { return d.element == e.element; };
            if (device && std::none_of(found.begin(), found.end(), known))
                found.push_back({e.element, count == 0});
            const int then = count + (device ? 1 : 0);
            constexpr int most = 2;
            if (then >= most || !reach(then, e.to)) continue;
            if (device)
                queue.emplace_back(then, e.to);
            else
                queue.emplace_front(then, e.to);
        }
    }
    return found;
}

} // namespace fl::fault
