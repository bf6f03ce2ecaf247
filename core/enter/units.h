#pragma once

#include "core/enter/said.h"
#include "core/enter/work.h"

#include <array>
#include <string_view>

/// A row that is a main unit. Private to this room.
namespace fl::enter {

enum class UnitKind : std::uint8_t {
    battery,
    starter_battery,
    alternator,
    drive_charger,
    mains_charger,
    solar,
    inverter
};
struct UnitWord {
    std::string_view words; ///< the whole name of the row, lower case
    UnitKind kind;
};
/// What the main units are called; the first of a kind is its usual name.
inline constexpr std::array unit_words{
    UnitWord{"battery", UnitKind::battery},
    UnitWord{"service battery", UnitKind::battery},
    UnitWord{"batteries", UnitKind::battery},
    UnitWord{"service batteries", UnitKind::battery},
    UnitWord{"charger", UnitKind::drive_charger},
    UnitWord{"dc-dc charger", UnitKind::drive_charger},
    UnitWord{"dc dc charger", UnitKind::drive_charger},
    UnitWord{"drive charger", UnitKind::drive_charger},
    UnitWord{"mains charger", UnitKind::mains_charger},
    UnitWord{"shore charger", UnitKind::mains_charger},
    UnitWord{"solar", UnitKind::solar},
    UnitWord{"solar panel", UnitKind::solar},
    UnitWord{"solar panels", UnitKind::solar},
    UnitWord{"solar controller", UnitKind::solar},
    UnitWord{"inverter", UnitKind::inverter},
    UnitWord{"starter battery", UnitKind::starter_battery},
    UnitWord{"alternator", UnitKind::alternator},
};
std::optional<UnitKind> unit_kind(const Said& said);
/// What the row says that is not of such a unit, with what would be right.
std::optional<Problem> not_here(UnitKind kind, const Said& said);

/// Makes the unit and joins it up, or changes the figures of the vehicle's own battery or alternator; gives
/// its id.
plan::ComponentId unit(Work& work, UnitKind kind, const Said& said);
/// "G2 Service battery: 200 Ah, F1 150 A"
std::string told(const plan::Installation& in, plan::ComponentId unit);
/// "200 Ah", "40 A", "1 kW"
std::string amount_of(const plan::Component& unit);

} // namespace fl::enter
