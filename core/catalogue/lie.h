#pragma once

#include "core/catalogue/catalogue.h"
#include "core/plan/installation.h"

#include <optional>

namespace fl::catalogue {

/// What a conductor's lie does to the current it may carry and to how warm it gets.
struct Lie {
    const Insulation* insulation = nullptr;
    const AmpacityTable* table = nullptr; ///< null = none of the catalogue covers the insulation
    Temperature ambient;
    int loaded_conductors = 1;
    std::optional<Length> in_insulation; ///< longest stretch inside wall or roof insulation
};

/// The insulation a conductor is taken with: its own, else the job rules', else the rule set's.
const Insulation& insulation_of(const plan::Installation& installation, const plan::Conductor& conductor);

/// The ambient of a place: entered, else the default of its kind; empty when neither is known.
std::optional<Temperature> ambient_of(const plan::Place& place);

/// The lie of a conductor: insulation as above; the job rules' ampacity table, else the rule set's, in the
/// hottest column that is not above the insulation's limit (free air only if the run is laid so); ambient of
/// its run, else the hotter of the run's places, else of the places of what it connects, else the job rules',
/// else the rule set's; grouping and insulated stretch from its run.
Lie lie_of(const plan::Installation& installation, const plan::Conductor& conductor);

/// Resistance per length at 20 °C that a conductor is taken with: of its size's row, or of ideal copper where
/// the job rules say so. Empty when its size is not known or below the table.
std::optional<ResistancePerLength> per_length_of(const plan::Installation& installation,
                                                 const plan::Conductor& conductor);

/// The rule set of the job rules; `van` where that name is not known.
const RuleSet& rules_of(const plan::Installation& installation);

/// The job's nominal voltage: of the job rules, else the rule set's.
Voltage nominal_of(const plan::Installation& installation);

} // namespace fl::catalogue
