#pragma once

#include "core/arrange/paper.h"
#include "core/arrange/shapes.h"
#include "core/arrange/tree.h"

#include <optional>

/// The drawing as it would be if nothing had a place: every part gets one. Private to this room.
namespace fl::arrange {

/// A branch with its chain turned to run from parent to child.
struct Limb {
    Chain chain;
    plan::ComponentId child;
};

struct Draft {
    const plan::Installation& in;
    const Chains& chains;
    const Tree& tree;
    const Shapes& shapes;
    const Area area;
    const Levels levels;
    Places places;
    std::map<plan::ComponentId, int> rail_x; ///< where the returns of a fuse box are gathered
    int page = 0;                            ///< on which columns are being set
    int cursor = 0;                          ///< the first free column of it

    Draft(const plan::Installation& installation, const Chains& c, const Tree& t, const Shapes& s,
          const Area& a)
        : in(installation)
        , chains(c)
        , tree(t)
        , shapes(s)
        , area(a)
        , levels(levels_of(a))
        , cursor(a.left) {}

    bool placed(plan::ComponentId id) const { return places.contains(id); }
    /// Steps a chain takes along a level line, and the steps of its devices alone.
    int length(const Chain& chain) const;
    /// Steps that a conductor's label takes above a level line, in one, two or three rows.
    int room(const Chain& chain, std::size_t conductor, int rows) const;
    int stretch(const Chain& chain, std::size_t conductor) const;
    double metres(plan::ConductorId id) const; ///< 0 = not known
    int devices_length(const Chain& chain) const;
    int span(plan::ComponentId device) const;
    /// Sets the devices of a chain along a level line from x rightwards (or leftwards), or down a column
    /// between y and y_end; those that have a place keep it.
    void along(const Chain& chain, int on_page, Cell from, bool leftwards = false);
    void down(const Chain& chain, int on_page, Cell from, int y_end);
    /// Steps that a chain wants down a column.
    int upright_length(const Chain& chain) const;
    /// Begins a page where `right` lies beyond this one; true when it did.
    bool fit(int right);
    std::vector<Limb> limbs(const Tree& order, plan::ComponentId id) const;
    /// The cell of the part next to `id` on a chain that ends there, when it has a place on that page.
    std::optional<Spike> neighbour(plan::ComponentId id, const Chain& chain, int on_page) const;
};

/// Sources, chargers, bars, boxes, loads and what stands in their plus lines.
void place_columns(Draft& draft);
/// Minus bars, body points and what stands in the return lines.
void place_returns(Draft& draft);
/// How long each bar must be for what is joined to it.
void measure_bars(Draft& draft);
/// Signal points, and everything that is joined to nothing yet.
void place_rest(Draft& draft);

} // namespace fl::arrange
