#pragma once

#include <vector>

// A numeric kernel.
namespace fl::solve {

/// Solves a small dense system m·x = right by elimination with row exchange: `right` is x then, and `m` is
/// used up. False when it is singular.
bool eliminate(std::vector<std::vector<double>>& m, std::vector<double>& right);

} // namespace fl::solve
