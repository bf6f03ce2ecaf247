#pragma once

#include "core/quantity/quantity.h"

#include <cmath>

namespace fl {

/// True when `value` is above `limit` by more than 1e-6 of it: the one comparison against limits, so that
/// last bits never decide.
inline bool above(double value, double limit) {
    return value > limit + 1e-6 * std::fabs(limit);
}
template <Dim D>
bool above(Quantity<D> value, Quantity<D> limit) {
    return above(value.si(), limit.si());
}

} // namespace fl
