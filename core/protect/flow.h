#pragma once

#include "core/protect/blocks.h"

#include <cstdint>
#include <limits>
#include <map>
#include <vector>

/// Greatest flow in a network of capacities. Private to this room; currents are whole microamperes, so that
/// sums of ratings are exact.
namespace fl::protect {

using Microampere = std::int64_t;
inline constexpr Microampere no_limit = std::numeric_limits<Microampere>::max();

/// Carries as much either way.
struct FlowEdge {
    int a = -1, b = -1;
    Microampere capacity = no_limit;
};

struct FlowSource {
    int node = -1;
    Microampere limit = no_limit;
};

struct FlowNetwork {
    int nodes = 0;
    std::vector<FlowEdge> edges;
    std::vector<FlowSource> sources;
};

struct Flow {
    Microampere greatest = 0; ///< no_limit = unlimited
    std::vector<int> cut;     ///< edges of the least cut that lies nearest to where the flow goes
};

/// A flow network with some edges taken out. What unlimited edges join is one place, so that only the limited
/// ones are left to be looked at, and of these only such as lie on a way from some source: a part that hangs
/// on the rest in one node and holds no source gives nothing to any other.
class Flows {
public:
    /// `network` must outlive this.
    Flows(const FlowNetwork& network, const std::vector<bool>& taken_out);

    /// Greatest flow into `node` from the sources for which `from` says true, all together; with one more
    /// edge taken out, if `without` >= 0.
    Flow into(int node, const std::vector<bool>& from, int without = -1) const;
    /// Several unlimited edges taken out at once: what then still hangs together, of the places they are in.
    struct Parted {
        std::map<int, int> piece; ///< of each node of those places
    };
    Parted without(const std::vector<int>& edges) const;
    Flow into(int node, const std::vector<bool>& from, const Parted& parted) const;
    /// The same number, here below -1, for all nodes that unlimited edges then still join.
    int place_of(int node, const Parted& parted) const;
    /// True when unlimited edges join the two.
    bool joined(int node_a, int node_b) const { return place_of(node_a) == place_of(node_b); }
    /// The same number for all nodes that unlimited edges join.
    int place_of(int node) const { return sides_.island(node); }
    /// True when unlimited edges join the ends of this unlimited edge even without it.
    bool stays_joined(int edge) const { return !sides_.is_bridge(edge); }
    /// The end of an edge that, without it, no source of the network reaches, while the other end keeps all
    /// that comes to it; -1 = there is none.
    int dead_end(int edge) const;

private:
    std::vector<int> limited_towards(int node) const;
    template <class HereOf>
    Flow flow_into(int node, const std::vector<bool>& from, int without, HereOf here_of) const;
    bool is_alive(int block) const { return alive_[static_cast<std::size_t>(block)]; }

    const FlowNetwork& network_;
    network::Sides sides_;                       // over unlimited edges
    Blocks blocks_;                              // over all edges
    std::vector<std::vector<int>> unlimited_of_; // per place: its unlimited edges
    std::vector<std::vector<int>> nodes_of_;     // per place
    std::vector<bool> alive_;                    // blocks on a way between sources, and on that to their root
    std::vector<std::vector<int>> limited_of_;   // per block: its limited edges
    std::map<int, std::vector<int>> trunk_;      // per root: those of its blocks that are alive
};

} // namespace fl::protect
