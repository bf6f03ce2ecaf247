#pragma once

#include "core/fault/snapshot.h"

#include <vector>

// Shared inside this room only.
namespace fl::fault {

/// Which devices stand between a place and the sources.
class Near {
public:
    /// `device`: per element, whether it is one.
    Near(const Snapshot& snapshot, std::vector<bool> device);

    struct Device {
        int element;
        bool next_to; ///< it comes first on some way
    };
    /// The devices that come first or second on any way from the node to a source that meets no node twice,
    /// nearest first.
    std::vector<Device> devices(int node);

private:
    struct Edge {
        int to, element;
    };
    void find_blocks(const Snapshot& snapshot);

    std::vector<bool> device_;             // per element
    std::vector<std::vector<Edge>> edges_; // per node
    // Blocks of the graph in which all poles of sources are joined in one more node: ways to there keep to
    // the blocks that lead up to it.
    std::vector<int> block_of_;    // per element
    std::vector<int> home_, top_;  // of each node: the block that leads up; of each block: its node up there
    std::vector<int> count_;       // per node: devices on the way so far
    std::vector<int> seen_, open_; // per node, per block: the walk that came by
    int walk_ = 0;
};

} // namespace fl::fault
