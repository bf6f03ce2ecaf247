#pragma once

#include "core/solve/circuit.h"
#include "core/solve/solution.h"

#include <vector>

namespace fl::solve {

/// One way for current through an element: what a graph sees. Elements that are open, off or have a terminal
/// on no node have none; a converter has up to two.
struct Port {
    Element element;
    bool output = false; ///< a converter's output
    int plus = -1, minus = -1;
    bool supply = false; ///< could be what drives a current: battery, regulator, converter's output
    bool ideal = false;  ///< exactly 0 ohm
    double volts = 0;    ///< what a supply without current would show; 0 for the rest
};

/// All ports, in the order of the circuit's vectors: resistors, batteries, regulators, converters, loads.
std::vector<Port> ports_of(const Circuit& circuit);

/// The first thing in the numbers themselves that no law allows (not finite, negative resistance, droop not
/// above 0, node out of range), with the element's place; empty when all is in order.
std::vector<std::string> numbers_refused(const Circuit& circuit);

} // namespace fl::solve
