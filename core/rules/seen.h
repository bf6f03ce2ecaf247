#pragma once

#include "core/rules/chains.h"

#include <vector>

/// The facts, and what many rules ask of them, worked out once. Private to this room.
namespace fl::rules {

/// A return conductor on which something depends: with it open, these components have no way back.
struct ReturnLoad {
    int branch = -1;
    std::vector<plan::ComponentId> of; ///< what comes back through it and nowhere else
    int device =
        -1; ///< branch of the largest device whose fault comes back through it; -1 = none or not known
    bool shared = false; ///< by circuits of different devices
};
std::vector<ReturnLoad> return_loads(const Facts& facts);

struct Seen : Facts {
    explicit Seen(const Facts& facts);

    std::vector<bool> live;               ///< branches neither of whose nodes is return
    std::vector<int> live_island;         ///< per node, over those
    std::vector<bool> changed;            ///< branches whose current new work can change
    std::vector<protect::Source> sources; ///< protect::sources
    std::vector<Device> devices;          ///< those with their link in
    std::vector<Judged> chains;
    std::vector<ReturnLoad> returns;
};

} // namespace fl::rules
