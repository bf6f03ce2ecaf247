#pragma once

#include "core/catalogue/catalogue.h"

/// What loads usually are: the typical loads of resources/catalogue/defaults.json.
namespace fl::catalogue {

/// A typical load; voltages and currents are those of a 12 V system.
struct UsualLoad {
    std::string id, name;           ///< "water_pump", "water pump"
    std::vector<std::string> words; ///< what it is called, lower case: "pump", "water pump"
    plan::Purpose purpose{};
    plan::LoadLaw law{};
    std::optional<Current> current; ///< lasting, at nominal voltage
    std::optional<Power> power;     ///< where a label gives power instead
    std::optional<Current> start;   ///< at switching on, for `start_time`
    std::optional<Time> start_time;
    Time hours; ///< that it runs a day; 0 = not known
    plan::Duty duty{};
    std::optional<Time> on_time; ///< of a short duty
    std::optional<Voltage> lowest, highest;
    std::optional<Current> fuse; ///< what is usually fitted
    Source source;
};
const std::vector<UsualLoad>& usual_loads();

/// The usual load a name speaks of, in any case, singular or plural: the one with the longest of its words
/// among the name's ("roof fans" -> roof_fan); null when none fits.
const UsualLoad* usual_load(std::string_view name);

} // namespace fl::catalogue
