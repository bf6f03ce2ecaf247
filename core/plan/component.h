#pragma once

#include "core/plan/kinds.h"

#include <cstdint>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace fl::plan {

/// As found: was there before us; never sized or priced, judged only where new work changes its current.
enum class Origin : std::uint8_t { added, as_found, moved, removed };

/// Our own work, new or moved: what is sized, priced and judged.
constexpr bool is_ours(Origin origin) {
    return origin == Origin::added || origin == Origin::moved;
}

/// One element of a unit; no units inside units.
using ElementParameters =
    std::variant<Battery, Alternator, TakeOffPoint, SignalPoint, StarterMotor, DriveCharger, Converter,
                 MainsCharger, SolarController, Inverter, Load, Fuse, Breaker, Switch, Relay, Busbar, FuseBox,
                 EarthPoint, Shunt, Joint, MainsBoundary, Isolator>;

/// An element behind a unit's shared terminals. `at` maps each terminal of the element to one of the unit's.
struct Element {
    std::string role; ///< "sun input", "drive input" ...
    ElementParameters with;
    std::vector<std::pair<std::string, std::string>> at;
    bool operator==(const Element&) const = default;
};

/// Several elements behind shared terminals, with a shared limit of what leaves them.
struct Unit {
    std::vector<std::string> terminals;
    std::vector<Element> elements;
    Entered<Current> shared_limit;
    bool operator==(const Unit&) const = default;
};

/// Every kind of component, in the order of `Kind`.
using Parameters =
    std::variant<Battery, Alternator, TakeOffPoint, SignalPoint, StarterMotor, DriveCharger, Converter,
                 MainsCharger, SolarController, Inverter, Load, Fuse, Breaker, Switch, Relay, Busbar, FuseBox,
                 EarthPoint, Shunt, Joint, MainsBoundary, Isolator, Unit>;

enum class Kind : std::uint8_t {
    battery,
    alternator,
    take_off_point,
    signal_point,
    starter_motor,
    drive_charger,
    converter,
    mains_charger,
    solar_controller,
    inverter,
    load,
    fuse,
    breaker,
    switch_,
    relay,
    busbar,
    fuse_box,
    earth_point,
    shunt,
    joint,
    mains_boundary,
    isolator,
    unit
};

/// Anything with terminals.
struct Component {
    ComponentId id;
    std::string designation; ///< "G2"; unique in the document
    std::string name;        ///< plain name: "Service battery"
    Origin origin = Origin::added;
    PlaceId place; ///< 0 = not placed
    Parameters with;
    std::string note;
    std::string unknown; ///< JSON of fields this version does not know

    Kind kind() const { return static_cast<Kind>(with.index()); }
    bool operator==(const Component&) const = default;
};

/// The component's terminals, in the order they are drawn; depends on its parameters (ways, studs,
/// isolation).
std::vector<std::string> terminals(const Parameters& with);

} // namespace fl::plan
