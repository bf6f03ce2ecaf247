#pragma once

#include "core/plan/installation.h"

#include <string>
#include <vector>

namespace fl::file {

/// The fields of a document that this version does not know: "W5 length_mm", "job rules rule". They are kept
/// and written back, but judge nothing; a later version's, or a slip of the pen in a file edited by hand. In
/// the order of the file.
std::vector<std::string> unknown_fields(const plan::Installation& installation);

} // namespace fl::file
