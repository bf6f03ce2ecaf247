#pragma once

#include <cstdint>
#include <string>

namespace fl::json {

/// The whole number in decimal digits.
std::string digits(std::int64_t value);

/// What fl::shortest spelled, as a JSON number: zero has no sign, and what may lie beyond 64 bits is not
/// spelled like a whole number (`Document` refuses those, since they would lose digits).
std::string as_json(std::string shortest);

/// The shortest such number that reads back to the same double. Finite values only.
std::string decimal(double value);

} // namespace fl::json
