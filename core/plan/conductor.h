#pragma once

#include "core/plan/component.h"
#include "core/quantity/wire_size.h"

#include <array>
#include <cstdint>
#include <string>

namespace fl::plan {

/// What a conductor is for. Signal conductors carry no current in the solution but are protected like any
/// other.
enum class Role : std::uint8_t { power, signal };
/// How the core lies: decides enclosure rules and nothing else.
enum class Cover : std::uint8_t { open, sheathed, enclosed };

/// One end: how it is terminated and what the joint adds.
struct End {
    std::string
        termination; ///< of the catalogue: lug_on_stud, tab, butt_joint, earth_stud ...; empty = by terminal
    Entered<Resistance> joint;
    bool operator==(const End&) const = default;
};

/// One wire between two terminals, one way. A return is a conductor of its own.
struct Conductor {
    ConductorId id;
    std::string designation; ///< "W3"
    TerminalRef from, to;
    CableId cable; ///< 0 = a single core
    RunId run;     ///< 0 = no run; its length then is typed or not known
    Role role = Role::power;
    Supplied supplied = Supplied::unknown; ///< of a signal conductor
    Entered<Length> length;                ///< overrides run and cable
    Entered<WireSize> size;
    std::string insulation; ///< of the catalogue; empty = the job rules' own
    std::string colour;     ///< IEC 60757 code; empty = by the job rules
    Cover cover = Cover::open;
    std::array<End, 2> ends;
    Origin origin = Origin::added;
    bool size_locked = false; ///< the fitter decided; sizing leaves it
    std::string unknown;
    bool operator==(const Conductor&) const = default;
};

/// Cores that lie in one sheath and share one length.
struct Cable {
    CableId id;
    std::string designation;
    std::string name; ///< "twin", "3-core"
    RunId run;
    Entered<Length> length;
    std::string unknown;
    bool operator==(const Cable&) const = default;
};

} // namespace fl::plan
