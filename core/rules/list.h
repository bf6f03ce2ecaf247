#pragma once

#include "core/rules/look.h"

#include <vector>

/// Every rule: a function that adds what it finds. Private to this room.
namespace fl::rules {

using Rule = void (*)(const Facts&, std::vector<Finding>&);
const std::vector<Rule>& rules();

// overcurrent.cpp
void unprotected_conductor(const Facts& facts, std::vector<Finding>& out);
void unprotected_between_batteries(const Facts& facts, std::vector<Finding>& out);
void small_lead_unprotected(const Facts& facts, std::vector<Finding>& out);
void fuse_too_far(const Facts& facts, std::vector<Finding>& out);
void device_above_conductor(const Facts& facts, std::vector<Finding>& out);
void devices_add_up(const Facts& facts, std::vector<Finding>& out);

// devices.cpp
/// Also charger-fuse-by-output, which is the same with its reason.
void device_below_current(const Facts& facts, std::vector<Finding>& out);
void breaking_capacity_low(const Facts& facts, std::vector<Finding>& out);
void device_voltage_low(const Facts& facts, std::vector<Finding>& out);

// conductors.cpp
void conductor_overheats(const Facts& facts, std::vector<Finding>& out);
void area_below_minimum(const Facts& facts, std::vector<Finding>& out);

// returns.cpp
void shared_return_thin(const Facts& facts, std::vector<Finding>& out);
void missing_return(const Facts& facts, std::vector<Finding>& out);
void not_fed(const Facts& facts, std::vector<Finding>& out);

// drop.cpp
void drop_too_large(const Facts& facts, std::vector<Finding>& out);

// supply.cpp
void load_starved(const Facts& facts, std::vector<Finding>& out);
void no_operating_point(const Facts& facts, std::vector<Finding>& out);

// charging.cpp
void relay_on_controlled_alternator(const Facts& facts, std::vector<Finding>& out);
void run_signal_always_live(const Facts& facts, std::vector<Finding>& out);
void charge_rate_too_high(const Facts& facts, std::vector<Finding>& out);
void lithium_charged_cold(const Facts& facts, std::vector<Finding>& out);
void alternator_overloaded(const Facts& facts, std::vector<Finding>& out);

// batteries.cpp
void above_battery_electronics(const Facts& facts, std::vector<Finding>& out);
void inverter_return_bypasses_shunt(const Facts& facts, std::vector<Finding>& out);

/// A return conductor on which something depends: with it open, these components have no way back.
struct ReturnLoad {
    int branch = -1;
    std::vector<plan::ComponentId> of; ///< what comes back through it and nowhere else
    int device =
        -1; ///< branch of the largest device whose fault comes back through it; -1 = none or not known
    bool shared = false; ///< by circuits of different devices
};
std::vector<ReturnLoad> return_loads(const Facts& facts);

} // namespace fl::rules
