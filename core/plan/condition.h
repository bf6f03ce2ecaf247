#pragma once

#include "core/plan/entered.h"
#include "core/plan/ids.h"
#include "core/quantity/quantity.h"

#include <cstdint>
#include <string>
#include <vector>

namespace fl::plan {

enum class Engine : std::uint8_t { off, idle, running };
/// How the alternators behave: off, by their normal law, in a computer-controlled state, or held at a
/// voltage.
enum class AlternatorState : std::uint8_t { off, normal, lean, overrun, idle, held };
/// Which results a condition may set.
enum class Use : std::uint8_t {
    highest_voltage,
    lowest_voltage,
    lasting_current,
    short_current,
    standby,
    charging
};
/// Which loads run.
enum class LoadsOn : std::uint8_t { all, none, driving, parked, night, listed };

struct BatteryState {
    ComponentId battery;
    Ratio charge; ///< state of charge
    bool operator==(const BatteryState&) const = default;
};

/// A switch, relay, charger, source or the battery's electronics forced to a position.
struct Forced {
    ComponentId component;
    bool on = false;
    bool operator==(const Forced&) const = default;
};

/// One state of the world to solve.
struct Condition {
    ConditionId id;
    std::string name; ///< as shown: "lean cruise"
    Engine engine = Engine::off;
    AlternatorState alternator = AlternatorState::off;
    Entered<Voltage> held;          ///< with AlternatorState::held
    Entered<Ratio> state_of_charge; ///< of every service battery not listed
    std::vector<BatteryState> batteries;
    std::vector<Forced> forced;
    LoadsOn loads = LoadsOn::all;
    std::vector<ComponentId> listed; ///< with LoadsOn::listed
    bool mains = false, sun = false;
    Entered<Temperature> ambient;
    Entered<Time> duration; ///< absent = lasting
    std::vector<Use> uses;  ///< empty = all lasting uses
    std::string unknown;
    bool operator==(const Condition&) const = default;
};

} // namespace fl::plan
