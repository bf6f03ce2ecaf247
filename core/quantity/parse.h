#pragma once

#include "core/base/result.h"
#include "core/quantity/unit.h"
#include "core/quantity/wire_size.h"

#include <string_view>

namespace fl {

/// Reads what a fitter types: `60A`, `1.2 kW`, `3,5 m`, `12 ft`, `200Ah`, `80%`, `-10 °C`. Point and comma
/// both part the decimals; a comma before exactly three digits (`1,200`) is refused, since half the world
/// means another number by it. A bare number takes `bare`, the field's own unit. A unit of another dimension
/// is a Problem "quantity.unit" that says what was expected; other codes: quantity.empty, quantity.number,
/// quantity.comma, quantity.range (beyond 1e15 or below 1e-30 SI units). Never NaN or infinity.
template <class Q>
Result<Q> parse(std::string_view text, const Unit& bare = field_unit<Q>());

/// Reads a conductor's size: `2,5 mm2`, `2.5`, `6 AWG`, `AWG 6`, `2/0`. `mm` alone is refused with "mm² or
/// diameter?", since cable is sold by both. Codes as above and "size.mm", "size.awg" (18 to 4/0 are known).
Result<WireSize> parse_size(std::string_view text);

/// Reads a finite number with point or comma (same rules as parse); the whole text must be the number.
Result<double> parse_number(std::string_view text);

} // namespace fl
