#pragma once

#include "core/rules/rules.h"

#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <vector>

/// Is each protective device right for what it does? With margins, for tables.
namespace fl::rules {

enum class Check : std::uint8_t {
    continuous, ///< lasting current against the share of its rating that it carries
    conductor,  ///< rating against what the weakest conductor that it protects allows
    voltage,    ///< highest lasting voltage against its own
    breaking,   ///< the current when it opens against what it breaks; not where a limiting link backs it up
    opens,      ///< slowest opening at the least short at a far end against how long the wire stands that
    withstand,  ///< the same over all currents up to the largest short
    rides_through, ///< how long a start, surge or short duty lasts against its quickest opening
};

/// One check: `share` is what it meets over what it bears, at most 1 is right; infinite = it may never open.
struct Suit {
    Check check{};
    double share = 0;
    derive::Value meets, bears;
    Current current;             ///< at which it is judged, where times are compared
    std::string condition;       ///< name of the one that governs
    plan::ConductorId conductor; ///< that governs
    int node = -1;               ///< of the short that governs
    bool operator==(const Suit&) const = default;
};

/// What is known of a device; a check that can't be made is left out.
struct Suited {
    int branch = -1;
    plan::Subject subject;
    std::vector<Suit> checks; ///< at most one of each, in the order of `Check`
    bool operator==(const Suited&) const = default;

    const Suit* of(Check check) const;
    /// The one with the greatest share; null where none could be made.
    const Suit* tightest() const;
};
/// Of every device with its link in, in the order of the network's branches.
std::vector<Suited> suited(const Facts& facts);

} // namespace fl::rules
