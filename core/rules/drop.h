#pragma once

#include "core/catalogue/catalogue.h"
#include "core/network/network.h"

#include <optional>
#include <string>

namespace fl::rules {

/// What a part may lose on its way, as a share of nominal, and which limit of the rule set says so (empty =
/// the load's own). A load that runs briefly has the longer allowance of short-duty motors.
struct AllowedDrop {
    Ratio share;
    std::string limit;
};

/// The allowed drop of a load or an inverter; empty for other ports and where the set has no limit.
std::optional<AllowedDrop> allowed_drop(const plan::Installation& installation,
                                        const catalogue::RuleSet& rules, const network::Port& port);

} // namespace fl::rules
