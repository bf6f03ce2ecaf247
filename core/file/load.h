#pragma once

#include "core/file/file.h"

#include <string>

/// Private to core/file.
namespace fl::file {

/// As `load`; a recovery file's own path goes to `of` when it is asked for.
Loaded load(std::string_view text, std::string* of);

/// As `save`; with `of`, as a recovery file of that path.
Result<std::string> save(const plan::Installation& installation, const std::string* of);

inline constexpr std::string_view recovery_key = "recovery_of";

} // namespace fl::file
