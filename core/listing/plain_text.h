#pragma once

#include "core/listing/listing.h"

#include <cstddef>
#include <string>
#include <string_view>

/// Listings and sentences for a terminal or a text file.
namespace fl::listing {

/// The number of columns a text takes: its characters, since we print none that is wide or that combines.
std::size_t columns_of(std::string_view text);

/// The text on one line and harmless to a terminal: control characters become blanks, what is no UTF-8 `?`.
std::string printable(std::string_view text);

/// Breaks a text at blanks into lines of at most `width` columns, every line but the first indented by
/// `indent`; a word that is longer stands alone on its line, a number with its unit is one word. No newline
/// at the end. `width` counts the indent.
std::string wrapped(std::string_view text, std::size_t width, std::size_t indent = 0);

/// The listing's title, its columns' titles, their units below if any has one, and the rows, aligned; every
/// line ends with a newline and none with a blank. A listing without rows says "none" below its title.
std::string plain_text(const Listing& listing);

} // namespace fl::listing
