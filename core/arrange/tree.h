#pragma once

#include "core/arrange/chains.h"

/// The order in which main parts feed each other, sources first.
namespace fl::arrange {

struct Branch {
    int chain = -1;
    bool reversed = false; ///< the chain runs from child to parent
    plan::ComponentId child;
};

struct Tree {
    std::vector<plan::ComponentId> roots;                   ///< in the order they are drawn
    std::map<plan::ComponentId, std::vector<Branch>> below; ///< in the order they are drawn
};

/// What a part is in the drawing.
enum class Part : std::uint8_t { source, taker, through, joint, bar, box, other };
Part part_of(const plan::Component& component);

/// Walks the plus side from the vehicle's sources: every part that a plus conductor reaches once.
Tree tree(const plan::Installation& installation, const Chains& chains);

} // namespace fl::arrange
