#pragma once

#include "core/assess/assess.h"
#include "core/fault/detail.h"
#include "core/fault/through.h"
#include "core/listing/listing.h"
#include "core/quantity/print.h"

#include <string>
#include <string_view>
#include <vector>

namespace fl::listing {

/// "strong", "weak" or "absent".
std::string_view name(fault::SourceState state);
/// "G1 weak, G2 strong".
std::string states_text(const plan::Installation& installation, const std::vector<fault::InState>& states);
/// "F1", or "F5 way 3".
std::string device_name(const plan::Installation& installation, const network::Branch& branch);
/// The conductor, device or source that sets a fault current most.
std::string limit_name(const assess::Assessment& assessment, const fault::Limit& limit);
/// The terminal to which a device's current flows: "F1.2".
std::string toward(const plan::Installation& installation, const network::Network& network,
                   const fault::Through& through);

/// Every device in each direction that a fault drives current: the greatest it may have to break, and the
/// least in a fault with no other device before it, each with where the fault is and what the sources do.
/// `devices`: what `fault::through_devices` gave for this assessment.
Listing through(const assess::Assessment& assessment, const std::vector<fault::Devices>& devices,
                Style style = {});

} // namespace fl::listing
