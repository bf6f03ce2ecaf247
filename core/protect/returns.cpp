#include "core/network/part.h"
#include "core/protect/graph.h"

#include <algorithm>
#include <optional>

namespace fl::protect {
namespace {

/// A place where live and return meet, so that a fault there comes back by its minus.
struct Meeting {
    int plus = -1, minus = -1;
    int source = -1;               ///< index of the source that it is itself
    std::vector<bool> fed_by = {}; ///< per source: can drive a fault here
    Microampere fault = 0;
};

std::vector<Meeting> meetings(const plan::Installation& in, const network::Network& net, const Graph& g) {
    std::vector<Meeting> all;
    const auto source_of = [&](int port, int converter) {
        for (std::size_t s = 0; s < g.sources.size(); ++s)
            if (g.sources[s].port == port && g.sources[s].converter == converter) return static_cast<int>(s);
        return -1;
    };
    for (std::size_t i = 0; i < net.ports.size(); ++i)
        all.push_back({net.ports[i].plus, net.ports[i].minus, source_of(static_cast<int>(i), -1)});
    for (std::size_t i = 0; i < net.converters.size(); ++i) {
        all.push_back({net.converters[i].in_plus, net.converters[i].in_minus});
        all.push_back(
            {net.converters[i].out_plus, net.converters[i].out_minus, source_of(-1, static_cast<int>(i))});
    }
    for (const auto& c : in.components)
        if (const auto* box = std::get_if<plan::FuseBox>(&c.with); box && box->minus_bar)
            all.push_back({net.node_of({c.id, "in"}), net.node_of({c.id, "-"})});
    std::erase_if(all, [&](const Meeting& m) {
        return m.plus < 0 || m.minus < 0 || g.returns[at(m.plus)] || !g.returns[at(m.minus)];
    });
    FlowNetwork joined = g.flow;
    for (auto& edge : joined.edges) edge.capacity = no_limit;
    const std::vector<bool> none(g.flow.edges.size());
    const Flows flows(g.flow, none), reach(joined, none);
    for (auto& m : all) {
        for (const Source& s : g.sources) m.fed_by.push_back(reach.joined(s.node, m.plus));
        if (m.source >= 0) m.fed_by[at(m.source)] = false; // its own fault does not come back through a wire
        m.fault = flows.into(m.plus, m.fed_by).greatest;
    }
    std::erase_if(all, [](const Meeting& m) { return m.fault == 0; });
    std::stable_sort(all.begin(), all.end(),
                     [](const Meeting& x, const Meeting& y) { return x.fault > y.fault; });
    return all;
}

/// The return side as capacities. Its flows start at a meeting or at the minus of a source.
struct Returns {
    FlowNetwork flow;
    std::vector<int> edge_of; ///< per branch
    std::vector<Meeting> meetings;
    std::vector<int> source_of; ///< per flow source after those of the meetings: index of the source

    std::vector<bool> from_meeting(std::size_t m) const {
        std::vector<bool> mask(flow.sources.size());
        mask[m] = true;
        return mask;
    }
    std::vector<bool> home_from(std::size_t m) const {
        std::vector<bool> mask(flow.sources.size());
        for (std::size_t s = 0; s < source_of.size(); ++s)
            mask[meetings.size() + s] = meetings[m].fed_by[at(source_of[s])];
        return mask;
    }
};

Returns make_returns(const plan::Installation& in, const network::Network& net, const Graph& g) {
    Returns r;
    r.meetings = meetings(in, net, g);
    r.flow.nodes = g.flow.nodes;
    r.edge_of.assign(net.branches.size(), -1);
    for (std::size_t i = 0; i < net.branches.size(); ++i) {
        const auto& b = net.branches[i];
        if (!g.returns[at(b.a)] || !is_fitted(in, b)) continue;
        r.edge_of[i] = static_cast<int>(r.flow.edges.size());
        const auto rating = device_rating(in, b);
        r.flow.edges.push_back({b.a, b.b, rating ? whole(*rating) : no_limit});
    }
    for (const auto& m : r.meetings) r.flow.sources.push_back({m.minus, no_limit});
    for (std::size_t s = 0; s < g.sources.size(); ++s) {
        const auto& source = g.sources[s];
        const int minus = source.port >= 0        ? net.ports[at(source.port)].minus
                          : source.converter >= 0 ? net.converters[at(source.converter)].out_minus
                                                  : -1;
        if (minus < 0 || !g.returns[at(minus)]) continue;
        r.flow.sources.push_back({minus, source.limit ? whole(*source.limit) : no_limit});
        r.source_of.push_back(static_cast<int>(s));
    }
    return r;
}

/// The greatest of values at neighbouring places, for any stretch of them (a tree of halves).
class Greatest {
public:
    explicit Greatest(std::size_t places)
        : places_(places)
        , tree_(2 * places) {}
    void raise(std::size_t place, Microampere value) {
        for (std::size_t i = place + places_; i > 0; i /= 2) tree_[i] = std::max(tree_[i], value);
    }
    /// From `begin` to before `end`; 0 = nothing there.
    Microampere most(std::size_t begin, std::size_t end) const {
        Microampere most = 0;
        for (begin += places_, end += places_; begin < end; begin /= 2, end /= 2) {
            if (begin % 2 == 1) most = std::max(most, tree_[begin++]);
            if (end % 2 == 1) most = std::max(most, tree_[--end]);
        }
        return most;
    }

private:
    std::size_t places_;
    std::vector<Microampere> tree_;
};

/// Greatest lasting fault current that comes back through a core, one fault at a time.
class Backflows {
public:
    explicit Backflows(const Returns& r)
        : r_(r)
        , flows_(r.flow, std::vector<bool>(r.flow.edges.size()))
        , sides_(at(r.flow.nodes), links_of(r.flow))
        , limited_(at(r.flow.nodes))
        , worth_(at(r.flow.nodes)) {
        for (const FlowEdge& e : r.flow.edges)
            if (e.capacity != no_limit) limited_[at(sides_.island(e.a))] = true;
        for (std::size_t m = 0; m < r.meetings.size(); ++m) {
            const int node = r.meetings[m].minus;
            const Microampere home =
                home_in(m, [&](int n) { return sides_.island(n) == sides_.island(node); });
            worth_.raise(at(sides_.number(node)), std::min(home, r.meetings[m].fault));
        }
    }

    Flow through(int edge) const {
        const FlowEdge& core = r_.flow.edges[at(edge)];
        if (limited_[at(sides_.island(core.a))]) return by_flows(edge);
        return {by_reach(edge), {}};
    }

private:
    static std::vector<network::Sides::Link> links_of(const FlowNetwork& network) {
        std::vector<network::Sides::Link> links;
        for (const FlowEdge& e : network.edges) links.push_back({e.a, e.b});
        return links;
    }

    /// What the sources that feed meeting `m` can take home at the nodes for which `is_there` says true.
    template <class IsThere>
    Microampere home_in(std::size_t m, IsThere is_there) const {
        Microampere sum = 0;
        for (std::size_t s = 0; s < r_.source_of.size(); ++s) {
            const FlowSource& source = r_.flow.sources[r_.meetings.size() + s];
            if (!r_.meetings[m].fed_by[at(r_.source_of[s])] || !is_there(source.node)) continue;
            if (source.limit == no_limit) return no_limit;
            sum += source.limit;
        }
        return sum;
    }

    /// Where no device limits it, all that matters is on which side of the core each fault and each source
    /// is.
    Microampere by_reach(int edge) const {
        const FlowEdge& core = r_.flow.edges[at(edge)];
        if (!sides_.is_bridge(edge)) { // both ends are everywhere
            const auto [from, to] = sides_.numbers(sides_.island(core.a));
            return worth_.most(at(from), at(to));
        }
        const int beyond = sides_.beyond(edge);
        const std::size_t begin = at(sides_.number(beyond)), end = at(sides_.end(beyond));
        bool beyond_has = false, rest_has = false; // a source
        for (std::size_t s = r_.meetings.size(); s < r_.flow.sources.size(); ++s) {
            const int node = r_.flow.sources[s].node;
            if (sides_.island(node) != sides_.island(beyond)) continue;
            (sides_.reached(edge, beyond, node) ? beyond_has : rest_has) = true;
        }
        if (!beyond_has) return worth_.most(begin, end);
        if (!rest_has) {
            const auto [from, to] = sides_.numbers(sides_.island(beyond));
            return std::max(worth_.most(at(from), begin), worth_.most(end, at(to)));
        }
        Microampere most = 0;
        for (std::size_t m = 0; m < r_.meetings.size(); ++m) {
            if (r_.meetings[m].fault <= most) break; // largest first
            const int node = r_.meetings[m].minus;
            if (sides_.island(node) != sides_.island(beyond)) continue;
            const auto across = [&](int n) {
                return sides_.island(n) == sides_.island(beyond) && !sides_.reached(edge, node, n);
            };
            most = std::max(most, std::min(home_in(m, across), r_.meetings[m].fault));
        }
        return most;
    }

    Flow by_flows(int edge) const {
        const FlowEdge& core = r_.flow.edges[at(edge)];
        Flow greatest;
        for (std::size_t m = 0; m < r_.meetings.size(); ++m) {
            if (r_.meetings[m].fault <= greatest.greatest) break; // largest first
            const auto here = r_.from_meeting(m), home = r_.home_from(m);
            for (const auto& [in, out] : {std::pair(core.a, core.b), std::pair(core.b, core.a)}) {
                Flow way = flows_.into(in, here, edge);
                if (way.greatest == 0) continue;
                if (Flow rest = flows_.into(out, home, edge); rest.greatest < way.greatest)
                    way = std::move(rest);
                if (r_.meetings[m].fault < way.greatest) way = {r_.meetings[m].fault, {}};
                if (way.greatest > greatest.greatest) greatest = std::move(way);
            }
        }
        return greatest;
    }

    const Returns& r_;
    Flows flows_;
    network::Sides sides_;      // over all returns
    std::vector<bool> limited_; // per island of those: a device is in it
    /// Per number of a node: the greatest fault at it that can go home within its island.
    Greatest worth_;
};

} // namespace

void add_returns(const plan::Installation& installation, const network::Network& network, const Graph& graph,
                 std::vector<Placement>& all) {
    const Returns returns = make_returns(installation, network, graph);
    const Backflows flows(returns);
    std::vector<int> branch_of(returns.flow.edges.size());
    for (std::size_t i = 0; i < returns.edge_of.size(); ++i)
        if (returns.edge_of[i] >= 0) branch_of[at(returns.edge_of[i])] = static_cast<int>(i);
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (!all[i].return_side || returns.edge_of[i] < 0) continue;
        const Flow flow = flows.through(returns.edge_of[i]);
        all[i].reachable = flow.greatest > 0;
        all[i].greatest_a = all[i].greatest_b = current_of(flow.greatest);
        all[i].is_protected = !above(flow.greatest, all[i].allowed);
        for (const int edge : flow.cut) all[i].devices.push_back(branch_of[at(edge)]);
    }
}

} // namespace fl::protect
