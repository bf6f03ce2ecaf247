#pragma once

#include "core/solve/circuit.h"

#include <cstdint>

namespace fl::bench {

/// A random installation as a circuit of so many elements: pairs of conductors, plus and return, in a tree
/// from a battery with an alternator beside it; loads of all three laws on most pairs, 120 A in all whatever
/// their number; every conductor sized for 2 to 20 mV at what the tree sends through it. With `meshed` every
/// fifth conductor closes a loop. `warm`: conductors warm up with their current, else they stay at 20 °C. The
/// same seed gives the same circuit.
solve::Circuit some_network(std::uint32_t seed, int components, bool meshed, bool warm);

/// Copper that an edit can touch: a conductor somewhere in the tree, another one every turn.
solve::Resistor& some_conductor(solve::Circuit& circuit, std::uint32_t turn);

} // namespace fl::bench
