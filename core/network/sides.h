#pragma once

#include "core/network/network.h"

#include <utility>
#include <vector>

namespace fl::network {

/// What lies on either side of any one link that is taken out: found once for all, by one walk.
class Sides {
public:
    /// Two nodes that are joined; -1, -1 for what is not there.
    struct Link {
        int a = -1, b = -1;
    };
    Sides(std::size_t nodes, const std::vector<Link>& links);
    /// The same for a network's branches, over those for which `usable` says true.
    Sides(const Network& network, const std::vector<bool>& usable);

    /// Number of the island of a node with all links in, from 0.
    int island(int node) const { return at_[static_cast<std::size_t>(node)].island; }
    /// True when `node` is reached from `from`, an end of link `without`, over the others.
    bool reached(int without, int from, int node) const;
    /// True when nothing else joins the ends of this link.
    bool is_bridge(int link) const { return bridge_[static_cast<std::size_t>(link)] >= 0; }
    /// In the order of the walk: a node's number, and behind which number those first reached through it end.
    int number(int node) const { return at_[static_cast<std::size_t>(node)].first; }
    int end(int node) const { return at_[static_cast<std::size_t>(node)].end; }
    /// From which number to before which one an island's nodes have theirs.
    std::pair<int, int> numbers(int island) const {
        const auto i = static_cast<std::size_t>(island);
        return {starts_[i], starts_[i + 1]};
    }
    /// The end of a bridge that was reached over it.
    int beyond(int link) const { return bridge_[static_cast<std::size_t>(link)]; }

private:
    /// A node's place in a depth-first walk: it and all that was first reached through it have numbers from
    /// `first` to before `end`.
    struct At {
        int island = -1, first = -1, end = -1;
    };
    bool within(int root, int node) const;

    std::vector<At> at_;
    std::vector<int> starts_; ///< per island: its first number; and the number of nodes
    std::vector<int> bridge_; ///< per link: the node that it alone joins to the root's side; -1 = no bridge
};

} // namespace fl::network
