#pragma once

#include "ui/drawing/lines.h"

namespace fl::ui::print {

using drawing::lines_of, drawing::words_of;

/// Heights of capitals on A4, ISO 3098 (docs/look.md 3).
inline constexpr double title_mm = 5, heading_mm = 3.5, body_mm = 2.5, caption_mm = 1.9;
/// From one line of the body to the next.
inline constexpr double pitch_mm = 4.6;

} // namespace fl::ui::print
