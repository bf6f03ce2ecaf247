#include "core/protect/placement.h"

#include "core/base/check.h"
#include "core/protect/graph.h"

#include <algorithm>
#include <map>

namespace fl::protect {
namespace {

/// The device branches of some edges, once each.
std::vector<int> devices_of(const network::Network& net, const Graph& g, const std::vector<int>& edges) {
    std::vector<int> out;
    for (const int e : edges)
        if (const int branch = g.branch_of[at(e)]; branch >= 0 && is_device(net.branches[at(branch)]))
            out.push_back(branch);
    std::sort(out.begin(), out.end());
    out.erase(std::unique(out.begin(), out.end()), out.end());
    return out;
}

/// Both ends of a core that is taken out of the graph.
struct Ends {
    Flow a, b;
    Microampere greatest() const { return std::max(a.greatest, b.greatest); }
    std::vector<int> cut() const {
        auto all = a.cut;
        all.insert(all.end(), b.cut.begin(), b.cut.end());
        return all;
    }
};

Ends into_ends(const Flows& flows, const network::Branch& core, const std::vector<bool>& from) {
    Ends ends{flows.into(core.a, from), {}};
    ends.b = flows.joined(core.a, core.b) ? ends.a : flows.into(core.b, from);
    return ends;
}

class Placer {
public:
    Placer(const plan::Installation& in, const network::Network& net, const Graph& g)
        : in_(in)
        , net_(net)
        , g_(g)
        , every_(g.sources.size(), true)
        , taken_(g.flow.edges.size()) {}

    Placement place(std::size_t branch, Current allowed) {
        const auto& core = net_.branches[branch];
        const int edge = g_.edge_of[branch];
        Placement p;
        p.conductor = core.conductor;
        p.allowed = allowed;
        p.return_side = edge < 0;
        if (p.return_side) return p;
        taken_[at(edge)] = true;
        const Flows flows(g_.flow, taken_);
        const Ends ends = into_ends(flows, core, every_);
        p.greatest_a = current_of(ends.a.greatest);
        p.greatest_b = current_of(ends.b.greatest);
        p.reachable = ends.greatest() > 0;
        p.is_protected = !above(ends.greatest(), allowed);
        p.devices = devices_of(net_, g_, ends.cut());
        if (p.reachable)
            for (std::size_t s = 0; s < g_.sources.size(); ++s) add_source(p, flows, core, s);
        if (!p.is_protected) {
            p.exposed = true;
            p.only_by_adding = !reached_by_more_than(core, allowed);
            p.hinges_on_unknown =
                g_.has_unknown &&
                !above(into_ends(Flows(g_.lenient, taken_), core, every_).greatest(), allowed);
        }
        taken_[at(edge)] = false;
        return p;
    }

private:
    void add_source(Placement& p, const Flows& flows, const network::Branch& core, std::size_t s) {
        std::vector<bool> alone(g_.sources.size());
        alone[s] = true;
        const Ends ends = into_ends(flows, core, alone);
        if (ends.greatest() == 0) return;
        FromSource from;
        from.source = static_cast<int>(s);
        from.greatest = current_of(ends.greatest());
        from.is_protected = !above(ends.greatest(), p.allowed);
        from.devices = devices_of(net_, g_, ends.cut());
        if (!from.is_protected) from.path = path(core, s, ends.greatest(), p.allowed);
        p.from.push_back(std::move(from));
    }

    /// Edges of the graph, but the core, over which more than `allowed` can flow.
    std::vector<bool> wide(Current allowed) const {
        std::vector<bool> out(g_.flow.edges.size());
        for (std::size_t e = 0; e < out.size(); ++e)
            out[e] = !taken_[e] && above(g_.flow.edges[e].capacity, allowed);
        return out;
    }

    /// True when a single way from a single source carries more than `allowed` to the core.
    bool reached_by_more_than(const network::Branch& core, Current allowed) const {
        auto reached = std::vector<bool>(net_.nodes.size());
        for (const auto& s : g_.flow.sources)
            if (above(s.limit, allowed)) reached[at(s.node)] = true;
        const auto edges = wide(allowed);
        for (bool again = true; again;) {
            again = false;
            for (std::size_t e = 0; e < edges.size(); ++e) {
                const auto& edge = g_.flow.edges[e];
                if (!edges[e] || reached[at(edge.a)] == reached[at(edge.b)]) continue;
                reached[at(edge.a)] = reached[at(edge.b)] = again = true;
            }
        }
        return reached[at(core.a)] || reached[at(core.b)];
    }

    /// The shortest way from a source to the core's nearer end: without any device if there is one, else over
    /// devices that each let through more than is allowed, else over any. It never needs the core itself.
    std::vector<int> path(const network::Branch& core, std::size_t s, Microampere greatest, Current allowed) {
        const auto nearer = [&](const std::vector<std::optional<network::Way>>& ways) -> const network::Way* {
            const auto &a = ways[at(core.a)], &b = ways[at(core.b)];
            if (!a || !b) return a ? &*a : b ? &*b : nullptr;
            return b->at_least < a->at_least ? &*b : &*a;
        };
        for (const Microampere least : {greatest == no_limit ? no_limit : whole(allowed) + 1, Microampere{1}})
            if (const auto* way = nearer(ways(s, least))) return way->branches;
        return {};
    }

    const std::vector<std::optional<network::Way>>& ways(std::size_t s, Microampere least) {
        auto& known = ways_[{s, least}];
        if (!known.empty()) return known;
        std::vector<bool> usable(net_.branches.size());
        std::vector<int> from{g_.sources[s].node};
        for (std::size_t e = 0; e < g_.flow.edges.size(); ++e) {
            if (g_.flow.edges[e].capacity < least) continue;
            if (const int branch = g_.branch_of[e]; branch >= 0) usable[at(branch)] = true;
        }
        known = network::shortest_ways(in_, net_, from, usable);
        return known;
    }

    const plan::Installation& in_;
    const network::Network& net_;
    const Graph& g_;
    std::vector<bool> every_; // all sources
    std::vector<bool> taken_; // the core looked at
    std::map<std::pair<std::size_t, Microampere>, std::vector<std::optional<network::Way>>> ways_;
};

} // namespace

std::vector<Placement> placements(const plan::Installation& installation, const network::Network& network,
                                  const std::vector<Current>& may_carry, double device_multiple) {
    FL_CHECK(may_carry.size() == network.branches.size());
    const Graph graph = make_graph(installation, network);
    const auto starting = starting_circuit(installation, network, graph);
    Placer placer(installation, network, graph);
    std::vector<Placement> all;
    for (std::size_t i = 0; i < network.branches.size(); ++i) {
        if (network.branches[i].kind != network::BranchKind::conductor) break; // they come first
        all.push_back(placer.place(i, may_carry[i] * device_multiple));
        all.back().starting = starting[i];
    }
    add_exposures(installation, network, graph, all);
    add_returns(installation, network, graph, all);
    return all;
}

} // namespace fl::protect
