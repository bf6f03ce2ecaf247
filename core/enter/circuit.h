#pragma once

#include "core/enter/said.h"
#include "core/enter/work.h"

/// A row that is a circuit. Private to this room.
namespace fl::enter {

/// What a circuit row made.
struct Circuit {
    plan::ComponentId load;
    plan::ComponentId box; ///< 0 = a heavy load, straight from the bar
    int way = 0;
    plan::ComponentId fuse; ///< of a heavy load
    plan::ConductorId there, back;
};
/// What the row says that is not of a circuit, with what would be right.
std::optional<Problem> not_of_a_circuit(const Said& said);
/// Makes load, way and conductors.
Circuit circuit(Work& work, const Said& said);
/// "F4.1 Fridge: 5 A, fuse 15 A, 2.5 mm², 4.3 m"
std::string told(const plan::Installation& in, const Circuit& made);

/// What a load takes, as it was typed: "12 × 0.25 A", "60 W".
std::string amount_of(const plan::Load& load);

} // namespace fl::enter
