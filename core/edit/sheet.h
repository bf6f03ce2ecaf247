#pragma once

#include "core/base/result.h"
#include "core/plan/installation.h"

#include <span>

/// Edits of the paper: where a hand has put things. What no hand has put is laid out by core/arrange.
namespace fl::edit {

/// How a symbol stands on its sheet.
struct Stand {
    int page = 0;   ///< counted from 0 in the order of the sheets; missing sheets are made
    plan::Point at; ///< goes to the nearest point of the 2.5 mm grid
    int quarter_turns = 0;
    bool mirrored = false;
};

/// Puts a component's symbol there. Codes: edit.subject, valid.range.
Result<plan::Installation> place(const plan::Installation& installation, plan::ComponentId component,
                                 const Stand& stand);
/// Takes the hand off: the symbol is laid out with the rest again. Code: edit.subject.
Result<plan::Installation> release(const plan::Installation& installation, plan::ComponentId component);

/// Leads a conductor over these corners, in order from its `from` end, instead of a way found for it; each
/// goes to the nearest point of the grid, and where two that follow each other are not in line one more is
/// drawn between them. Its ends, and where they dock, are no corners. No corners: the hand is taken off, as
/// `release` does. Codes: edit.subject, valid.range.
Result<plan::Installation> route(const plan::Installation& installation, plan::ConductorId conductor,
                                 std::span<const plan::Point> corners);
/// Takes the hand off: a way is found for the conductor again. Code: edit.subject.
Result<plan::Installation> release(const plan::Installation& installation, plan::ConductorId conductor);

} // namespace fl::edit
