#pragma once

#include "core/arrange/block.h"
#include "core/arrange/room.h"

#include <optional>
#include <vector>

namespace fl::arrange {

/// A block in one of these settings in the nearest free room round one of these points, at least `from_mm`
/// away, with a leader to it; takes the room. The leader crosses texts only where it has to, and then as few
/// as it can. Nothing when the page is full.
std::optional<Label> with_leader(const std::vector<Rows>& settings, const std::vector<plan::Point>& to,
                                 Room& room, double from_mm = 0);

} // namespace fl::arrange
