#pragma once

#include "core/catalogue/catalogue.h"

#include <optional>

namespace fl::protect {

/// Band of operating time at a current.
struct Opening {
    std::optional<Time> least,
        greatest; ///< absent: it may not open at all (greatest), or at once is not excluded
};

/// Operating time of a fuse-link of this type and rating at `current`: log-log between the type's gates, each
/// edge between the gates that have it; beyond the last one its I2t stays constant. Below the first gate it
/// need not open, and takes at least as long as at that gate. Both are absent for no current, no rating and
/// where the type has no gates for that rating.
Opening opening(const catalogue::FuseType& type, Current rating, Current current);

/// Breaking capacity at a voltage: of the lowest listed voltage not below it; empty when the link is not for
/// it, or its capacity is not known.
std::optional<Current> breaking_capacity(const catalogue::FuseType& type, Voltage at);

/// The largest I2t a conductor of this size stands, k2S2, up to 5 s; empty when k is not known.
std::optional<Joule> withstand(const catalogue::Insulation& insulation, Area area);
/// Time until the conductor reaches its short-circuit limit at `current` without cooling: k2S2/I2, beyond 5 s
/// less than it really stands. Empty for no current and when k is not known.
std::optional<Time> stands_for(const catalogue::Insulation& insulation, Area area, Current current);

} // namespace fl::protect
