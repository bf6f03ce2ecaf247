#pragma once

#include "core/assess/assess.h"

#include <memory>
#include <string_view>

namespace fl::test {

/// The case of this text, assessed; what can't be read of it fails the test that runs.
std::shared_ptr<const assess::Assessment> assessed(std::string_view text);

} // namespace fl::test
