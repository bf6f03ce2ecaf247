#pragma once

#include "core/arrange/arrange.h"

#include <string>
#include <vector>

namespace fl::arrange {

/// One word or group of a label, in its own cut.
struct Text {
    LineKind kind = LineKind::data;
    std::string text;
};
using Rows = std::vector<std::vector<Text>>;

// 3.5 of ISO 3098; the smaller is its 2.5 and a little, so that printed on A4 (0.707) it is 1.8 still.
inline constexpr double capital_mm = 3.5, small_capital_mm = 2.6;
inline constexpr double row_mm = 4.75; // line pitch
inline constexpr double row_box_mm = 1.25 * capital_mm;
inline constexpr double figure_mm = 16; // room for "88.8 A" and the letter of its condition

double width_mm(const Text& text);
double width_mm(const Rows& rows);
double height_mm(const Rows& rows);

/// The lines of a block whose rows begin (or, from the right, end) at x; `top` is that of the first.
std::vector<Line> set_rows(const Rows& rows, double x, double top, bool from_right);
/// The same, each row centred on x.
std::vector<Line> centred(const Rows& rows, double x, double top);

} // namespace fl::arrange
