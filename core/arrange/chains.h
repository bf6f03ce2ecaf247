#pragma once

#include "core/network/network.h"

#include <map>
#include <string>
#include <vector>

/// Conductors in series through devices, from one main part to another: what the sheet draws as one line.
namespace fl::arrange {

/// What a line is drawn as: above, below, or thin.
enum class Side : std::uint8_t { plus, minus, signal };

/// A device in series: entered by terminal `in`, left by `out` when the chain is walked forwards.
struct Hop {
    plan::ComponentId device;
    std::string in, out;
};

struct Chain {
    plan::TerminalRef from, to;                ///< of main parts, or of a device's other terminals
    std::vector<plan::ConductorId> conductors; ///< in order; one more than hops
    std::vector<Hop> hops;
    Side side = Side::plus;

    Chain reversed() const;
};

struct Chains {
    std::vector<Chain> all;                           ///< every conductor stands in exactly one
    std::map<plan::ComponentId, std::vector<int>> at; ///< chains that end at a part, by index
    std::map<plan::ComponentId, int> through;         ///< the chain a device stands in

    bool in_series(plan::ComponentId id) const { return through.contains(id); }
};

/// A fuse, breaker, switch, shunt or relay contact stands in series when each of its two terminals has
/// exactly one conductor.
Chains chains(const plan::Installation& installation, const network::Network& network);

} // namespace fl::arrange
