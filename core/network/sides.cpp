#include "core/network/sides.h"

#include "core/base/check.h"

#include <algorithm>

namespace fl::network {
namespace {

std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

/// Usable branches at each node, one after the other.
struct Incident {
    std::vector<int> starts, branches;

    Incident(const Network& network, const std::vector<bool>& usable)
        : starts(network.nodes.size() + 1) {
        const auto each = [&](auto visit) {
            for (std::size_t i = 0; i < usable.size(); ++i)
                if (const Branch& b = network.branches[i]; usable[i] && b.a != b.b)
                    visit(b.a, static_cast<int>(i)), visit(b.b, static_cast<int>(i));
        };
        each([&](int node, int) { ++starts[at(node) + 1]; });
        for (std::size_t n = 1; n < starts.size(); ++n) starts[n] += starts[n - 1];
        branches.resize(at(starts.back()));
        auto next = starts;
        each([&](int node, int branch) { branches[at(next[at(node)]++)] = branch; });
    }
};

} // namespace

Sides::Sides(const Network& network, const std::vector<bool>& usable)
    : at_(network.nodes.size())
    , bridge_(network.branches.size(), -1) {
    FL_CHECK(usable.size() == network.branches.size());
    const Incident incident(network, usable);
    struct Step {
        int node, by, next; // by: branch it was reached over; next: place in the list of branches
    };
    std::vector<int> low(at_.size()); // the least number reached from a node's part by a branch not walked
    std::vector<Step> way;
    int count = 0, island = 0;
    const auto enter = [&](int node, int by) {
        low[at(node)] = at_[at(node)].first = count++;
        at_[at(node)].island = island;
        way.push_back({node, by, incident.starts[at(node)]});
    };
    for (int root = 0; root < static_cast<int>(at_.size()); ++root) {
        if (at_[at(root)].island >= 0) continue;
        enter(root, -1);
        while (!way.empty()) {
            Step& here = way.back();
            if (here.next < incident.starts[at(here.node) + 1]) {
                const int branch = incident.branches[at(here.next++)];
                const Branch& b = network.branches[at(branch)];
                const int to = b.a == here.node ? b.b : b.a;
                if (branch == here.by) continue;
                if (at_[at(to)].island < 0)
                    enter(to, branch);
                else
                    low[at(here.node)] = std::min(low[at(here.node)], at_[at(to)].first);
                continue;
            }
            const Step done = here;
            way.pop_back();
            at_[at(done.node)].end = count;
            if (way.empty()) continue;
            const int before = way.back().node;
            low[at(before)] = std::min(low[at(before)], low[at(done.node)]);
            if (low[at(done.node)] == at_[at(done.node)].first) bridge_[at(done.by)] = done.node;
        }
        ++island;
    }
}

bool Sides::within(int root, int node) const {
    const At &r = at_[at(root)], &n = at_[at(node)];
    return r.first <= n.first && n.first < r.end;
}

bool Sides::reached(int without, int from, int node) const {
    if (island(from) != island(node)) return false;
    const int beyond = bridge_[at(without)];
    return beyond < 0 || within(beyond, from) == within(beyond, node);
}

} // namespace fl::network
