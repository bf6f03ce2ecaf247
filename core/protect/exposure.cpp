#include "core/protect/graph.h"

#include <algorithm>
#include <map>

namespace fl::protect {
namespace {

struct Found {
    std::optional<Length> exposure;
    Length at_least;
    int supply = -1;
};

/// Unprotected cores that hang together, seen from some of the sources, and where they get their supply.
class Region {
public:
    Region(const plan::Installation& in, const network::Network& net, const Graph& g,
           std::vector<bool> branches, const std::vector<bool>& from)
        : in_(in)
        , net_(net)
        , branches_(std::move(branches)) {
        std::vector<bool> taken(g.flow.edges.size());
        for (std::size_t i = 0; i < branches_.size(); ++i) {
            if (!branches_[i]) continue;
            taken[at(g.edge_of[i])] = true;
            supplies_[net.branches[i].a] = supplies_[net.branches[i].b] = 0;
        }
        const Flows flows(g.flow, taken);
        for (auto& [node, flow] : supplies_) flow = flows.into(node, from).greatest;
    }

    Found exposure(const network::Branch& core, Current allowed) {
        std::vector<int> starts = supplied_by_more_than(allowed);
        if (starts.empty()) starts = supplied_by_more_than(Current{}); // several that add up
        auto& ways = ways_[starts];
        if (ways.empty()) ways = network::shortest_ways(in_, net_, starts, branches_);
        const auto &a = ways[at(core.a)], &b = ways[at(core.b)];
        if (!a || !b) return {};
        const auto length = plan::length_of(in_, *in_.conductors.find(core.conductor));
        // Fed from both ends the farthest point lies between them; from one end this is the other end.
        Found out;
        out.at_least = (a->at_least + b->at_least + length.value.value_or(Length{})) / 2;
        if (a->length && b->length && length) out.exposure = out.at_least;
        const bool a_nearer = a->at_least <= b->at_least;
        out.supply = a_nearer ? core.a : core.b;
        const auto& way = a_nearer ? a->branches : b->branches;
        for (auto i = way.rbegin(); i != way.rend(); ++i) {
            const auto& branch = net_.branches[at(*i)];
            out.supply = branch.a == out.supply ? branch.b : branch.a;
        }
        return out;
    }

private:
    std::vector<int> supplied_by_more_than(Current allowed) const {
        std::vector<int> nodes;
        for (const auto& [node, flow] : supplies_)
            if (above(flow, allowed)) nodes.push_back(node);
        return nodes;
    }

    const plan::Installation& in_;
    const network::Network& net_;
    std::vector<bool> branches_;
    std::map<int, Microampere> supplies_; // what reaches each node from outside
    std::map<std::vector<int>, std::vector<std::optional<network::Way>>> ways_;
};

/// The regions of the cores in `unprotected`, each named by an island number.
class Regions {
public:
    Regions(const plan::Installation& in, const network::Network& net, const Graph& g,
            std::vector<bool> unprotected, std::vector<bool> from)
        : in_(in)
        , net_(net)
        , g_(g)
        , joined_(std::move(unprotected))
        , from_(std::move(from)) {
        // Switches, contacts and shunts between them have no length and stop nothing.
        for (std::size_t i = 0; i < joined_.size(); ++i)
            if (const auto& b = net.branches[i]; b.kind != network::BranchKind::conductor)
                joined_[i] = g.edge_of[i] >= 0 && !is_device(b);
        island_ = network::islands(net, joined_);
    }

    Found exposure(const network::Branch& core, Current allowed) {
        const int name = island_[at(core.a)];
        auto found = regions_.find(name);
        if (found == regions_.end()) {
            std::vector<bool> branches(joined_.size());
            for (std::size_t i = 0; i < branches.size(); ++i)
                branches[i] = joined_[i] && island_[at(net_.branches[i].a)] == name;
            found = regions_.try_emplace(name, in_, net_, g_, std::move(branches), from_).first;
        }
        return found->second.exposure(core, allowed);
    }

private:
    const plan::Installation& in_;
    const network::Network& net_;
    const Graph& g_;
    std::vector<bool> joined_, from_;
    std::vector<int> island_;
    std::map<int, Region> regions_;
};

} // namespace

void add_exposures(const plan::Installation& installation, const network::Network& network,
                   const Graph& graph, std::vector<Placement>& all) {
    // Placements stand in the order of the network's branches, conductors first.
    for (std::size_t s = 0; s < graph.sources.size(); ++s) {
        std::vector<bool> unprotected(network.branches.size());
        std::vector<FromSource*> from(all.size());
        for (std::size_t i = 0; i < all.size(); ++i)
            for (auto& f : all[i].from)
                if (f.source == static_cast<int>(s) && !f.is_protected) {
                    unprotected[i] = true;
                    from[i] = &f;
                }
        std::vector<bool> alone(graph.sources.size());
        alone[s] = true;
        Regions regions(installation, network, graph, unprotected, alone);
        for (std::size_t i = 0; i < all.size(); ++i) {
            if (!from[i]) continue;
            const Found found = regions.exposure(network.branches[i], all[i].allowed);
            from[i]->exposure = found.exposure;
            from[i]->exposure_at_least = found.at_least;
            from[i]->supply = found.supply;
        }
    }
    // The placement's own exposure is to the nearest point of supply from all sources together: a core a
    // hand's breadth from a battery is exposed over that, however far away the alternator is that feeds the
    // battery.
    std::vector<bool> unprotected(network.branches.size());
    for (std::size_t i = 0; i < all.size(); ++i) unprotected[i] = all[i].exposed;
    Regions regions(installation, network, graph, unprotected, std::vector<bool>(graph.sources.size(), true));
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (!all[i].exposed) continue;
        const Found found = regions.exposure(network.branches[i], all[i].allowed);
        all[i].exposure = found.exposure;
        all[i].exposure_at_least = found.at_least;
    }
}

} // namespace fl::protect
