#pragma once

#include "core/rules/seen.h"

#include <vector>

/// Every rule: a function that adds what it finds. Private to this room.
namespace fl::rules {

using Rule = void (*)(const Seen&, std::vector<Finding>&);
const std::vector<Rule>& rules();

// overcurrent.cpp
void unprotected_conductor(const Seen& facts, std::vector<Finding>& out);
void unprotected_between_batteries(const Seen& facts, std::vector<Finding>& out);
void small_lead_unprotected(const Seen& facts, std::vector<Finding>& out);
void fuse_too_far(const Seen& facts, std::vector<Finding>& out);
void device_above_conductor(const Seen& facts, std::vector<Finding>& out);
void devices_add_up(const Seen& facts, std::vector<Finding>& out);

// devices.cpp
/// Also charger-fuse-by-output, which is the same with its reason.
void device_below_current(const Seen& facts, std::vector<Finding>& out);
void breaking_capacity_low(const Seen& facts, std::vector<Finding>& out);
void device_voltage_low(const Seen& facts, std::vector<Finding>& out);

// opening.cpp
/// opens-too-late and opens-in-service.
void opening_times(const Seen& facts, std::vector<Finding>& out);
void never_opens(const Seen& facts, std::vector<Finding>& out);

// live.cpp
void puts_out_live(const Seen& facts, std::vector<Finding>& out);

// conductors.cpp
void conductor_overheats(const Seen& facts, std::vector<Finding>& out);
void area_below_minimum(const Seen& facts, std::vector<Finding>& out);

// returns.cpp
void shared_return_thin(const Seen& facts, std::vector<Finding>& out);
void missing_return(const Seen& facts, std::vector<Finding>& out);
void not_fed(const Seen& facts, std::vector<Finding>& out);

// drop.cpp
void drop_too_large(const Seen& facts, std::vector<Finding>& out);

// supply.cpp
void load_starved(const Seen& facts, std::vector<Finding>& out);
void no_operating_point(const Seen& facts, std::vector<Finding>& out);

// operating.cpp
/// What condition::sayings says and no other rule does; codes that begin with "solve.".
void operating(const Seen& facts, std::vector<Finding>& out);

// charging.cpp
void relay_on_controlled_alternator(const Seen& facts, std::vector<Finding>& out);
void run_signal_always_live(const Seen& facts, std::vector<Finding>& out);
void charge_rate_too_high(const Seen& facts, std::vector<Finding>& out);
void lithium_charged_cold(const Seen& facts, std::vector<Finding>& out);
void alternator_overloaded(const Seen& facts, std::vector<Finding>& out);

// batteries.cpp
void above_battery_electronics(const Seen& facts, std::vector<Finding>& out);
void inverter_return_bypasses_shunt(const Seen& facts, std::vector<Finding>& out);

} // namespace fl::rules
