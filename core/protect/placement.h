#pragma once

#include "core/network/network.h"

#include <optional>
#include <vector>

/// Is every conductor protected from every source that can feed it? By capacity (docs/method.md 5).
namespace fl::protect {

/// A source of fault current at a node that is not return: a battery (unlimited), a take-off or signal point
/// (limited by the vehicle's own fuse where that is known), or one that limits itself.
struct Source {
    int port = -1;      ///< of the network; -1 = output of a converter, a way of an isolator, or a signal
    int converter = -1; ///< of the network; -1 = a port, or a signal
    plan::ComponentId component; ///< also of a signal: a signal point, an alternator's D+
    int node = -1;
    std::optional<Current> limit; ///< greatest lasting output; empty = unlimited, or not known
    bool not_known = false;       ///< it limits itself, but at what is not entered
};
/// All of them: ports, then converters, then the ways of isolators, then signals. A drive, mains or solar
/// charger gives its rated output times drive_charger.input_limit, a converter times converter.output_limit
/// (defaults of the catalogue), an alternator its rated current.
std::vector<Source> sources(const plan::Installation& installation, const network::Network& network);

/// What one source alone can drive lastingly into the core.
struct FromSource {
    int source = -1;
    Current greatest; ///< the flow; unlimited is infinity
    bool is_protected = false;
    std::vector<int> devices; ///< branches of the least cut that are devices
    std::vector<int> path;    ///< branches from the source to the core, when unprotected
    /// When unprotected: from the point of supply to the core's farthest point. The point of supply is the
    /// source's own terminal, or the nearest node that the source reaches through protected cores or devices.
    std::optional<Length> exposure; ///< empty = not known
    Length exposure_at_least;       ///< the lengths on that way that are known
    int supply = -1;                ///< node of the point of supply
    bool operator==(const FromSource&) const = default;
};

struct Placement {
    plan::ConductorId conductor;
    /// Cores of the return have no device of their own; theirs are the numbers of the greatest lasting fault
    /// current that can come back through them, each other way of return open.
    bool return_side = false;
    bool reachable = false;         ///< some source can feed it
    bool is_protected = false;      ///< from all sources together
    Current allowed;                ///< what may protect it: may carry times the rule set's multiple
    Current greatest_a, greatest_b; ///< greatest lasting flow into either end (infinite = unlimited)
    std::vector<int> devices;       ///< of the least cuts
    std::vector<FromSource> from;
    bool exposed = false; ///< not protected, or protected only at a distance: has an unprotected length
    std::optional<Length>
        exposure;             ///< from the point of supply to the core's farthest point; empty = not known
    Length exposure_at_least; ///< the lengths on that way that are known
    /// Not protected as drawn, because a device or a source on the way has no rating yet; it would be if that
    /// were small enough.
    bool hinges_on_unknown = false;
    bool only_by_adding = false; ///< each path has a device, but their ratings add up to more than allowed
    bool starting = false;       ///< part of the engine's starting circuit (exempt by sets that say so)
    bool operator==(const Placement&) const = default;
};

/// `may_carry` per network branch: current a conductor may carry lastingly (0 for other branches).
std::vector<Placement> placements(const plan::Installation& installation, const network::Network& network,
                                  const std::vector<Current>& may_carry, double device_multiple);

/// The rating of the device in this branch; empty when it is no device or its rating is not known.
std::optional<Current> device_rating(const plan::Installation& installation, const network::Branch& branch);
/// True for fuse, breaker and way of a fuse box, with or without a link in it.
bool is_device(const network::Branch& branch);
/// False for a fuse or way without its link: nothing flows there.
bool is_fitted(const plan::Installation& installation, const network::Branch& branch);

} // namespace fl::protect
