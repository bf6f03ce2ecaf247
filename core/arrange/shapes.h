#pragma once

#include "core/arrange/boxes.h"
#include "core/arrange/cell.h"
#include "core/plan/installation.h"

#include <map>
#include <string>
#include <string_view>

/// Where a symbol's box and terminals lie once it is placed.
namespace fl::arrange {

/// A component's place on a page, in cells.
struct Place {
    int page = 0;
    Cell at;
    int turns = 0;
    bool mirrored = false;
    int length = 0;          ///< of a bar, in steps; its studs are set where they are needed
    int rail = 0;            ///< of a fuse box: from its origin to the line on which its returns are gathered
    plan::ComponentId owner; ///< the fuse box whose row it stands in: it follows when that is moved
    bool operator==(const Place&) const = default;
};
inline Place place_on(int page, Cell at, int turns = 0, bool mirrored = false, plan::ComponentId owner = {}) {
    Place place;
    place.page = page;
    place.at = at;
    place.turns = turns;
    place.mirrored = mirrored;
    place.owner = owner;
    return place;
}
using Places = std::map<plan::ComponentId, Place>;

struct Spike {
    Cell at;
    Direction out = Direction::up;
};

/// Symbols of one installation, made once.
class Shapes {
public:
    Shapes(const plan::Installation& in, BoxForms boxes);

    const catalogue::SymbolInfo& info(plan::ComponentId id) const;
    /// How a fuse box is drawn.
    const BoxForm& box(plan::ComponentId id) const { return boxes_.at(id); }
    Area area(plan::ComponentId id, const Place& place) const;
    /// A terminal's cell and the way out of it.
    Spike pin(plan::ComponentId id, std::string_view terminal, const Place& place) const;
    /// The place at which a terminal comes to lie on `target`.
    Cell origin_for(plan::ComponentId id, std::string_view terminal, Place turned_as, Cell target) const;
    plan::Kind kind(plan::ComponentId id) const;
    /// How many conductors end at a terminal.
    int conductors(plan::ComponentId id, std::string_view terminal) const;
    /// Steps that a terminal's lead needs at least, for each conductor to join it.
    int lead_length(plan::ComponentId id, std::string_view terminal) const;
    /// What must stay free before a terminal: a way out, or the lead that several conductors join.
    Area way_out(plan::ComponentId id, std::string_view terminal, const Place& place) const;

private:
    const plan::Installation& in_;
    std::map<plan::TerminalRef, int> conductors_;
    BoxForms boxes_;
    mutable std::map<plan::ComponentId, catalogue::SymbolInfo> made_;
};

} // namespace fl::arrange
