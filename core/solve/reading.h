#pragma once

#include "core/solve/solution.h"

#include <optional>

/// What is read off a solution.
namespace fl::solve {

/// Voltage of node a against node b; empty when the point is not usable or the two are in different islands
/// (then it is not defined).
std::optional<double> voltage(const Solution& solution, int a, int b);

/// Power an element takes from the network, W: positive when taken. A battery's is positive when charging; a
/// converter's is its own loss, input less output. Empty when the point is not usable or there is no such
/// element.
std::optional<double> power(const Circuit& circuit, const Solution& solution, Element element);

} // namespace fl::solve
