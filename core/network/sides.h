#pragma once

#include "core/network/network.h"

#include <vector>

namespace fl::network {

/// What lies on either side of any one branch that is taken out: found once for all branches, over those for
/// which `usable` says true.
class Sides {
public:
    Sides(const Network& network, const std::vector<bool>& usable);

    /// Number of the island of a node with all usable branches in, from 0.
    int island(int node) const { return at_[static_cast<std::size_t>(node)].island; }
    /// True when `node` is reached from `from`, an end of `without`, over usable branches other than that.
    bool reached(int without, int from, int node) const;

private:
    /// A node's place in a depth-first walk: it and all that was first reached through it have numbers from
    /// `first` to before `end`.
    struct At {
        int island = -1, first = -1, end = -1;
    };
    bool within(int root, int node) const;

    std::vector<At> at_;
    std::vector<int> bridge_; ///< per branch: the node that it alone joins to the root's side; -1 = no bridge
};

} // namespace fl::network
