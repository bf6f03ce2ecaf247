#pragma once

#include <string>
#include <vector>

namespace fl::test {

/// What came back for one netlist.
struct SpiceAnswer {
    enum class Kind {
        solved,
        refused,
        lost
    } kind = Kind::lost;        ///< lost: the process ended before it came to it
    std::vector<double> node_V; ///< of n0, n1, ...
    std::string message;        ///< what it said when it refused
};

/// Solves each netlist (`nodes[k]` nodes n0 ... in the k-th) with ngspice in a process of its own, so that a
/// crash costs this batch and no more.
std::vector<SpiceAnswer> run_spice(const std::vector<std::string>& netlists, const std::vector<int>& nodes);

} // namespace fl::test
