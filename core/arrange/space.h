#pragma once

#include "core/arrange/room.h"

#include <optional>
#include <vector>

namespace fl::arrange {

/// What of a page is free once everything is drawn: for what is written beside the drawing. What is placed is
/// taken.
class Space {
public:
    Space(const Layout& layout, int page);

    /// Something more stands there.
    void take(const Rect& rect) { room_.take_text(rect); }
    /// The lowest free place of this size, of several the leftmost; it keeps air from everything else.
    std::optional<Rect> lowest(double width_mm, double height_mm);
    struct Led {
        Rect place;
        plan::Point target;
    };
    /// The free place of this size whose middle is nearest to one of these points, within `reach_mm`, so that
    /// a straight leader to the point crosses no text and no symbol.
    std::optional<Led> nearest(const std::vector<plan::Point>& targets, double width_mm, double height_mm,
                               double reach_mm);

private:
    Rect frame_;
    Room room_;
};

} // namespace fl::arrange
