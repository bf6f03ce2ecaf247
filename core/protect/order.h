#pragma once

#include "core/protect/curve.h"

#include <cstdint>

namespace fl::protect {

/// Does the lower of two devices in series open before the upper one begins to?
struct Order {
    enum class Kind : std::uint8_t { none, partial, full };
    Kind kind = Kind::none;
    Current up_to; ///< of partial: through the lower one
    bool operator==(const Order&) const = default;
};

/// Of two fuse-links for every current up to `most` through the lower one: its slowest opening against the
/// quickest of the upper one, which carries `ratio` times as much. Below what is sure to open the lower one
/// the upper one must hold. Beyond the last gates of both the edges are constant I2t, so that this is total
/// against pre-arcing I2t there. gG links of 1.6 to 1 are in order whatever their gates say
/// (fuse.order_of_gG). Empty where a curve is not known.
std::optional<Order> order_of_opening(const catalogue::FuseType& lower, Current lower_rating,
                                      const catalogue::FuseType& upper, Current upper_rating, Current most,
                                      double ratio = 1);

} // namespace fl::protect
