#pragma once

#include "core/solve/topology.h"

#include <cstddef>
#include <vector>

namespace fl::solve {

class System;

/// Trees of what carries current both ways whatever flows: conductors, batteries, held voltages. Each branch
/// stands behind the one that it grows from.
struct Forest {
    struct Branch {
        std::size_t port = 0;
        int from = -1, to = -1; ///< nodes; `to` is farther from the root
    };
    std::vector<Branch> branches;
    std::vector<char> grows; ///< per port: it is such an element
    bool whole = false;      ///< both ends of everything live stand in one tree
};
Forest forest_of(const Circuit& circuit, const Topology& topology);
/// The circuit's own forest is this one, made of another that hangs together alike: which sources carry both
/// ways is no matter of how things hang together.
bool grows_alike(const Forest& forest, const Circuit& circuit, const Topology& topology);

/// True when the circuit provably has one operating point only, whatever is drawn between nothing and all of
/// it, with the laws bent at `load_knee_V`: then it is the one joined to no load (docs/method.md 2.1), and
/// any way to it will do. False says nothing. Proof in the .cpp.
bool only_one_point(const System& system, const Forest& forest, const std::vector<double>& load_knee_V);

} // namespace fl::solve
