#pragma once

#include "core/arrange/arrange.h"

#include <vector>

namespace fl::arrange {

/// What of a page is written or drawn on, in bins so that asking is quick.
class Room {
public:
    explicit Room(const Page& page);

    void take(const Rect& rect) { put(rect, false); }
    /// A text, with the space to the next one.
    void take_text(const Rect& rect);
    /// A line of this width along corners, with the distance text keeps from it.
    void take(const std::vector<plan::Point>& corners, double width_mm);
    /// A leader, straight from one point to another: texts keep off it.
    void take_leader(plan::Point a, plan::Point b);

    /// True when the rectangle lies within the frame, off the title block, and meets nothing.
    bool free(const Rect& rect) const;
    /// How many half millimetres of a leader lie on texts, symbols and other leaders; lines it may cross.
    /// Counts no further than `enough`.
    int crossed(plan::Point a, plan::Point b, int enough) const;

private:
    struct Taken {
        Rect rect;
        bool line;
    };
    void put(const Rect& rect, bool line);
    template <class Visit>
    void bins(const Rect& rect, Visit&& visit) const;

    Rect frame_;
    int columns_, rows_;
    std::vector<std::vector<Taken>> bins_;
};

} // namespace fl::arrange
