#pragma once

#include "core/plan/installation.h"

#include <string>

namespace fl::test {

/// Empty when both documents are the same but for where things stand on the sheet; else the first row that
/// differs, as it is wanted and as it is.
std::string first_difference(plan::Installation wanted, plan::Installation got);

} // namespace fl::test
