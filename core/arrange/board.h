#pragma once

#include "core/arrange/shapes.h"

#include <cstdint>
#include <optional>
#include <vector>

/// One page as the router sees it.
namespace fl::arrange {

/// Grid of a page: what symbols cover, and which way lines leave each point.
class Board {
public:
    Board(int width, int height);

    int width() const { return width_; }
    int height() const { return height_; }
    bool holds(Cell c) const { return c.x >= 0 && c.y >= 0 && c.x < width_ && c.y < height_; }

    /// Nothing may pass these cells.
    void block(const Area& area);
    /// A line along these corners. Its ends are fixed points: no other line passes them.
    void draw(const std::vector<Cell>& corners);
    void erase(const std::vector<Cell>& corners);
    /// No line but those that begin here meets this point.
    void fix(Cell c);
    /// The first point out of a dock: other lines may cross it, but not bend there.
    void keep_open(Cell c);

    bool blocked(Cell c) const { return !holds(c) || (marks_[index(c)] & covered) != 0; }
    bool fixed(Cell c) const { return (marks_[index(c)] & fixed_point) != 0; }
    /// True when a line runs from this point that way.
    bool runs(Cell c, Direction d) const { return (marks_[index(c)] & bit(d)) != 0; }
    bool empty(Cell c) const { return (marks_[index(c)] & lines) == 0; }
    /// True when a line may go straight over this point: it is empty, or one line crosses it at a right
    /// angle.
    bool crossable(Cell c, Direction d) const;

    /// The cheapest way from one dock to another, as corners: few bends, few crossings, some distance from
    /// other lines. Nothing when there is none.
    std::optional<std::vector<Cell>> way(const Spike& from, const Spike& to);

private:
    static constexpr std::uint8_t lines = 15, covered = 16, fixed_point = 32, way_out = 64;
    static std::uint8_t bit(Direction d) { return static_cast<std::uint8_t>(1u << static_cast<unsigned>(d)); }
    std::size_t index(Cell c) const {
        return static_cast<std::size_t>(c.y) * static_cast<std::size_t>(width_) +
               static_cast<std::size_t>(c.x);
    }
    int cost_of_passing(Cell c, Direction d) const;
    /// True when a line that leaves this dock gets nowhere: found quickly, because the pocket is small.
    bool shut_in(const Spike& dock, Cell goal);
    void mark(const std::vector<Cell>& corners, bool on);

    int width_, height_;
    std::vector<std::uint8_t> marks_;
    std::vector<int> costs_;         // per point and direction
    std::vector<std::uint8_t> from_; // the direction before
    std::vector<int> stamps_, seen_;
    int stamp_ = 0;
};

} // namespace fl::arrange
