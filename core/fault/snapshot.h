#pragma once

#include "core/network/network.h"

#include <limits>
#include <vector>

// Shared inside this room only. A numeric kernel: raw doubles, each named with its unit.
namespace fl::fault {

struct Element {
    int a = -1, b = -1;
    double ohm = 0;
    int branch = -1; ///< of the network
};

/// EMF behind a resistance; what has a limit is a clamp and takes nothing in.
struct Feeder {
    plan::ComponentId component;
    int plus = -1, minus = -1;
    double emf_V = 0, ohm = 0;
    double limit_A = std::numeric_limits<double>::infinity();
    double weak_emf_V = 0, weak_ohm = 0; ///< of a weak battery; no resistance = it is never weak
    double weak_limit_A = 0;             ///< of what limits itself: at its plain limit
    bool limited() const { return limit_A < std::numeric_limits<double>::infinity(); }
};

/// The network as one kind of fault sees it. No loads, no inputs of converters.
struct Snapshot {
    int nodes = 0;
    std::vector<Element> elements;
    std::vector<Feeder> feeders;
    /// What hangs together on the live side, per node: a source of another part only drives its own current
    /// round in circles there and is no part of a fault here. -1 = return.
    std::vector<int> live_part = {};
};

/// The factors by which lead's first peak and its plateau differ from the steady fault.
enum class Moment { steady, peak, plateau };

Snapshot strongest(const plan::Installation& installation, const network::Network& network,
                   Moment moment = Moment::steady);
/// Limited feeders stand at their plain limit; the least fault leaves them out where a battery reaches.
Snapshot weakest(const plan::Installation& installation, const network::Network& network);

/// What devices may have to carry at most and at least: the cold network and the hot one, in both every
/// source as strong as it can be, with its weak state beside it; devices of no resistance have next to none.
struct Range {
    Snapshot cold, hot;
};
Range range(const plan::Installation& installation, const network::Network& network);

} // namespace fl::fault
