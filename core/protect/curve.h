#pragma once

#include "core/catalogue/catalogue.h"

#include <optional>

namespace fl::protect {

/// Band of operating time at a current.
struct Opening {
    std::optional<Time> least,
        greatest; ///< absent: it may not open at all (greatest), or at once is not excluded
};

/// Operating time of a fuse-link of this type and rating at `current`: log-log between the type's gates;
/// beyond the last gate the slow edge has constant I2t. Below the first gate it need not open.
Opening opening(const catalogue::FuseType& type, Current rating, Current current);

/// Breaking capacity at a voltage: of the lowest listed voltage not below it; empty when the link is not for
/// it.
std::optional<Current> breaking_capacity(const catalogue::FuseType& type, Voltage at);

/// The largest I2t a conductor of this size stands, k2S2, up to 5 s; empty when k is not known.
std::optional<Joule> withstand(const catalogue::Insulation& insulation, Area area);
/// Time until the conductor reaches its short-circuit limit at `current` without cooling.
std::optional<Time> stands_for(const catalogue::Insulation& insulation, Area area, Current current);

} // namespace fl::protect
