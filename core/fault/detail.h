#pragma once

#include "core/fault/fault.h"

#include <optional>
#include <vector>

namespace fl::fault {

/// What sets a fault current: of all that the way from its greatest source and back is made of, the part with
/// the most resistance, or the source itself where it is at its limit.
struct Limit {
    plan::ComponentId source;             ///< its own resistance or limit
    int branch = -1;                      ///< of the network; -1 = the source itself
    std::optional<Resistance> resistance; ///< empty: a source at its limit
    bool operator==(const Limit&) const = default;
};

/// More of the largest fault at a node.
struct Detail {
    Current peak, plateau; ///< as `peak` and `plateau`
    /// Five time constants after the beginning (IEEE 946, annex D, as its example takes it). The constant is
    /// that of the greatest source's branch: 2 / (R/L + 1/T_B) for lead by IEC 61660-1, from memory, L/R for
    /// anything else; L is fault.inductance for each metre. Empty when a length is not known,
    /// and of a limited source.
    std::optional<Time> to_peak;
    Limit limit;
    bool operator==(const Detail&) const = default;
};

/// Of every node; `all` is what `everywhere` gave for the same. Empty where no source reaches.
std::vector<std::optional<Detail>> details(const plan::Installation& installation,
                                           const network::Network& network, const std::vector<AtNode>& all);

/// The sources of a fault whose electronics open at their share of it, by their pulse limit: fuses stay whole
/// then, and the electronics may close again. Those whose limit is not known are not among them.
std::vector<plan::ComponentId> electronics_open(const plan::Installation& installation, const Fault& fault);

} // namespace fl::fault
