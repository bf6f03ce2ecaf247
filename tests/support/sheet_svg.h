#pragma once

#include "core/arrange/arrange.h"

#include <string>

namespace fl::test {

/// One page of a layout as an SVG picture, to be looked at; `boxes` draws the boxes of texts and symbols too.
std::string sheet_svg(const plan::Installation& installation, const arrange::Layout& layout, int page,
                      bool boxes = false);

} // namespace fl::test
