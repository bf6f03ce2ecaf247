#include "core/arrange/room.h"

#include <algorithm>
#include <cmath>

namespace fl::arrange {
namespace {

constexpr double bin_mm = 12.5;
constexpr double clear_mm = 0.5; // between text and line

} // namespace

Room::Room(const Page& page)
    : frame_(page.frame)
    , columns_(static_cast<int>(std::ceil(page.width_mm / bin_mm)))
    , rows_(static_cast<int>(std::ceil(page.height_mm / bin_mm)))
    , bins_(static_cast<std::size_t>(columns_ * rows_)) {
    take({page.frame.right_mm - 180, page.frame.bottom_mm - 44, page.frame.right_mm, page.frame.bottom_mm});
    // what the figures are, in the upper right corner
    take({page.frame.right_mm - 85, page.frame.top_mm, page.frame.right_mm, page.frame.top_mm + 9});
}

template <class Visit>
void Room::bins(const Rect& r, Visit&& visit) const {
    const auto bin = [](double mm, int count) {
        return std::clamp(static_cast<int>(std::floor(mm / bin_mm)), 0, count - 1);
    };
    for (int y = bin(r.top_mm, rows_); y <= bin(r.bottom_mm, rows_); ++y)
        for (int x = bin(r.left_mm, columns_); x <= bin(r.right_mm, columns_); ++x)
            if (!visit(static_cast<std::size_t>(y) * static_cast<std::size_t>(columns_) +
                       static_cast<std::size_t>(x)))
                return;
}

void Room::put(const Rect& rect, bool line) {
    auto* all = &bins_;
    bins(rect, [&](std::size_t i) {
        (*all)[i].push_back({rect, line});
        return true;
    });
}

void Room::take_text(const Rect& r) {
    take({r.left_mm - 1, r.top_mm, r.right_mm + 1, r.bottom_mm});
}

void Room::take(const std::vector<plan::Point>& corners, double width_mm) {
    const double by = width_mm / 2 + clear_mm;
    for (std::size_t i = 1; i < corners.size(); ++i) {
        const auto [x1, x2] = std::minmax(corners[i - 1].x_mm, corners[i].x_mm);
        const auto [y1, y2] = std::minmax(corners[i - 1].y_mm, corners[i].y_mm);
        put({x1 - by, y1 - by, x2 + by, y2 + by}, true);
    }
}

bool Room::free(const Rect& rect) const {
    if (rect.left_mm < frame_.left_mm + 1 || rect.top_mm < frame_.top_mm + 1 ||
        rect.right_mm > frame_.right_mm - 1 || rect.bottom_mm > frame_.bottom_mm - 1)
        return false;
    bool free = true;
    bins(rect, [&](std::size_t i) {
        free = std::none_of(bins_[i].begin(), bins_[i].end(),
                            [&](const Taken& taken) { return taken.rect.overlaps(rect); });
        return free;
    });
    return free;
}

template <class Visit>
static void walk(plan::Point a, plan::Point b, Visit&& visit) {
    const double length = std::hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm);
    const int steps = std::max(1, static_cast<int>(2 * length));
    for (int i = 0; i <= steps; ++i) {
        const double t = static_cast<double>(i) / steps;
        const double x = a.x_mm + (b.x_mm - a.x_mm) * t, y = a.y_mm + (b.y_mm - a.y_mm) * t;
        if (!visit(Rect{x - 0.4, y - 0.4, x + 0.4, y + 0.4})) return;
    }
}

void Room::take_leader(plan::Point a, plan::Point b) {
    walk(a, b, [&](const Rect& spot) {
        put(spot, false);
        return true;
    });
}

int Room::crossed(plan::Point a, plan::Point b, int enough) const {
    int crossed = 0;
    walk(a, b, [&](const Rect& spot) {
        bool clear = true;
        bins(spot, [&](std::size_t i) {
            clear = std::none_of(bins_[i].begin(), bins_[i].end(), [&](const Taken& taken) {
                return !taken.line && taken.rect.overlaps(spot);
            });
            return clear;
        });
        crossed += clear ? 0 : 1;
        return crossed < enough;
    });
    return crossed;
}

} // namespace fl::arrange
