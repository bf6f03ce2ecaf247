#pragma once

#include "core/arrange/arrange.h"
#include "core/arrange/cell.h"

/// The paper: sizes after ISO 216, frame after ISO 5457, and the levels at which things stand.
namespace fl::arrange {

/// A page of this size ("A3"), landscape; A3 for a size that is not known.
Page page_of(plan::SheetId sheet, std::string_view size);

/// Where symbols may stand: within the frame and above the title block.
Area drawing_area(const Page& page);

/// The levels of a page: plus runs along `plus`, returns along `minus`, body points stand at `body`.
struct Levels {
    int plus = 0, minus = 0, body = 0;
};
Levels levels_of(const Area& area);

/// Steps of the grid: a short level stretch, a return in a row, the stack beside an upright conductor.
inline constexpr int short_room = 7, return_room = 12, upright_room = 8;

} // namespace fl::arrange
