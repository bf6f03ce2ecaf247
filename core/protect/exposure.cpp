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
    /// `branches`: rising.
    Region(const plan::Installation& in, const network::Network& net, const Graph& g, const Flows& flows,
           const std::vector<int>& branches, const std::vector<bool>& from)
        : in_(in)
        , branches_(branches) {
        std::vector<int> taken;
        for (const int b : branches) {
            taken.push_back(g.edge_of[at(b)]);
            nodes_.push_back(net.branches[at(b)].a), nodes_.push_back(net.branches[at(b)].b);
        }
        std::sort(nodes_.begin(), nodes_.end());
        nodes_.erase(std::unique(nodes_.begin(), nodes_.end()), nodes_.end());
        own_.nodes.resize(nodes_.size());
        for (const int b : branches) {
            own_.branches.push_back(net.branches[at(b)]);
            for (int* end : {&own_.branches.back().a, &own_.branches.back().b}) *end = here(*end);
        }
        const auto parted = flows.without(taken);
        std::map<int, Microampere> known; // by what hangs together without the region
        for (const int node : nodes_) {
            const auto [place, fresh] = known.try_emplace(flows.place_of(node, parted));
            if (fresh) place->second = flows.into(node, from, parted).greatest;
            supplies_.push_back(place->second);
        }
    }

    Found exposure(const network::Branch& core, Current allowed) {
        std::vector<int> starts = supplied_by_more_than(allowed);
        if (starts.empty()) starts = supplied_by_more_than(Current{}); // several that add up
        auto& ways = ways_[starts];
        if (ways.empty())
            ways = network::shortest_ways(in_, own_, starts, std::vector<bool>(branches_.size(), true));
        const auto &a = ways[at(here(core.a))], &b = ways[at(here(core.b))];
        if (!a || !b) return {};
        const auto length = plan::length_of(in_, *in_.conductors.find(core.conductor));
        // Fed from both ends the farthest point lies between them; from one end this is the other end.
        Found out;
        out.at_least = (a->at_least + b->at_least + length.value.value_or(Length{})) / 2;
        if (a->length && b->length && length) out.exposure = out.at_least;
        const bool a_nearer = a->at_least <= b->at_least;
        int supply = here(a_nearer ? core.a : core.b);
        const auto& way = a_nearer ? a->branches : b->branches;
        for (auto i = way.rbegin(); i != way.rend(); ++i) {
            const auto& branch = own_.branches[at(*i)];
            supply = branch.a == supply ? branch.b : branch.a;
        }
        out.supply = nodes_[at(supply)];
        return out;
    }

private:
    /// A node's number in the region.
    int here(int node) const {
        return static_cast<int>(std::lower_bound(nodes_.begin(), nodes_.end(), node) - nodes_.begin());
    }
    std::vector<int> supplied_by_more_than(Current allowed) const {
        std::vector<int> nodes;
        for (std::size_t n = 0; n < supplies_.size(); ++n)
            if (above(supplies_[n], allowed)) nodes.push_back(static_cast<int>(n));
        return nodes;
    }

    const plan::Installation& in_;
    std::vector<int> branches_, nodes_; // of the network; rising
    network::Network own_;              // the region alone, numbered anew in the same order
    std::vector<Microampere> supplies_; // what reaches each node from outside
    std::map<std::vector<int>, std::vector<std::optional<network::Way>>> ways_;
};

/// The regions of the cores in `unprotected`, each named by an island number.
class Regions {
public:
    Regions(const plan::Installation& in, const network::Network& net, const Graph& g, const Flows& flows,
            const std::vector<bool>& unprotected, std::vector<bool> from)
        : in_(in)
        , net_(net)
        , g_(g)
        , flows_(flows)
        , from_(std::move(from))
        , branches_(net.nodes.size()) {
        // Switches, contacts and shunts between them have no length and stop nothing.
        auto joined = unprotected;
        for (std::size_t i = 0; i < joined.size(); ++i)
            if (const auto& b = net.branches[i]; b.kind != network::BranchKind::conductor)
                joined[i] = g.edge_of[i] >= 0 && !is_device(b);
        island_ = network::islands(net, joined);
        for (std::size_t i = 0; i < joined.size(); ++i)
            if (joined[i]) branches_[at(island_[at(net.branches[i].a)])].push_back(static_cast<int>(i));
    }

    Found exposure(const network::Branch& core, Current allowed) {
        const int name = island_[at(core.a)];
        auto found = regions_.find(name);
        if (found == regions_.end())
            found = regions_.try_emplace(name, in_, net_, g_, flows_, branches_[at(name)], from_).first;
        return found->second.exposure(core, allowed);
    }

private:
    const plan::Installation& in_;
    const network::Network& net_;
    const Graph& g_;
    const Flows& flows_;
    std::vector<bool> from_;
    std::vector<int> island_;
    std::vector<std::vector<int>> branches_; // per island
    std::map<int, Region> regions_;
};

} // namespace

void add_exposures(const plan::Installation& installation, const network::Network& network,
                   const Graph& graph, std::vector<Placement>& all) {
    const Flows flows(graph.flow, std::vector<bool>(graph.flow.edges.size()));
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
        Regions regions(installation, network, graph, flows, unprotected, alone);
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
    Regions regions(installation, network, graph, flows, unprotected,
                    std::vector<bool>(graph.sources.size(), true));
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (!all[i].exposed) continue;
        const Found found = regions.exposure(network.branches[i], all[i].allowed);
        all[i].exposure = found.exposure;
        all[i].exposure_at_least = found.at_least;
    }
}

} // namespace fl::protect
