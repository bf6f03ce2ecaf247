#pragma once

#include <cstdint>
#include <limits>
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
/// ones are left to be looked at.
class Flows {
public:
    /// `network` must outlive this.
    Flows(const FlowNetwork& network, const std::vector<bool>& taken_out);

    /// Greatest flow into `node` from the sources for which `from` says true, all together.
    Flow into(int node, const std::vector<bool>& from) const;
    /// True when unlimited edges join the two.
    bool joined(int node_a, int node_b) const;

private:
    const FlowNetwork& network_;
    void take_off_dead_ends(const std::vector<int>& limited);
    std::vector<int> limited_towards(int place) const;

    std::vector<int> place_;   // of each node
    std::vector<int> limited_; // edges between two places, without those that only lead to where no source is
    std::vector<int> dead_end_; // of each place: the edge by which it hangs on the rest, or -1
};

} // namespace fl::protect
