#pragma once

#include "core/catalogue/symbols.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

/// Whole steps of the 2.5 mm grid: what is laid out is counted, not measured.
namespace fl::arrange {

using catalogue::Direction;

struct Cell {
    int x = 0, y = 0;
    auto operator<=>(const Cell&) const = default;
};
inline Cell operator+(Cell a, Cell b) {
    return {a.x + b.x, a.y + b.y};
}
inline Cell operator-(Cell a, Cell b) {
    return {a.x - b.x, a.y - b.y};
}
/// `steps` steps that way.
inline Cell step(Direction d, int steps = 1) {
    switch (d) {
    case Direction::left:
        return {-steps, 0};
    case Direction::up:
        return {0, -steps};
    case Direction::right:
        return {steps, 0};
    case Direction::down:
        return {0, steps};
    }
    return {};
}
inline bool level(Direction d) {
    return d == Direction::left || d == Direction::right;
}
inline plan::Point point(Cell c) {
    return {c.x * catalogue::grid_mm, c.y * catalogue::grid_mm};
}
/// The nearest cell; far outside any paper stays finite.
inline Cell cell(plan::Point p) {
    const auto whole = [](double mm) {
        return static_cast<int>(std::lround(std::clamp(mm / catalogue::grid_mm, -1e5, 1e5)));
    };
    return {whole(p.x_mm), whole(p.y_mm)};
}

/// Cells from corner to corner, both within.
struct Area {
    int left = 0, top = 0, right = 0, bottom = 0;
    bool operator==(const Area&) const = default;

    bool holds(Cell c) const { return c.x >= left && c.x <= right && c.y >= top && c.y <= bottom; }
    bool meets(const Area& o) const {
        return left <= o.right && o.left <= right && top <= o.bottom && o.top <= bottom;
    }
    Area grown(int by) const { return {left - by, top - by, right + by, bottom + by}; }
    Area at(Cell c) const { return {left + c.x, top + c.y, right + c.x, bottom + c.y}; }
};
/// A box in whole cells, outwards.
inline Area area(const catalogue::SymbolBox& b) {
    const auto down = [](double mm) { return static_cast<int>(std::floor(mm / catalogue::grid_mm + 1e-6)); };
    const auto up = [](double mm) { return static_cast<int>(std::ceil(mm / catalogue::grid_mm - 1e-6)); };
    return {down(b.left_mm), down(b.top_mm), up(b.right_mm), up(b.bottom_mm)};
}

} // namespace fl::arrange
