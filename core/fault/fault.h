#pragma once

#include "core/condition/condition.h"

#include <optional>
#include <vector>

/// Short-circuit currents.
namespace fl::fault {

/// One source's part of a fault; negative where it is charged by the others even then.
struct Share {
    plan::ComponentId source;
    Current current;
    bool operator==(const Share&) const = default;
};

/// A dead short between a node and its own circuit's return: the minus of what lies nearest along the live
/// side (source, load or fuse box), or the body where that gives more (least: less).
struct Fault {
    int node = -1;
    Current total;
    std::vector<Share> shares; ///< of the sources on this live side, largest first; they add up to the total
    int back = -1;             ///< node of the return it is shorted to
    bool operator==(const Fault&) const = default;
};

/// Largest steady fault current at a node: batteries full behind their resistance (lithium: its cells'),
/// conductors at 20 °C and annealed copper's resistivity, joints and contacts that are not entered none,
/// fuse-links cold, everything that can close closed, limited sources at their limit times
/// fault.limited_source (docs/method.md 4). A length or size not known counts as nothing: an upper bound.
/// Empty at a node of the return and where no source reaches.
std::optional<Fault> largest(const plan::Installation& installation, const network::Network& network,
                             int node);
/// Least: conductors at their rated temperature, joints and contacts that are not entered twice their
/// default, batteries at the end of their usable charge behind fault.least_resistance times their resistance,
/// limited sources none, emergency links open. Where only limited sources reach, the smallest one alone, at
/// its limit. Conductors of unknown length or size carry nothing here: a lower bound, and empty where it
/// hinges on one of them.
std::optional<Fault> least(const plan::Installation& installation, const network::Network& network, int node);
/// Largest and least at every node that is not return; entries empty where no source reaches.
struct AtNode {
    std::optional<Fault> largest, least;
    bool operator==(const AtNode&) const = default;
};
std::vector<AtNode> everywhere(const plan::Installation& installation, const network::Network& network);

/// The first moment of the largest fault and what is left of it after a tenth of a second, by the shape and
/// factors of IEC 61660-1 for lead (from memory): resistance times fault.peak_resistance, and EMF times
/// fault.plateau_voltage. Lithium is the same in both. Slow links open in the plateau.
std::optional<Fault> peak(const plan::Installation& installation, const network::Network& network, int node);
std::optional<Fault> plateau(const plan::Installation& installation, const network::Network& network,
                             int node);

/// The why of a largest fault current; its value has the bits of `largest(...)->total`, or is "not known".
derive::Derivation why_largest(const plan::Installation& installation, const network::Network& network,
                               int node);

} // namespace fl::fault
