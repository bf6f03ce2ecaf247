#include "ui/drawing/clip.h"

#include <algorithm>
#include <array>

namespace fl::ui::drawing {

std::optional<std::pair<QPointF, QPointF>> clipped(const QPointF& from, const QPointF& to,
                                                   const QRectF& within) {
    const QPointF step = to - from;
    double begin = 0, end = 1;
    // Of each side: how fast the line leaves by it, and how far it is from it.
    const std::array<std::pair<double, double>, 4> sides{{{-step.x(), from.x() - within.left()},
                                                          {step.x(), within.right() - from.x()},
                                                          {-step.y(), from.y() - within.top()},
                                                          {step.y(), within.bottom() - from.y()}}};
    for (const auto& [leaves, room] : sides) {
        if (leaves == 0) {
            if (room < 0) return {};
        } else if (leaves < 0) {
            begin = std::max(begin, room / leaves);
        } else {
            end = std::min(end, room / leaves);
        }
    }
    if (begin > end) return {};
    return std::pair(from + step * begin, from + step * end);
}

std::vector<std::vector<QPointF>> clipped(const std::vector<QPointF>& points, const QRectF& within) {
    std::vector<std::vector<QPointF>> parts;
    for (std::size_t i = 1; i < points.size(); ++i) {
        const auto part = clipped(points[i - 1], points[i], within);
        if (!part) continue;
        if (parts.empty() || parts.back().back() != part->first) parts.push_back({part->first});
        parts.back().push_back(part->second);
    }
    return parts;
}

std::vector<QPointF> clipped_area(std::vector<QPointF> corners, const QRectF& within) {
    // One side after the other: how far inside of it a point lies.
    const auto inside = [&](const QPointF& p, int side) {
        switch (side) {
        case 0:
            return p.x() - within.left();
        case 1:
            return within.right() - p.x();
        case 2:
            return p.y() - within.top();
        default:
            return within.bottom() - p.y();
        }
    };
    for (int side = 0; side < 4 && !corners.empty(); ++side) {
        std::vector<QPointF> left;
        for (std::size_t i = 0; i < corners.size(); ++i) {
            const QPointF &here = corners[i], &before = corners[(i + corners.size() - 1) % corners.size()];
            const double in = inside(here, side), was = inside(before, side);
            if ((in < 0) != (was < 0)) left.push_back(before + (here - before) * (was / (was - in)));
            if (in >= 0) left.push_back(here);
        }
        corners = std::move(left);
    }
    return corners;
}

} // namespace fl::ui::drawing
