#include "core/arrange/space.h"

#include <algorithm>
#include <cmath>

namespace fl::arrange {
namespace {

constexpr double step_mm = catalogue::grid_mm / 2;
constexpr double air_mm = 1.5; // round what is placed lowest

Rect grown(const Rect& r, double by) {
    return {r.left_mm - by, r.top_mm - by, r.right_mm + by, r.bottom_mm + by};
}

} // namespace

Space::Space(const Layout& layout, int page)
    : frame_(layout.pages[static_cast<std::size_t>(page)].frame)
    , room_(layout.pages[static_cast<std::size_t>(page)]) {
    for (const Symbol& s : layout.symbols)
        if (s.page == page) room_.take(grown(s.box, 0.4));
    for (const Wire& w : layout.wires)
        for (const Stretch& s : w.stretches)
            if (s.page == page) room_.take(s.points, 0.7);
    for (const Lead& l : layout.leads) {
        if (l.page != page) continue;
        room_.take(l.points, 0.7);
        for (const plan::Point p : l.dots) room_.take(grown({p.x_mm, p.y_mm, p.x_mm, p.y_mm}, 1));
    }
    const auto leader = [&](const std::vector<plan::Point>& points) {
        for (std::size_t i = 1; i < points.size(); ++i) room_.take_leader(points[i - 1], points[i]);
    };
    for (const Label& l : layout.labels) {
        if (l.page != page) continue;
        for (const Line& line : l.lines) room_.take_text(line.box);
        leader(l.leader);
    }
    for (const Mark& m : layout.marks) {
        if (m.page != page) continue;
        room_.take_text(m.box);
        leader(m.leader);
    }
}

std::optional<Rect> Space::lowest(double width, double height) {
    for (double bottom = frame_.bottom_mm - 2; bottom - height > frame_.top_mm; bottom -= step_mm)
        for (double left = frame_.left_mm + 3; left + width < frame_.right_mm; left += step_mm) {
            const Rect place{left, bottom - height, left + width, bottom};
            Rect clear = grown(place, air_mm);
            clear.bottom_mm = std::min(clear.bottom_mm, frame_.bottom_mm - 1); // the frame may be nearer
            clear.left_mm = std::max(clear.left_mm, frame_.left_mm + 1);
            if (!room_.free(clear)) continue;
            room_.take(place);
            return place;
        }
    return {};
}

std::optional<Space::Led> Space::nearest(const std::vector<plan::Point>& targets, double width, double height,
                                         double reach) {
    std::optional<Led> best;
    double least = reach;
    const int steps = static_cast<int>(reach / step_mm);
    for (const plan::Point to : targets)
        for (int iy = -steps; iy <= steps; ++iy)
            for (int ix = -steps; ix <= steps; ++ix) {
                const plan::Point middle{to.x_mm + ix * step_mm, to.y_mm + iy * step_mm};
                const double far = std::hypot(middle.x_mm - to.x_mm, middle.y_mm - to.y_mm);
                if (far >= least) continue;
                const Rect place{middle.x_mm - width / 2, middle.y_mm - height / 2, middle.x_mm + width / 2,
                                 middle.y_mm + height / 2};
                if (!room_.free(place) || (far > width && room_.crossed(middle, to, 1) > 0)) continue;
                best = Led{place, to};
                least = far;
            }
    if (!best) return {};
    room_.take_text(best->place);
    if (least > width)
        room_.take_leader({(best->place.left_mm + best->place.right_mm) / 2,
                           (best->place.top_mm + best->place.bottom_mm) / 2},
                          best->target);
    return best;
}

} // namespace fl::arrange
