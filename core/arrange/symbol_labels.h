#pragma once

#include "core/arrange/chains.h"
#include "core/arrange/room.h"

namespace fl::arrange {

/// What a symbol is, beside it: designation, plain name and figures, as much of them as finds room.
void write_symbol(const plan::Installation& installation, const Chains& chains, const Symbol& symbol,
                  Layout& layout, Room& room);

} // namespace fl::arrange
