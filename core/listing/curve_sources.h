#pragma once

#include "core/assess/assess.h"
#include "core/listing/listing.h"

namespace fl::listing {

/// Where the operating times of the devices come from: devices of the same origin in one row, with how it was
/// come by ("read", "second hand", "memory", "entered") and the texts. Links that are not fitted are left
/// out.
Listing curve_sources(const assess::Assessment& assessment);

} // namespace fl::listing
