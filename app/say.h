#pragma once

#include "core/assess/assess.h"

#include <cstddef>
#include <string>

/// Findings in words, for a terminal.
namespace fl::app {

/// The answer to `check`: a header, what was found, findings, open questions, site checks. With `all` also
/// good practice, accepted findings, and the open questions and site checks one by one.
std::string checked(const std::string& path, const assess::Assessment& assessment, bool all,
                    std::size_t width);

/// What stands behind one finding: its sentence, values, condition and source.
std::string behind(const assess::Assessment& assessment, const rules::Finding& finding, std::size_t width);

} // namespace fl::app
