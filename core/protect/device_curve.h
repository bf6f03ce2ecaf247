#pragma once

#include "core/catalogue/catalogue.h"
#include "core/network/network.h"

#include <memory>
#include <string>

namespace fl::protect {

/// The type of a device that has operating times of its own in place of its type's; null for any other.
std::shared_ptr<const catalogue::FuseType> own_type(const plan::Installation& installation,
                                                    const network::Branch& branch);

/// Where a device's operating times come from: how they were come by, and the texts. Both empty where none
/// are known.
struct Provenance {
    std::string basis;     ///< "read, second hand, memory"
    std::string citations; ///< with semicolons between
    bool operator==(const Provenance&) const = default;
};
Provenance curve_provenance(const plan::Installation& installation, const network::Branch& branch);

} // namespace fl::protect
