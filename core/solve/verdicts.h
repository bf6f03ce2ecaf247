#pragma once

#include "core/solve/point.h"
#include "core/solve/solution.h"

namespace fl::solve {

/// Verdicts that need no solution: loops of 0 ohm, dead loads, converters that nothing feeds.
void say_of_topology(const Circuit& circuit, const Topology& topology, Solution& solution);

/// Verdicts on an accepted point: starved and over-voltage loads, starved converters, conductors too hot.
void say_of_point(const System& system, const Point& point, const Options& options, Solution& solution);

} // namespace fl::solve
