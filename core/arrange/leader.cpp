#include "core/arrange/leader.h"

#include "core/arrange/block.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace fl::arrange {

using plan::Point;

namespace {

constexpr int directions = 48;

/// Where a text may stand off a point, and its leader.
struct StandOff {
    Point at, begin, end;
    bool from_right;
    int crossed;
};

/// The nearest place on these rings whose leader crosses nothing; else, if it may, what crosses least.
std::optional<StandOff> stand_off(const Rows& rows, Point to, const Room& room, double from_mm,
                                  double nearest_mm, double farthest_mm, double step_mm, bool may_cross) {
    static const auto turns = [] {
        std::array<Point, directions> all;
        for (std::size_t k = 0; k < all.size(); ++k) {
            const double turn = 2 * 3.14159265358979 * static_cast<double>(k) / directions;
            all[k] = {std::cos(turn), std::sin(turn)};
        }
        return all;
    }();
    const double wide = width_mm(rows), high = height_mm(rows);
    std::optional<StandOff> best;
    for (double r = nearest_mm; r <= farthest_mm; r += step_mm)
        for (const Point turn : turns) {
            const Point at{to.x_mm + r * turn.x_mm, to.y_mm + r * turn.y_mm};
            const bool from_right = at.x_mm < to.x_mm;
            const double left = from_right ? at.x_mm - wide : at.x_mm, top = at.y_mm - high / 2;
            if (!room.free({left - 0.5, top - 0.5, left + wide + 0.5, top + high + 0.5})) continue;
            const Point begin{at.x_mm + (from_right ? 0.5 : -0.5), at.y_mm};
            // the leader ends where the thing itself begins
            const double part = from_mm > 0 ? std::min(1.0, from_mm / r) : 0;
            const Point end{to.x_mm + (begin.x_mm - to.x_mm) * part, to.y_mm + (begin.y_mm - to.y_mm) * part};
            const int enough = !may_cross ? 1 : best ? best->crossed : std::numeric_limits<int>::max();
            const int crossed = room.crossed(begin, end, enough);
            if (crossed == 0) return StandOff{at, begin, end, from_right, 0};
            if (crossed < enough) best = StandOff{at, begin, end, from_right, crossed};
        }
    return best;
}

Label written(const Rows& rows, const StandOff& where, Room& room) {
    Label label;
    label.lines = set_rows(rows, where.at.x_mm, where.at.y_mm - height_mm(rows) / 2, where.from_right);
    for (const Line& l : label.lines) room.take_text(l.box);
    room.take_leader(where.begin, where.end);
    label.leader = {where.begin, where.end};
    return label;
}

} // namespace

std::optional<Label> with_leader(const std::vector<Rows>& settings, const std::vector<Point>& to, Room& room,
                                 double from_mm) {
    // near by, then farther off and less finely: a page that is full is soon known to be so
    struct Ring {
        double from, to, step;
        std::size_t points; // how many of them are tried
    };
    constexpr Ring near{5, 30, 2.5, 18}, far{32.5, 120, 7.5, 9}, anywhere{127.5, 400, 15, 2};
    const auto in_ring = [&](const Rows& rows, const Ring& ring, bool may_cross) {
        std::optional<StandOff> best;
        for (std::size_t i = 0; i < std::min(to.size(), ring.points); ++i) {
            const auto here = stand_off(rows, to[i], room, from_mm, from_mm + ring.from, from_mm + ring.to,
                                        ring.step, may_cross);
            if (here && (!best || here->crossed < best->crossed)) best = here;
            if (best && best->crossed == 0) break;
        }
        return best;
    };
    // a clear leader before one that crosses, the first setting before the next
    for (const bool may_cross : {false, true}) {
        for (const Rows& rows : settings)
            for (const Ring& ring : {near, far})
                if (const auto best = in_ring(rows, ring, may_cross)) return written(rows, *best, room);
    }
    if (const auto best = in_ring(settings.back(), anywhere, true))
        return written(settings.back(), *best, room);
    return {};
}

} // namespace fl::arrange
