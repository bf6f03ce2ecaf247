#pragma once

#include "core/arrange/chains.h"
#include "core/arrange/ground.h"
#include "core/arrange/paper.h"

#include <set>

/// From the draft to the places things really have.
namespace fl::arrange {

struct Settled {
    std::vector<Page> pages;
    Places places;
    std::set<plan::ComponentId> by_hand;
};

/// Keeps what the document's spots say, moves what would be in their way to the nearest free place, sets
/// devices whose ends a hand has moved anew on their conductor's line, and adds pages as needed.
Settled settle(const plan::Installation& installation, const Chains& chains, const Shapes& shapes,
               const Places& draft);

} // namespace fl::arrange
