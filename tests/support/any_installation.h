#pragma once

#include "core/plan/installation.h"

#include <cstdint>
#include <string>

namespace fl::test {

/// A valid document of about `components` components, with rows of every table, every kind of component and
/// every field said or left unsaid by chance; the same for the same numbers. Values are such as a fitter
/// types (decimals in the field's unit), text is anything that UTF-8 can say.
plan::Installation any_installation(std::uint32_t seed, int components);

} // namespace fl::test
