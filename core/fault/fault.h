#pragma once

#include "core/condition/condition.h"

#include <optional>
#include <vector>

/// Short-circuit currents.
namespace fl::fault {

/// One source's part of a fault.
struct Share {
    plan::ComponentId source;
    Current current;
};

/// A dead short between a node and its own circuit's return.
struct Fault {
    int node = -1;
    Current total;
    std::vector<Share> shares; ///< by source, largest first
};

/// Largest steady fault current at a node: batteries full behind their resistance (lithium: its cells'),
/// conductors cold at the least resistance, limited sources at their limit times 1.3 (docs/method.md 4).
/// Empty where no source reaches.
std::optional<Fault> largest(const plan::Installation& installation, const network::Network& network,
                             int node);
/// Least: conductors hot, battery at its lower limit with twice its resistance, limited sources none.
std::optional<Fault> least(const plan::Installation& installation, const network::Network& network, int node);
/// Largest and least at every node that is not return; entries empty where no source reaches.
struct AtNode {
    std::optional<Fault> largest, least;
};
std::vector<AtNode> everywhere(const plan::Installation& installation, const network::Network& network);
/// The why of a largest fault current.
derive::Derivation why_largest(const plan::Installation& installation, const network::Network& network,
                               int node);

} // namespace fl::fault
