#pragma once

#include "core/assess/assess.h"

#include <optional>
#include <string_view>
#include <vector>

/// What a solved condition says about the things that are drawn.
namespace fl::listing {

/// How something ended: a stable code for files and a word for people.
struct State {
    std::string_view code, word;
    bool operator==(const State&) const = default;
};

/// A power conductor. The current counts positive from its `from` end to its `to` end; the drop is of the
/// same sign and holds the joints at both ends.
struct ConductorFigures {
    plan::ConductorId conductor;
    Current current;
    Voltage drop;
    Temperature copper;
};

/// A load, inverter, starter motor or coil. Voltages are empty where nothing joins its poles or nothing feeds
/// it; the drop counts from the terminals of its reference source, both poles together.
struct LoadFigures {
    int port = -1; ///< of the network
    std::optional<Voltage> voltage, drop;
    Current current;
    State state;
};

/// A battery or another source with one pair of terminals; the current counts positive when delivered.
struct SourceFigures {
    int port = -1;
    std::optional<Voltage> voltage;
    Current current;
    State state;
};

/// A DC-DC charger or converter.
struct ChargerFigures {
    int converter = -1; ///< of the network's two-ports
    std::optional<Voltage> in_voltage, out_voltage;
    Current in_current, out_current;
    State state;
};

/// All of them, in the order of the network. Nothing at all where the condition has no operating point.
struct Figures {
    std::vector<SourceFigures> sources;
    std::vector<ChargerFigures> chargers;
    std::vector<LoadFigures> loads;
    std::vector<ConductorFigures> conductors;
};
Figures figures(const assess::Assessment& assessment, const condition::Solved& solved);

} // namespace fl::listing
