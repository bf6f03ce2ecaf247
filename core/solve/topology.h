#pragma once

#include "core/solve/ports.h"

#include <vector>

namespace fl::solve {

/// What hangs together, and what can carry a current at all. Current runs only in closed ways that hold a
/// supply, so the network falls into blocks (sets of ports of which any two lie on one closed way), and a
/// block without a supply carries nothing: it is dead, all its voltages are 0 across.
struct Topology {
    std::vector<Port> ports;
    std::vector<char> live;       ///< per port: its block holds a supply that has something to give
    std::vector<int> block;       ///< per port
    std::vector<int> island;      ///< per node
    std::vector<int> voltage;     ///< per node: number of its unknown; -1 where it is held at 0
    int voltages = 0;             ///< how many unknowns
    std::vector<double> first_V;  ///< per unknown: a guess, from the supplies without current
    std::vector<int> joined;      ///< per node: one of those that dead parts join it to
    std::vector<char> reference;  ///< per node, of those: held at 0
    std::vector<char> spare;      ///< per port: closes a loop of 0 ohm without a source in it; taken as open
    std::vector<Element> opposed; ///< close a loop of 0 ohm with a source in it: no answer exists
    std::vector<Element> rings;   ///< live converters in a ring: part of their output is their input
    std::vector<Element> feed_selves; ///< converters in a ring that nothing feeds
};

/// Islands, blocks, what is alive, one reference node for each island.
Topology topology_of(const Circuit& circuit);
/// Of other ports that hang together in the same way (`hang_alike`): only the guess is made anew.
Topology topology_of(const Topology& known, std::vector<Port> ports);
/// Two lists of ports differ in nothing but what supplies show without current.
bool hang_alike(const std::vector<Port>& a, const std::vector<Port>& b);
/// The same with every part taken as alive, so that dead parts have voltages of their own.
Topology whole_topology_of(const Circuit& circuit);

} // namespace fl::solve
