#pragma once

#include "core/network/network.h"

#include <optional>
#include <vector>

/// Is every conductor protected from every source that can feed it? By capacity (docs/method.md 5).
namespace fl::protect {

/// A source of fault current at a node that is not return: a battery or take-off point (unlimited), or a
/// limited one.
struct Source {
    int port = -1; ///< of the network; -1 = output of a converter
    int converter = -1;
    int node = -1;
    std::optional<Current> limit; ///< greatest lasting output; empty = unlimited
};
std::vector<Source> sources(const plan::Installation& installation, const network::Network& network);

/// What one source alone can drive lastingly into the core.
struct FromSource {
    int source = -1;
    Current greatest; ///< the flow; unlimited is infinity
    bool is_protected = false;
    std::vector<int> devices; ///< branches of the least cut that are devices
    std::vector<int> path;    ///< branches from the source to the core, when unprotected
};

struct Placement {
    plan::ConductorId conductor;
    bool return_side = false;       ///< cores of the return have no device of their own
    bool reachable = false;         ///< some source can feed it
    bool is_protected = false;      ///< from all sources together
    Current allowed;                ///< what may protect it: may carry times the rule set's multiple
    Current greatest_a, greatest_b; ///< greatest lasting flow into either end (infinite = unlimited)
    std::vector<int> devices;       ///< of the least cuts
    std::vector<FromSource> from;
    bool exposed = false; ///< not protected, or protected only at a distance: has an unprotected length
    std::optional<Length>
        exposure;                ///< from the point of supply to the core's farthest point; empty = not known
    bool only_by_adding = false; ///< each path has a device, but their ratings add up to more than allowed
    bool starting = false;       ///< part of the engine's starting circuit (exempt by sets that say so)
};

/// `may_carry` per network branch: current a conductor may carry lastingly (0 for other branches).
std::vector<Placement> placements(const plan::Installation& installation, const network::Network& network,
                                  const std::vector<Current>& may_carry, double device_multiple);

/// The rating of the device in this branch; empty when it is no device or its rating is not known.
std::optional<Current> device_rating(const plan::Installation& installation, const network::Branch& branch);
/// True for fuse, breaker, fitted way.
bool is_device(const network::Branch& branch);

} // namespace fl::protect
