#pragma once

#include "core/plan/component.h"

#include <vector>

namespace fl::ui {

/// A part of every kind but units, which are made of several: named as in the catalogue, with its values
/// still to be said.
const std::vector<plan::Component>& part_kinds();

} // namespace fl::ui
