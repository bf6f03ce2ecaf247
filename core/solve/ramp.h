#pragma once

#include "core/solve/newton.h"

#include <vector>

namespace fl::solve {

/// Where the load ramp got to.
struct Ramp {
    bool reached = false;  ///< all demand is met: `x` is the point joined to no load
    double demand = 0;     ///< else the demand at the fold
    std::vector<double> x; ///< the last point on the way
};

/// Raises the demand from none at `x` to all of it, following the solution step by step (at most
/// `ramp_most`). A jump of a voltage between two steps that no smaller step takes away is a fold.
Ramp ramp_demand(System& system, Newton& newton, std::vector<double> x, int sign, const Options& options);

} // namespace fl::solve
