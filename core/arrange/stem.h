#pragma once

#include "core/arrange/shapes.h"

#include <functional>
#include <optional>
#include <vector>

namespace fl::arrange {

struct Branching {
    Cell end;                                ///< of the lead; the terminal itself when nothing could join
    std::vector<std::optional<Spike>> docks; ///< one for each conductor, nothing where there was no room
    std::vector<Cell> dots;
};

/// Leads a terminal out so far that each conductor joins it at a point of its own: two at its end, one to the
/// left and one to the right or straight on, and one at each further point, never four lines in one. Levels
/// follow `aims` (nothing: on another page); `blocked` cells can't be led through.
Branching branch(const Spike& pin, const std::vector<std::optional<Spike>>& aims,
                 const std::function<bool(Cell)>& blocked);

} // namespace fl::arrange
