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

/// Flows into cores, each with that core taken out. Most cores only lead on to what takes current, or have
/// others beside them: what comes to such a one comes to its whole place, and is worked out once for that.
class Inflows {
public:
    explicit Inflows(const FlowNetwork& network)
        : network_(network)
        , flows_(network, std::vector<bool>(network.edges.size())) {}

    /// `source`: index of the one that feeds; -1 = all together.
    Ends into_ends(int edge, int source) {
        const auto& core = network_.edges[at(edge)];
        if (flows_.stays_joined(edge)) return {into_place(core.a, source), into_place(core.b, source)};
        if (const int dead = flows_.dead_end(edge); dead >= 0) {
            if (dead == core.b) return {into_place(core.a, source), {}};
            return {{}, into_place(core.b, source)};
        }
        const auto from = only(source);
        return {flows_.into(core.a, from, edge), flows_.into(core.b, from, edge)};
    }

private:
    std::vector<bool> only(int source) const {
        std::vector<bool> from(network_.sources.size(), source < 0);
        if (source >= 0) from[at(source)] = true;
        return from;
    }
    const Flow& into_place(int node, int source) {
        const auto [known, fresh] = known_.try_emplace({flows_.place_of(node), source});
        if (fresh) known->second = flows_.into(node, only(source));
        return known->second;
    }

    const FlowNetwork& network_;
    Flows flows_;
    std::map<std::pair<int, int>, Flow> known_; // by place and source
};

class Placer {
public:
    Placer(const plan::Installation& in, const network::Network& net, const Graph& g)
        : in_(in)
        , net_(net)
        , g_(g)
        , flows_(g.flow) {}

    Placement place(std::size_t branch, Current allowed) {
        const auto& core = net_.branches[branch];
        const int edge = g_.edge_of[branch];
        Placement p;
        p.conductor = core.conductor;
        p.allowed = allowed;
        p.return_side = edge < 0;
        if (p.return_side) return p;
        const Ends ends = flows_.into_ends(edge, -1);
        p.greatest_a = current_of(ends.a.greatest);
        p.greatest_b = current_of(ends.b.greatest);
        p.reachable = ends.greatest() > 0;
        p.is_protected = !above(ends.greatest(), allowed);
        p.devices = devices_of(net_, g_, ends.cut());
        if (p.reachable)
            for (std::size_t s = 0; s < g_.sources.size(); ++s) add_source(p, core, edge, s);
        if (!p.is_protected) {
            p.exposed = true;
            p.only_by_adding = !reached_by_more_than(core, allowed);
            if (g_.has_unknown) {
                if (!lenient_) lenient_.emplace(g_.lenient);
                p.hinges_on_unknown = !above(lenient_->into_ends(edge, -1).greatest(), allowed);
            }
        }
        return p;
    }

private:
    void add_source(Placement& p, const network::Branch& core, int edge, std::size_t s) {
        const Ends ends = flows_.into_ends(edge, static_cast<int>(s));
        if (ends.greatest() == 0) return;
        FromSource from;
        from.source = static_cast<int>(s);
        from.greatest = current_of(ends.greatest());
        from.is_protected = !above(ends.greatest(), p.allowed);
        from.devices = devices_of(net_, g_, ends.cut());
        if (!from.is_protected) from.path = path(core, s, ends.greatest(), p.allowed);
        p.from.push_back(std::move(from));
    }

    /// True when a single way from a single source carries more than `allowed` to the core. The core itself
    /// may be on it: then one of its ends is reached without it.
    bool reached_by_more_than(const network::Branch& core, Current allowed) {
        const auto [known, fresh] = reached_by_.try_emplace(allowed);
        if (fresh) known->second = reached_by_more_than(allowed);
        return known->second[at(core.a)] || known->second[at(core.b)];
    }
    /// The same per node.
    std::vector<bool> reached_by_more_than(Current allowed) const {
        std::vector<network::Sides::Link> wide(g_.flow.edges.size());
        for (std::size_t e = 0; e < wide.size(); ++e)
            if (above(g_.flow.edges[e].capacity, allowed)) wide[e] = {g_.flow.edges[e].a, g_.flow.edges[e].b};
        const network::Sides joined(net_.nodes.size(), wide);
        std::vector<bool> fed(net_.nodes.size()), reached(fed); // fed: by island
        for (const auto& s : g_.flow.sources)
            if (above(s.limit, allowed)) fed[at(joined.island(s.node))] = true;
        for (std::size_t n = 0; n < reached.size(); ++n)
            reached[n] = fed[at(joined.island(static_cast<int>(n)))];
        return reached;
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
    Inflows flows_;
    std::optional<Inflows> lenient_;
    std::map<Current, std::vector<bool>> reached_by_;
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
