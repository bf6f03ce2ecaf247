#pragma once

#include "core/assess/assess.h"

#include <vector>

namespace fl::assess {

/// The branches that a load's current takes between it and its reference source, plus and return, in order
/// from the source; empty when it has none.
struct LoadPath {
    condition::Reference reference;
    std::vector<int> plus, minus;
};
LoadPath path_of(const Assessment& assessment, int load_port);

} // namespace fl::assess
