#pragma once

#include "core/arrange/arrange.h"
#include "core/arrange/chains.h"

namespace fl::arrange {

/// Writes at everything what it is, and keeps room for the overlay's figure at each conductor. No text meets
/// a line, a symbol or another text; where there is no room beside a thing its label stands off, with a
/// leader. Also sets the boxes of the marks' texts.
void put_labels(const plan::Installation& installation, const Chains& chains, Layout& layout);

} // namespace fl::arrange
