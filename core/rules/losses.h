#pragma once

#include "core/rules/look.h"

#include <vector>

/// Where a load's voltage goes. Private to this room.
namespace fl::rules {

/// What each branch of a load's way there and back loses in one condition.
struct Lost {
    int branch = -1;
    double volts = 0;
    bool live = false;
};

/// From what feeds the load (setup's reference) by the shortest closed way there and back; empty when nothing
/// does.
std::vector<Lost> losses(const Facts& facts, const condition::Solved& solved, int port);

} // namespace fl::rules
