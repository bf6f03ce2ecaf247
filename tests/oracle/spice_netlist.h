#pragma once

#include "core/solve/solution.h"

#include <string>
#include <vector>

namespace fl::test {

/// Ways to write one and the same network: ngspice often swings for ever between the pieces of laws with
/// corners, and finds its way when they are put differently.
struct Writing {
    bool heat = true;  ///< conductors with their heat balance; else at the temperature that the solution says
    double from = 0.8; ///< the demand it begins with, before that is raised to 1
    double abstol_A =
        1e-12; ///< beside 100 A this is less than a double can hold: not every network settles to it
    double margin = 0.1; ///< of the sources' law (see the .cpp), any number above 0 says the same
};

struct Written {
    std::string text;
    std::vector<std::string> ammeters; ///< their names
    std::vector<double> ours_A;        ///< what the solution says of each
};

/// The circuit in the language of SPICE, laws written out with min, max and the knees that `solution` names;
/// nothing else of the solution is used but one node of each island to call 0 V (and with `heat` off the
/// temperatures). Node k is called nk; all that is drawn, and all limits, are times the voltage of node
/// `demand`, to be raised to 1. It is also what to send someone when the two solvers disagree.
Written spice_netlist(const solve::Circuit& circuit, const solve::Solution& solution, const Writing& writing);

} // namespace fl::test
