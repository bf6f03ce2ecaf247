#pragma once

#include "core/solve/solution.h"

#include <cstdint>
#include <string>

namespace fl::test {

/// A random low-voltage network of at most `most_nodes` nodes, trees and meshes, with every kind of element:
/// one to three parts of 12, 24 or 48 V, joined by nothing, by converters or by one wire. Valid numbers only,
/// but often overloaded, switched open or fed by nothing. The same seed gives the same circuit everywhere.
solve::Circuit random_circuit(std::uint32_t seed, int most_nodes);

/// The same with 6 to 12 limited devices: sources and converters with a limit, diodes, batteries that block.
solve::Circuit random_limited_circuit(std::uint32_t seed, int most_nodes);

/// Every number of a circuit, one element a line, so that a failure can be set up by hand.
std::string show(const solve::Circuit& circuit);

/// What a solution says, one line an element.
std::string show(const solve::Circuit& circuit, const solve::Solution& solution);

} // namespace fl::test
