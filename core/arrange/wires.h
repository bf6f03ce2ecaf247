#pragma once

#include "core/arrange/board.h"
#include "core/arrange/docks.h"

namespace fl::arrange {

struct Wires {
    std::vector<Wire> wires;
    std::vector<Mark> marks;
};

/// Leads every conductor from dock to dock: round symbols, never along another line, crossing at right angles
/// only. Corners placed by hand are followed as they are. What can't be led, or goes to another page, ends at
/// marks.
Wires lead_wires(const plan::Installation& installation, const Shapes& shapes, const Settled& settled,
                 const Docks& docks);

} // namespace fl::arrange
