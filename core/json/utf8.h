#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace fl::json {

/// Where the first byte stands that belongs to no UTF-8 character (RFC 3629: no overlong forms, no
/// surrogates, nothing beyond U+10FFFF); npos when all is well.
std::size_t bad_utf8(std::string_view text);

/// "line 3, column 5" of the byte at `offset`; columns count characters, from 1.
std::string line_and_column(std::string_view text, std::size_t offset);

/// The text cut to at most `bytes` bytes between two characters, with "..." where something was cut off.
std::string shortened(std::string_view text, std::size_t bytes);

/// Appends the text in quotes, escaping only what RFC 8259, section 7, asks for.
void append_quoted(std::string& out, std::string_view text);

} // namespace fl::json
