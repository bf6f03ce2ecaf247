#pragma once

#include "core/arrange/block.h"
#include "core/arrange/chains.h"
#include "core/arrange/room.h"

#include <optional>

namespace fl::arrange {

/// A label for each conductor along its way: above a level stretch with the figure below, or as a stack on
/// the left of an upright one.
void write_conductors(const plan::Installation& installation, const Chains& chains, Layout& layout,
                      std::vector<Room>& rooms);

/// A block in the nearest free room round one of these points, at least `from_mm` away, with a leader to it;
/// takes the room. The leader crosses texts only where it has to. Nothing when the page is full.
std::optional<Label> with_leader(const Rows& rows, const std::vector<plan::Point>& to, Room& room,
                                 double from_mm = 0);

} // namespace fl::arrange
