#include "core/rules/open.h"

#include <algorithm>
#include <cmath>
#include <queue>
#include <tuple>

namespace fl::rules {

Opens::Opens(const Facts& of)
    : facts(of)
    , net(of.network)
    , sources(protect::sources(of.installation, net))
    , at_node(branches_at(net))
    , live(live_branches(of))
    , open(net.branches.size()) {
    for (std::size_t b = 0; b < net.branches.size(); ++b)
        if (net.branches[b].kind == network::BranchKind::conductor) open[b] = lacking(static_cast<int>(b));
    std::vector<bool> bare = live;
    for (std::size_t b = 0; b < bare.size(); ++b)
        if (protect::is_device(net.branches[b])) bare[b] = false;
    part_ = network::islands(net, bare);
}

std::optional<Open> Opens::lacking(int b) const {
    const auto* p = placement_of(facts, b);
    const auto* c = conductor_of(facts, b);
    if (!p || !c || p->return_side || !p->reachable || p->is_protected || p->only_by_adding ||
        p->hinges_on_unknown)
        return {};
    if (p->starting && facts.rule_set.starting_exempt) return {};
    std::optional<Open> worst;
    Current most;
    for (const auto& from : p->from) {
        const bool unlimited = !std::isfinite(from.greatest.si());
        if (from.is_protected || (!unlimited && p->allowed.si() <= 0)) continue;
        // As found: judged only where something new can feed it.
        if (c->origin == plan::Origin::as_found && as_found(facts, sources[at(from.source)].component))
            continue;
        if (worst && (worst->unlimited || (!unlimited && from.greatest <= most))) continue;
        worst = Open{from.source, unlimited, &from};
        most = from.greatest;
    }
    return worst;
}

/// Where what an open conductor gets comes from: its point of supply, else the source.
int Opens::start_of(int branch) const {
    const Open& o = *open[at(branch)];
    return o.from->supply >= 0 ? o.from->supply : sources[at(o.source)].node;
}

const std::vector<int>& Opens::hops_from(int node) {
    auto& hops = hops_[node];
    if (!hops.empty()) return hops;
    hops.assign(net.nodes.size(), 1 << 20);
    std::queue<int> next;
    hops[at(node)] = 0;
    for (next.push(node); !next.empty(); next.pop())
        for (const int b : at_node[at(next.front())]) {
            const int to = far_end(b, next.front());
            if (!live[at(b)] || hops[at(to)] <= hops[at(next.front())] + 1) continue;
            hops[at(to)] = hops[at(next.front())] + 1;
            next.push(to);
        }
    return hops;
}

std::vector<int> Opens::outwards() {
    std::vector<std::tuple<int, int, int>> order;
    for (std::size_t b = 0; b < open.size(); ++b)
        if (open[b]) {
            const int start = start_of(static_cast<int>(b));
            const int before = hops_from(sources[at(open[b]->source)].node)[at(start)];
            const auto& hops = hops_from(start);
            const auto& branch = net.branches[b];
            order.emplace_back(before, std::min(hops[at(branch.a)], hops[at(branch.b)]), static_cast<int>(b));
        }
    std::sort(order.begin(), order.end());
    std::vector<int> branches;
    for (const auto& [before, hops, b] : order) branches.push_back(b);
    return branches;
}

int Opens::fed_end(int b) {
    const auto& branch = net.branches[at(b)];
    const int supply = open[at(b)]->from->supply;
    if (supply == branch.a || supply == branch.b) return supply;
    const auto& hops = hops_from(start_of(b));
    return hops[at(branch.a)] <= hops[at(branch.b)] ? branch.a : branch.b;
}

int Opens::far_end(int branch, int node) const {
    const auto& b = net.branches[at(branch)];
    return b.a == node ? b.b : b.a;
}

int Opens::source_behind(int node, int than) const {
    for (std::size_t s = 0; s < sources.size(); ++s)
        if (static_cast<int>(s) != than && part_[at(sources[s].node)] == part_[at(node)])
            return static_cast<int>(s);
    return -1;
}

} // namespace fl::rules
