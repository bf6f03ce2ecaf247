#pragma once

#include "core/catalogue/lie.h"
#include "core/derive/derivation.h"
#include "core/sizing/physics.h"

#include <optional>
#include <string>
#include <vector>

/// Least size of one conductor by each demand. Values in, values out: nothing here looks at a whole network.
namespace fl::sizing {

using catalogue::insulation_of;
using catalogue::Lie;
using catalogue::lie_of;

/// Current the size may carry lastingly: I_table * f_ambient * f_group * f_laid. Empty when the size or the
/// lie is not in the tables. An insulation hotter than the table's column raises the factor for a hot
/// ambient, up to the tabulated current and no further: what it lands on is made for the column.
std::optional<Current> may_carry(const WireSize& size, const Lie& lie);
derive::Derivation why_may_carry(const WireSize& size, const Lie& lie);

/// Resistance of a core: R20 * L * (1 + alpha20 (T - 20 °C)).
std::optional<Resistance> resistance(const WireSize& size, Length one_way, Temperature at);
derive::Derivation why_resistance(const WireSize& size, Length one_way, Temperature at);

/// Steady temperature of a size at a lasting current in its lie; empty = no steady temperature. Where the lie
/// has no table or no row for the size: its ambient.
std::optional<Temperature> temperature(const WireSize& size, const Lie& lie, Current current);

/// What asks for how much.
struct Demand {
    std::string code;              ///< "current", "protection", "drop", "minimum", "withstand"
    std::optional<WireSize> least; ///< smallest size that meets it; empty = none in the table does
    std::string by;                ///< what asked, in a few words for the why
    bool operator==(const Demand&) const = default;
};

/// What is not given asks for nothing. `let_through` asks for nothing where the insulation's k is not known.
struct Needs {
    Current running;               ///< greatest lasting current
    std::optional<Current> device; ///< rating of the device that protects it
    double device_multiple = 1;    ///< of the rule set
    std::optional<Voltage> drop;   ///< allowed over `loop`, for this conductor's own share
    std::optional<Length> loop;    ///< conductor length the current takes; no loop, no demand by drop
    plan::ConductorTemperature temperature = plan::ConductorTemperature::solved; ///< at which drop is judged
    bool ideal_copper = false;        ///< drop by annealed copper's resistivity instead of the size table
    std::optional<Joule> let_through; ///< to be withstood
    WireSize minimum;                 ///< mechanical
    bool gauges = false;
    std::optional<Current> drop_current; ///< at which `drop` is judged; empty = `running`
};
/// The least standard size by each demand, and the one that governs (the largest).
struct Size {
    std::vector<Demand> demands;
    std::optional<WireSize> least;
    std::string governing; ///< code of the demand that sets it
    bool operator==(const Size&) const = default;
};
Size least_size(const Needs& needs, const Lie& lie);

/// The smallest standard size of at least this area: a metric one, or a gauge.
std::optional<WireSize> next_size(Area at_least, bool gauges);
/// The smallest standard size that keeps to a drop by plain resistivity: next_size of area_for_drop.
std::optional<WireSize> size_for_drop(Length loop, Current current, Voltage allowed, double rho_ohm_mm2_per_m,
                                      bool gauges);

/// The next standard rating of a fuse type at or above a current.
std::optional<Current> next_rating(const catalogue::FuseType& type, Current at_least);
/// The smallest standard rating whose share `continuous_factor` (0 to 1) carries a lasting current.
std::optional<Current> rating_for(const catalogue::FuseType& type, Current continuous,
                                  double continuous_factor);

/// Voltage lost over a loop of one size at a current and temperature: I * R(T, L).
std::optional<Voltage> drop(const WireSize& size, Length loop, Current current, Temperature at);

} // namespace fl::sizing
