#pragma once

#include "core/file/file.h"

#include <string>
#include <string_view>
#include <vector>

/// Work not yet saved, kept so that a crash or a flat battery loses nothing: the whole document, written anew
/// after each edit into a folder of the application (which the caller names and has made).
namespace fl::file {

/// The recovery file of a document. `of` is the path of its own file, empty when it has none yet; `session`
/// tells two running programs apart (letters, digits and dashes).
std::string recovery_path(const std::string& folder, std::string_view of, std::string_view session);

/// Writes it, atomically like `save_file`. It is an ordinary document that any `load` reads, with the path of
/// its own file in it. Codes: those of `save_file`.
Result<void> write_recovery(const std::string& path, std::string_view of,
                            const plan::Installation& installation);

/// Every recovery file of the folder, sorted; none when the folder can't be read.
std::vector<std::string> recovery_files(const std::string& folder);

struct Recovered {
    std::string of; ///< the path of its own file; empty when it had none
    plan::Installation installation;
};
/// Reads one. Codes: those of `load_file`.
tl::expected<Recovered, Problems> read_recovery(const std::string& path);

/// Removes it, as after saving. What is not there is no problem. Code: file.write.
Result<void> remove_recovery(const std::string& path);

} // namespace fl::file
