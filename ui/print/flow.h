#pragma once

#include <functional>
#include <memory>
#include <vector>

class QPainter;

/// How a list is broken over pages.
namespace fl::ui::print {

/// A part of a list that is never torn: a row, a line of a paragraph, a heading.
struct Piece {
    double height_mm = 0;
    std::function<void(QPainter&, double top_mm)> paint; ///< empty = space, left out at the top of a page
    bool with_next = false;                              ///< stands on the page of what follows it
    std::shared_ptr<const Piece> head;                   ///< repeated above it where a page begins with it
};

/// Where a piece stands on its page; `head` = a repeated one.
struct Placed {
    std::size_t piece = 0;
    double top_mm = 0;
    bool head = false;
    bool operator==(const Placed&) const = default;
};

/// The pieces on as many pages as they need, each of this height. What is held together stays so unless it is
/// higher than a page.
std::vector<std::vector<Placed>> broken(const std::vector<Piece>& pieces, double room_mm);

} // namespace fl::ui::print
