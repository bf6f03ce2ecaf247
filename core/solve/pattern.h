#pragma once

#include "core/solve/factor.h"
#include "core/solve/only_one.h"
#include "core/solve/system.h"

#include <cstddef>
#include <memory>
#include <unordered_map>
#include <vector>

namespace fl::solve {

/// What is the same for all circuits that hang together in one way: found out once, and then solving takes
/// half the time. It is a function of how they hang together, so answers are bit for bit the same with and
/// without.
struct Pattern {
    Topology topology; ///< with the first guess of the circuit that it was made of
    System::Unknowns unknowns;
    Matrix jacobian{0};
    Forest forest;
    std::shared_ptr<const Factor::Analysis> analysis;
};

/// Patterns by how circuits hang together.
class Patterns {
public:
    /// That of a circuit with these nodes and ports, or null.
    std::shared_ptr<const Pattern> find(int nodes, const std::vector<Port>& ports);
    /// In the place of one for the same nodes and ports.
    void keep(std::shared_ptr<const Pattern> pattern);
    /// Begins a new round: what was not asked for since the last call is forgotten.
    void next_round();

private:
    struct Entry {
        std::shared_ptr<const Pattern> pattern;
        bool asked = true;
    };
    std::unordered_map<std::size_t, std::vector<Entry>> known_; ///< by a number made of the ports
};

} // namespace fl::solve
