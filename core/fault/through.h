#pragma once

#include "core/fault/fault.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace fl::fault {

/// What a source does in a fault: all it can (full, cold, a limited one at its limit times
/// fault.limited_source), as little as a used-up battery or a plain limit gives, or nothing.
enum class SourceState : std::uint8_t { strong, weak, absent };
struct InState {
    plan::ComponentId source;
    SourceState state{};
    bool operator==(const InState&) const = default;
};

/// What one device may have to carry in one fault.
struct Through {
    int branch = -1;     ///< of the network: a fuse, circuit-breaker or way
    bool next_to = true; ///< on some way from the fault to a source no other device comes before it
    bool forward = true; ///< the greatest flows from the branch's first end to its second
    /// Over all states of the sources: strong, weak or absent, in the network as for the largest fault.
    Current greatest;
    /// In the same direction, in the network as for the least fault, each battery weak or strong and each
    /// limited source there or absent: others that feed in hold the voltage up. Zero and less are results: it
    /// does not open before those have. Empty when not known (a length or size on the way).
    std::optional<Current> least;
    std::vector<InState> at_greatest, at_least; ///< of the sources on this live side
    bool operator==(const Through&) const = default;
};

/// The devices that come first or second on any way from the fault to a source, nearest first, those left
/// out that never carry 1 % of the greatest total.
using Devices = std::vector<Through>;

/// At every node, with the fault's return as in `everywhere` (each extreme over all returns); empty where no
/// source reaches and at nodes of the return. Fixed resistances make a share linear in the sources: with up
/// to five on a live side all states are tried, with more it goes from one to the next better one.
std::vector<Devices> through_devices(const plan::Installation& installation, const network::Network& network);
/// At one node, these branches being open (devices that have opened before).
Devices through_devices(const plan::Installation& installation, const network::Network& network, int node,
                        const std::vector<int>& opened = {});

} // namespace fl::fault
