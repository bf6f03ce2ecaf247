#pragma once

#include "core/condition/drawn.h"

#include <vector>

namespace fl::condition {

/// Something with a memory: a drive charger's on/off, or a relay's contact.
struct Latch {
    bool charger = true;
    int index = -1; ///< two-port, or branch of the contact
    int coil = -1;  ///< port of a relay's coil
    // By voltage (of the charger's input, of the coil); `above` also stops a charger.
    double on_V = 0, off_V = 0, above_V = solve::unlimited;
    double off_hold_s = 0;   ///< how long the voltage must be below `off_V`
    bool needs_live = false; ///< a run signal must be there
    bool never = false;      ///< its run signal is wired to nothing
};

/// Every latch that this condition leaves free, in document order: chargers, then relays.
std::vector<Latch> latches_of(const State& state);

/// The position a latch would take, being `on`, at this operating point.
bool wanted(const State& state, const Setup& setup, const solve::Solution& solution, const Latch& latch,
            bool on);

} // namespace fl::condition
