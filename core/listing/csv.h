#pragma once

#include "core/listing/listing.h"

#include <string>

namespace fl::listing {

/// The listing as comma-separated values (RFC 4180): a header row with units ("length (m)"), a line break of
/// CR LF after each row, UTF-8. Numbers stand with a hyphen for minus, and what is not known is an empty
/// field. The listing is to be made with a decimal point.
std::string csv(const Listing& listing);

} // namespace fl::listing
