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

/// Steps of the grid: a short level stretch, a row from its way to its load, a return in a row, the stack
/// beside an upright conductor.
inline constexpr int short_room = 7, row_room = 13, return_room = 18, upright_room = 8;
/// More of it just below a bar or a hub, where the figure of the line before hangs down.
inline constexpr int hang_room = 3;
/// `steps`, in leaps above what is usual: labels a little longer than the others don't move what stands
/// there.
inline int in_leaps(int steps, int usual) {
    return steps <= usual ? usual : usual + (steps - usual + 2) / 3 * 3;
}

} // namespace fl::arrange
