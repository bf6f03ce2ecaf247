#pragma once

#include "core/base/result.h"

#include <cstddef>
#include <string>
#include <string_view>

namespace fl::file {

/// The bytes of a file. Codes: file.read (why the system refused), file.size (more than `most` bytes).
Result<std::string> read_whole(const std::string& path, std::size_t most);

/// Writes a file in one step: into a new file in the same folder, synced to disk, then put in the old one's
/// place, and the folder synced. Whatever fails, or if the power does, the path holds the old bytes or the
/// new ones. Permissions of an old file are kept; a symbolic link stays one, and what it points at is
/// written; an old file that may not be written is left alone. Code: file.write.
Result<void> write_whole(const std::string& path, std::string_view bytes);

} // namespace fl::file
