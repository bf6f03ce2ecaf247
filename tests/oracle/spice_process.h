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
    std::vector<double> amps;   ///< of the ammeters asked for
    std::string message;        ///< what it said when it refused
};

/// One netlist, how many nodes n0 ... it has, and the names of its ammeters.
struct SpiceQuestion {
    std::string text;
    int nodes = 0;
    std::vector<std::string> ammeters;
};

/// Solves each netlist with ngspice in a process of its own, so that a
/// crash costs this batch and no more.
std::vector<SpiceAnswer> run_spice(const std::vector<SpiceQuestion>& questions);

} // namespace fl::test
