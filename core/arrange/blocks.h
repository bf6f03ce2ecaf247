#pragma once

#include "core/arrange/draft.h"

namespace fl::arrange {

/// Fuse boxes with their rows: each load in line with its way, and at the right end the line on which the
/// returns are gathered.
class Blocks {
public:
    Blocks(Draft& draft, const Tree& tree)
        : d_(draft)
        , tree_(tree) {}

    /// Boxes that hang from a bar: each fed by a line of its own, below each other where they fit.
    void below_bar(const std::vector<Limb>& boxes, int bar_x);
    /// One box with its first way at `at`.
    void lay(plan::ComponentId id, Cell at);
    /// Steps from its feed to the line of its returns.
    int width(plan::ComponentId id) const { return 8 + row_reach(id) + 6 + return_reach(id) + 1; }

private:
    std::vector<int> heads(const std::vector<Limb>& boxes, std::size_t from) const;
    int row_reach(plan::ComponentId id) const;
    int return_reach(plan::ComponentId id) const;
    void in_row(const Limb& l, Cell from, int reach, plan::ComponentId owner, int pitch);

    Draft& d_;
    const Tree& tree_;
};

} // namespace fl::arrange
