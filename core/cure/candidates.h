#pragma once

#include "core/cure/cure.h"

#include <vector>

// Private to this room.
namespace fl::cure {

/// What may put a finding right, best first; none of it tried. At most a handful.
std::vector<Cure> candidates(const assess::Assessment& assessment, const rules::Finding& finding);

} // namespace fl::cure
