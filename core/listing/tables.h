#pragma once

#include "core/listing/figures.h"
#include "core/listing/listing.h"
#include "core/quantity/print.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>

/// The tables made from an assessment. Numbers are written in the style given; what is not known says so.
namespace fl::listing {

/// Every conductor: where from and to, length, size, insulation, colour, greatest lasting current, what it
/// may carry. The cable list.
Listing cables(const assess::Assessment& assessment, Style style = {});
/// The same for a reader of paper: by designation, currents to three digits, a current that only flows for a
/// short time said as such ("6 short"), and what goes without saying (power, new) left out.
Listing cable_list(const assess::Assessment& assessment, Style style = {});
/// The greatest lasting current of a branch of the network in amperes, to three digits: "9.83"; where nothing
/// flows but for a short time, that ("6 short").
std::string greatest_current(const assess::Assessment& assessment, int branch, Style style = {});
/// A designation's place in a list: "W9" before "W10", "W15" before "W15a".
bool before(std::string_view designation, std::string_view other);

/// Every fuse, circuit-breaker and way of a fuse box: type, rating, greatest lasting current, largest fault
/// current at either side of it, what it can break, and the plus conductors it protects.
Listing devices(const assess::Assessment& assessment, Style style = {});

/// One condition: batteries and other sources with voltage, current delivered and state.
Listing sources(const assess::Assessment& assessment, const Figures& figures, Style style = {});
/// DC-DC chargers and converters with both sides and state.
Listing chargers(const assess::Assessment& assessment, const Figures& figures, Style style = {});
/// Loads with voltage, drop, current and state.
Listing loads(const assess::Assessment& assessment, const Figures& figures, Style style = {});
/// Power conductors with current, voltage drop and temperature of the copper.
Listing conductors(const assess::Assessment& assessment, const Figures& figures, Style style = {});

/// Conductors that can be sized: size drawn, least size by each demand, the one that governs, and whether the
/// drawn one is too small.
Listing sizes(const assess::Assessment& assessment, Style style = {});
/// True when the drawn size is below the least one; a size that is not known is too small for every least
/// one. False where there is no least one to compare with.
bool too_small(const plan::Conductor& conductor, const sizing::Size& size);

/// Short-circuit currents wherever a source reaches: largest and least, and who takes part in the largest.
Listing faults(const assess::Assessment& assessment, Style style = {});

/// "G2", or "U1 sun input" for an element of a unit.
std::string part_name(const plan::Installation& installation, plan::ComponentId component, int element = -1);
/// The terminals of a node: "G2.+", or "B1.1, B1.2 and 3 more".
std::string node_name(const plan::Installation& installation, const network::Node& node);
/// IEC 60757 code of every conductor's colour: its own, else by the job rules for plus and minus. Empty for a
/// signal conductor of which nothing is said.
std::map<plan::ConductorId, std::string> colours(const plan::Installation& installation,
                                                 const network::Network& network);
std::map<plan::ConductorId, std::string> colours(const assess::Assessment& assessment);

} // namespace fl::listing
