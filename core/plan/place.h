#pragma once

#include "core/plan/entered.h"
#include "core/plan/ids.h"
#include "core/quantity/quantity.h"

#include <cstdint>
#include <string>

namespace fl::plan {

/// Where things sit. The kind gives its ambient from the job rules unless one is entered.
struct Place {
    PlaceId id;
    std::string name;
    std::string kind; ///< of the catalogue: living_space, behind_lining, engine_bay, underfloor, cab ...
    Entered<Temperature> ambient;
    std::string unknown;
    bool operator==(const Place&) const = default;
};

enum class Laid : std::uint8_t { open_duct, in_insulation, free_air };

/// The measured way between two places.
struct Run {
    RunId id;
    std::string name;
    PlaceId from, to;
    Entered<Length> length;
    Entered<Temperature> ambient; ///< hottest place on the way; absent = the hotter of its two places
    Laid laid = Laid::open_duct;
    Entered<Length> in_insulation; ///< the longest stretch inside wall or roof insulation
    int loaded_conductors = 1;     ///< bunched together over more than 1 m and loaded above 30 %
    std::string passes;            ///< what it passes: grommets, tanks, hot parts
    std::string unknown;
    bool operator==(const Run&) const = default;
};

} // namespace fl::plan
