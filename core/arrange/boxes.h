#pragma once

#include "core/arrange/cell.h"
#include "core/arrange/chains.h"
#include "core/arrange/tree.h"

#include <map>
#include <vector>

/// How fuse boxes are drawn: every way level with what hangs on it, so that its conductor runs straight.
namespace fl::arrange {

/// One fuse box, in steps below its first way.
struct BoxForm {
    std::vector<int>
        ways;      ///< where each stands; as far apart as the rows on them, spare ones at the end close
    int pitch = 0; ///< from row to row
    int feed = 0;  ///< where its feed comes in
    int end = 0;   ///< its lower edge
    int full = 0;  ///< the same with every way in use
};
using BoxForms = std::map<plan::ComponentId, BoxForm>;

inline constexpr int usual_pitch = 7; ///< symbols.json: 17.5 mm, a label above a line and its figure below
inline constexpr int box_foot = 3;    ///< symbols.json: from the last way to the box's edge

/// The level of the first way of a box that has a page to itself: near the top, with room for names above.
int first_way(const Area& area);

/// How many rows stand on a part: one, or as many as what it leads on to.
int rows_of(const Tree& tree, plan::ComponentId part);

/// The forms of all boxes of a document on paper of this size. Rows stand at the usual pitch as long as the
/// page is high enough, whatever their number: one more circuit moves none of the others.
BoxForms box_forms(const plan::Installation& installation, const Chains& chains, const Tree& tree,
                   const Area& area);

} // namespace fl::arrange
