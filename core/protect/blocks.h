#pragma once

#include "core/network/sides.h"

#include <vector>

namespace fl::protect {

/// The blocks of a graph: sets of links of which any two lie on one way that meets no node twice. They hang
/// together in single nodes, as a tree. Private to this room.
struct Blocks {
    std::vector<int> of_link;  ///< per link; -1 = joins nothing
    std::vector<int> above;    ///< per node: the block by which it hangs on its root's side; -1 = a root
    std::vector<int> hangs_at; ///< per block: its node nearest the root
    std::vector<int> links;    ///< per block: how many
    std::vector<int> root;     ///< per node
};

/// `roots`: nodes that are to be roots, the first of each part that hangs together; a part without one gets
/// some other.
Blocks blocks(std::size_t nodes, const std::vector<network::Sides::Link>& links,
              const std::vector<int>& roots);

} // namespace fl::protect
