#pragma once

#include "app/options.h"
#include "core/assess/assess.h"

#include <functional>
#include <memory>
#include <string>

namespace fl::json {
class Writer;
}

namespace fl::app {

/// A file, read and assessed; or what is wrong with it.
struct Opened {
    std::string path;
    std::shared_ptr<const assess::Assessment> assessment; ///< null = unusable
    Problems problems;

    int status() const { return assessment ? fine : unusable; }
};
Opened open(const std::string& path);

/// One line a problem: `file: where: what is wrong: what would be right`.
std::string error_lines(const std::string& path, const Problems& problems);

/// The JSON answer of a command that reads one file: format, version, status, file, problems, then what
/// `more` writes. `more` is called only for a usable file.
Answer json_answer(const Opened& opened, std::string_view format,
                   const std::function<void(json::Writer&)>& more);

/// Columns of the terminal that standard output is, else 100.
std::size_t output_width();

} // namespace fl::app
