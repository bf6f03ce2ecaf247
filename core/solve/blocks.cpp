#include "core/solve/blocks.h"

#include "core/solve/index.h"

#include <algorithm>
#include <numeric>

namespace fl::solve {

Union::Union(int size)
    : parent_(at(size)) {
    std::iota(parent_.begin(), parent_.end(), 0);
}

int Union::find(int element) {
    while (parent_[at(element)] != element) {
        parent_[at(element)] = parent_[at(parent_[at(element)])];
        element = parent_[at(element)];
    }
    return element;
}

bool Union::join(int a, int b) {
    a = find(a);
    b = find(b);
    if (a == b) return false;
    parent_[at(std::max(a, b))] =
        std::min(a, b); // the lower number stays, so that numbers don't depend on order
    return true;
}

// Tarjan's depth-first search without recursion. Boost.Graph's own loses parallel edges to the parent, and
// two cables side by side are what this trade is made of.
std::vector<int> blocks_of(int nodes, const std::vector<Port>& ports) {
    std::vector<std::vector<int>> touching(at(nodes));
    for (std::size_t p = 0; p < ports.size(); ++p) {
        touching[at(ports[p].plus)].push_back(static_cast<int>(p));
        if (ports[p].minus != ports[p].plus) touching[at(ports[p].minus)].push_back(static_cast<int>(p));
    }
    std::vector<int> block(ports.size(), -1), order(at(nodes), -1), low(at(nodes), 0);
    std::vector<int> open; // ports seen and not yet given a block
    struct Visit {
        int node, by;
        std::size_t next;
    };
    std::vector<Visit> path;
    int count = 0, blocks = 0;
    for (int start = 0; start < nodes; ++start) {
        if (order[at(start)] >= 0) continue;
        order[at(start)] = low[at(start)] = count++;
        path.push_back({start, -1, 0});
        while (!path.empty()) {
            Visit& visit = path.back();
            const int node = visit.node;
            if (visit.next < touching[at(node)].size()) {
                const int p = touching[at(node)][visit.next++];
                const Port& port = ports[at(p)];
                if (port.plus == port.minus) {
                    block[at(p)] = blocks++;
                    continue;
                }
                if (p == visit.by) continue;
                const int other = port.plus == node ? port.minus : port.plus;
                if (order[at(other)] < 0) {
                    open.push_back(p);
                    order[at(other)] = low[at(other)] = count++;
                    path.push_back({other, p, 0});
                } else if (order[at(other)] < order[at(node)]) {
                    open.push_back(p);
                    low[at(node)] = std::min(low[at(node)], order[at(other)]);
                }
                continue;
            }
            const int by = visit.by;
            path.pop_back();
            if (path.empty()) break;
            const int parent = path.back().node;
            low[at(parent)] = std::min(low[at(parent)], low[at(node)]);
            if (low[at(node)] < order[at(parent)]) continue;
            // The parent separates what was found below it: that is one block.
            while (true) {
                const int p = open.back();
                open.pop_back();
                block[at(p)] = blocks;
                if (p == by) break;
            }
            ++blocks;
        }
    }
    return block;
}

} // namespace fl::solve
