#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace fl::json {

/// Lengthens a JSON pointer (RFC 6901) by a key, with ~ and / escaped, or by an index.
void append_key(std::string& pointer, std::string_view key);
void append_index(std::string& pointer, std::size_t index);

} // namespace fl::json
