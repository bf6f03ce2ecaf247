#pragma once

#include "core/arrange/chains.h"
#include "core/arrange/room.h"

namespace fl::arrange {

/// A label for each conductor along its way: above a level stretch with the figure below, or as a stack on
/// the left of an upright one.
void write_conductors(const plan::Installation& installation, const Chains& chains, Layout& layout,
                      std::vector<Room>& rooms);

} // namespace fl::arrange
