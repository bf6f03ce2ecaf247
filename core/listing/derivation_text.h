#pragma once

#include "core/derive/derivation.h"
#include "core/quantity/print.h"

#include <cstddef>
#include <string>
#include <string_view>

namespace fl::listing {

/// A value of a sentence or a derivation as text: "60 A", "2.5 mm²", a word as it is. Volts have three
/// decimals here, since drops of single conductors are among them.
std::string text_of(const derive::Value& value, Style style = {});

/// How a value without inputs came to be: "entered", "from a table".
std::string_view kind_of(derive::Leaf leaf);

/// A derivation as an indented tree, a line for each quantity: `symbol = formula = value`, what it is, and
/// its source; inputs below, indented. Lines are at most `width` columns; each ends with a newline.
std::string plain_text(const derive::Derivation& derivation, std::size_t width, Style style = {});

} // namespace fl::listing
