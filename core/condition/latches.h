#pragma once

#include "core/condition/drawn.h"

#include <vector>

namespace fl::condition {

/// Something with a memory: a drive charger's on/off, a relay's contact, and what lets go by itself.
struct Latch {
    enum class Of : std::uint8_t { charger, contact, load, discharge, charge, converter };
    Of of = Of::charger;
    int index = -1; ///< two-port; branch of the contact; port of a load or battery
    int coil = -1;  ///< port of a relay's coil
    // By voltage (of the charger's input, of the coil, of the load, at the battery); `above_V` also stops a
    // charger.
    double on_V = 0, off_V = 0, above_V = solve::unlimited;
    double most_A = solve::unlimited; ///< a battery's electronics open above it
    double off_hold_s = 0;            ///< how long the voltage must be below `off_V`
    bool needs_live = false;          ///< a run signal must be there
    bool never = false;               ///< its run signal is wired to nothing
    bool stays_off = false;           ///< once off it does not come back by itself

    bool charger() const { return of == Of::charger; }
};

/// Every latch that this condition leaves free, in document order: chargers, then relays.
std::vector<Latch> latches_of(const State& state);

/// What lets go by itself: loads and inverters with a lowest voltage, batteries' electronics, plain
/// converters that do not go on at their limit; in document order. All begin on.
std::vector<Latch> protections_of(const State& state, const Setup& setup);

/// The position a latch would take, being `on`, at this operating point.
bool wanted(const State& state, const Setup& setup, const solve::Solution& solution, const Latch& latch,
            bool on);

/// Puts a latch of the circuit into a position.
void put(const State& state, Setup& setup, const Latch& latch, bool on);

/// Why a protection lets go at this operating point.
LetGo let_go(const State& state, const Setup& setup, const solve::Solution& solution, const Latch& latch);

} // namespace fl::condition
