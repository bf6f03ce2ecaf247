#pragma once

#include "core/rules/look.h"

#include <map>
#include <optional>
#include <vector>

/// Where a load's voltage goes. Private to this room.
namespace fl::rules {

/// What each branch of a load's way there and back loses in one condition.
struct Lost {
    int branch = -1;
    double volts = 0;
    bool live = false;
};

/// The losses of any load in one solved condition. Keeps references to both, and the ways from what feeds
/// one load for the others that it feeds.
class Losses {
public:
    Losses(const Facts& facts, const condition::Solved& solved);

    /// From what feeds the load (setup's reference) by the shortest closed way there and back; empty when
    /// nothing does. `port` is of the network.
    std::vector<Lost> of(int port);

private:
    void add(std::vector<Lost>& out, int from, int to, bool live);

    const Facts* facts_;
    const condition::Solved* solved_;
    std::vector<bool> usable_;
    std::map<int, std::vector<std::optional<network::Way>>> ways_; ///< from a node to all others
};

} // namespace fl::rules
