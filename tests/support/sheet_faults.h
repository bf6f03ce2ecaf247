#pragma once

#include "core/arrange/arrange.h"

#include <string>
#include <vector>

namespace fl::test {

/// Everything a fussy electrician would mock on a sheet, found by measuring: symbols that overlap, lines
/// through symbols or on top of each other, corners that touch another line, ends that reach no terminal,
/// slanting lines, text on anything. Empty = a clean sheet.
std::vector<std::string> sheet_faults(const plan::Installation& installation, const arrange::Layout& layout);

} // namespace fl::test
