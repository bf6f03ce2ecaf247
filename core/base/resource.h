#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace fl {

/// The bytes of the file `path` below `resources/`, embedded at build time; empty when there is none.
/// Valid for the life of the program.
std::optional<std::string_view> resource(std::string_view path);

/// Paths of all embedded files that begin with `prefix`, sorted.
std::vector<std::string_view> resource_paths(std::string_view prefix);

} // namespace fl
