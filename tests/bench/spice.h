#pragma once

#include "core/solve/solution.h"

#include <cstddef>
#include <string>

namespace fl::bench {

/// The other solver, in this process: a circuit of `some_network` in its own elements where it has them (a
/// resistance is a resistor and not a law), without an ammeter that nobody reads.
class Spice {
public:
    /// `at` names the reference node and the knees. Its tolerances are as close as ours: 1e-9.
    Spice(const solve::Circuit& circuit, const solve::Solution& at);
    ~Spice();
    Spice(const Spice&) = delete;
    Spice& operator=(const Spice&) = delete;

    /// Solves once. The time of the processor that it took, s; 0 when it found no point.
    double op();
    /// Another resistance for one conductor that does not warm up. Gives the time too.
    double alter(std::size_t resistor, double ohm);
    /// Largest difference between its node voltages and ours, V.
    double off_by(const solve::Solution& ours) const;

private:
    void forget();
};

} // namespace fl::bench
