#pragma once

#include "core/arrange/arrange.h"
#include "core/arrange/settle.h"

#include <array>

/// Where each conductor meets its terminals: taps along bars, dots along the lead of a shared terminal.
namespace fl::arrange {

/// A line that takes conductors anywhere along it: a bar, a joint, the minus bar of a fuse box drawn apart.
struct Rail {
    plan::ComponentId component;
    std::string part; ///< "-" of a fuse box; "/2" of a bar that goes on on the second page; else empty
    int page = 0;
    Cell at;
    bool upright = false;
    int length = 0;

    Area area() const {
        return upright ? Area{at.x, at.y, at.x, at.y + length} : Area{at.x, at.y, at.x + length, at.y};
    }
};

/// The lead of a terminal that several conductors share.
struct Stem {
    plan::TerminalRef terminal;
    int page = 0;
    Cell from, to;
    std::vector<Cell> dots;
};

struct Dock {
    int page = -1; ///< -1: none was found
    Cell at;
    Direction out = Direction::up;
    std::string terminal;
};

struct Docks {
    std::vector<Rail> rails;
    std::vector<Stem> stems;
    std::map<plan::ConductorId, std::array<Dock, 2>> of; ///< of its from and its to end
};

Docks docks(const plan::Installation& installation, const Shapes& shapes, const Settled& settled);

} // namespace fl::arrange
