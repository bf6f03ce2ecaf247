#pragma once

#include "core/base/id.h"

#include <compare>
#include <cstdint>
#include <string>

namespace fl::plan {

struct Component;
struct Conductor;
struct Cable;
struct Place;
struct Run;
struct Condition;
struct Exception;
struct Sheet;
struct Spot;
struct Route;
struct Note;

using ComponentId = Id<Component>;
using ConductorId = Id<Conductor>;
using CableId = Id<Cable>;
using PlaceId = Id<Place>;
using RunId = Id<Run>;
using ConditionId = Id<Condition>;
using ExceptionId = Id<Exception>;
using SheetId = Id<Sheet>;

/// A connection point: `G2.+` is component G2, terminal "+".
struct TerminalRef {
    ComponentId component;
    std::string terminal;
    auto operator<=>(const TerminalRef&) const = default;
};

/// What a finding, an exception or an answer is about: a row of the document, or one way of a fuse box.
struct Subject {
    enum class Kind : std::uint8_t { component, conductor, place, condition, run, cable };
    Kind kind = Kind::component;
    std::uint32_t id = 0;
    std::string part; ///< the way of a fuse box, the terminal; empty for the whole row
    auto operator<=>(const Subject&) const = default;

    static Subject of(ComponentId c, std::string part = {}) {
        return {Kind::component, c.value, static_cast<std::string&&>(part)};
    }
    static Subject of(ConductorId c) { return {Kind::conductor, c.value, {}}; }
    static Subject of(ConditionId c) { return {Kind::condition, c.value, {}}; }
};

} // namespace fl::plan
