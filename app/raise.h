#pragma once

#include "core/assess/assess.h"

#include <memory>
#include <string>
#include <vector>

namespace fl::app {

/// One size that was raised.
struct Raise {
    plan::ConductorId conductor;
    plan::Entered<WireSize> before;
    WireSize after;
};
struct Raised {
    std::shared_ptr<const assess::Assessment> assessment; ///< of the document with its new sizes
    std::vector<Raise> raises;                            ///< by conductor
};

/// Raises every size that is too small (or not known) to the least one, but for what is locked, until none is
/// left: thicker conductors carry more. Never lowers. Codes: those of edit::set.
Result<Raised> raise_sizes(std::shared_ptr<const assess::Assessment> assessment);

} // namespace fl::app
