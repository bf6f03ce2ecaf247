#pragma once

#include "core/solve/newton.h"

#include <optional>
#include <vector>

namespace fl::solve {

struct Greatest {
    double watts = 0;
    Element limiting; ///< the resistor whose resistance set to 0 raises it most; none if none does
};

/// The largest power that can reach a live load, all others as they are, before its voltage falls below its
/// lowest working voltage or the power turns back (the fold). `x` is an operating point of `system`, `rest_V`
/// the load's voltage with nothing drawn. Bounded; empty when no point with the load's voltage held is found.
std::optional<Greatest> greatest_power(const System& system, const std::vector<double>& x, int load,
                                       double rest_V, const Options& options);

} // namespace fl::solve
