#pragma once

#include "core/network/network.h"

#include <vector>

// Shared inside this room only.
namespace fl::fault {

/// Where a fault at each node comes back: nodes of the return it may be shorted to; none at a node that is
/// return itself. The first is its own circuit's return at the same place, the second, if there is one, the
/// body.
std::vector<std::vector<int>> backs(const plan::Installation& installation, const network::Network& network);

} // namespace fl::fault
