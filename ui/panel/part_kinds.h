#pragma once

#include "core/plan/component.h"

#include <string>
#include <vector>

namespace fl::ui {

/// A part as it can be placed: the catalogue's plain name and a component whose values are still to be said.
struct PartKind {
    std::string name;
    plan::Component part;
};

/// One for every kind of component but units, which are made of several.
const std::vector<PartKind>& part_kinds();

} // namespace fl::ui
