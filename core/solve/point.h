#pragma once

#include "core/solve/newton.h"
#include "core/solve/only_one.h"

#include <optional>
#include <vector>

namespace fl::solve {

/// What the chain of docs/method.md 2.1 found.
struct Point {
    bool found = false;
    bool folded = false;      ///< the load ramp met a fold; `x` is what the network falls to from there
    std::vector<double> x;    ///< the point, or the best one tried
    std::vector<double> rest; ///< with nothing drawn
};

/// Solves with nothing drawn, bends the laws of loads and converters' inputs at no less than half of what
/// they have then, and goes through the chain: Newton, pseudo-transient continuation, load ramp.
/// Where there provably is one point only, any way to it will do and no sign is asked for.
Point find_point(System& system, Newton& newton, const Options& options, const Forest& forest = {});

/// The point found from one that is near, of a circuit that hangs together in the same way. Empty where it is
/// not reached, or where there might be others.
std::optional<Point> follow_point(System& system, Newton& newton, const Options& options,
                                  const Forest& forest, const Point& from);

} // namespace fl::solve
