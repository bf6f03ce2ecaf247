#pragma once

#include "core/arrange/chains.h"

#include <string>
#include <vector>

/// What stands beside things on the sheet.
namespace fl::arrange {

/// "F1", "Charger input fuse", "70 A": designation, plain name, and the figures that tell it from its like.
struct Caption {
    std::string designation, name;
    std::vector<std::string> data;
};
Caption caption(const plan::Component& component);

/// "W6", "16 RD", "5.2 m": designation, size with the colour's code, length one way. "?" is not known.
Caption caption(const plan::Installation& installation, const plan::Conductor& conductor, Side side);

/// Steps of the grid that a conductor's label takes along a level line, in one, two or three rows.
int level_steps(const plan::Installation& installation, const plan::Conductor& conductor, Side side,
                int rows);

/// The rating of a way of a fuse box: "15 A"; empty when no link is fitted.
std::string caption(const plan::Way& way);

/// Terminals that are marked on the sheet, because which is which matters: in+, out+, run, B+, 30, 86 ...
bool marks_terminals(plan::Kind kind);

/// Words joined into lines of at most this width, at the height of labels; a longer word has a line of its
/// own.
std::vector<std::string> wrapped(const std::vector<std::string>& words, double width_mm);
std::vector<std::string> words_of(const std::string& text);

} // namespace fl::arrange
