#pragma once

#include "core/solve/ports.h"

#include <vector>

namespace fl::solve {

/// Sets that are joined one by one.
class Union {
public:
    explicit Union(int size);
    int find(int element);
    /// False when the two were one set already.
    bool join(int a, int b);

private:
    std::vector<int> parent_;
};

/// Number of the block of every port: two ports have the same number exactly if one closed way without
/// repetition runs through both (biconnected components; parallel ports make a block, a lone one is its own).
std::vector<int> blocks_of(int nodes, const std::vector<Port>& ports);

} // namespace fl::solve
