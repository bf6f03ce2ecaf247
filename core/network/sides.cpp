#include "core/network/sides.h"

#include "core/base/check.h"

#include <algorithm>

namespace fl::network {
namespace {

std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

/// The links at each node, one node after the other.
struct Incident {
    std::vector<int> starts, links;

    Incident(std::size_t nodes, const std::vector<Sides::Link>& all)
        : starts(nodes + 1) {
        const auto each = [&](auto visit) {
            for (std::size_t i = 0; i < all.size(); ++i)
                if (all[i].a != all[i].b)
                    visit(all[i].a, static_cast<int>(i)), visit(all[i].b, static_cast<int>(i));
        };
        each([&](int node, int) { ++starts[at(node) + 1]; });
        for (std::size_t n = 1; n < starts.size(); ++n) starts[n] += starts[n - 1];
        links.resize(at(starts.back()));
        auto next = starts;
        each([&](int node, int link) { links[at(next[at(node)]++)] = link; });
    }
};

std::vector<Sides::Link> links_of(const Network& network, const std::vector<bool>& usable) {
    FL_CHECK(usable.size() == network.branches.size());
    std::vector<Sides::Link> links(usable.size());
    for (std::size_t i = 0; i < links.size(); ++i)
        if (usable[i]) links[i] = {network.branches[i].a, network.branches[i].b};
    return links;
}

} // namespace

Sides::Sides(const Network& network, const std::vector<bool>& usable)
    : Sides(network.nodes.size(), links_of(network, usable)) {}

Sides::Sides(std::size_t nodes, const std::vector<Link>& links)
    : at_(nodes)
    , bridge_(links.size(), -1) {
    const Incident incident(nodes, links);
    struct Step {
        int node, by, next; // by: link it was reached over; next: place in the list of links
    };
    std::vector<int> low(at_.size()); // the least number reached from a node's part by a link not walked
    std::vector<Step> way;
    int count = 0, island = 0;
    const auto enter = [&](int node, int by) {
        low[at(node)] = at_[at(node)].first = count++;
        at_[at(node)].island = island;
        way.push_back({node, by, incident.starts[at(node)]});
    };
    for (int root = 0; root < static_cast<int>(at_.size()); ++root) {
        if (at_[at(root)].island >= 0) continue;
        starts_.push_back(count);
        enter(root, -1);
        while (!way.empty()) {
            Step& here = way.back();
            if (here.next < incident.starts[at(here.node) + 1]) {
                const int link = incident.links[at(here.next++)];
                const int to = links[at(link)].a == here.node ? links[at(link)].b : links[at(link)].a;
                if (link == here.by) continue;
                if (at_[at(to)].island < 0)
                    enter(to, link);
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
    starts_.push_back(count);
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
