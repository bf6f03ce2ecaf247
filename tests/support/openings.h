#pragma once

#include "core/protect/placement.h"

#include <cstddef>
#include <vector>

/// What really happens in a small drawing: sources, wires and fuses with their resistances, a short behind a
/// resistance of its own, and one fuse after another that opens. Knows nothing of flows and cuts.
namespace fl::test {

class Openings {
public:
    /// Resistances in ohm of every branch and every source, EMFs in volt; a source with a limit holds its EMF
    /// up to that and never absorbs. The return has no resistance.
    struct Values {
        std::vector<double> branch_ohm, source_ohm, source_V;
    };
    Openings(const plan::Installation& installation, const network::Network& network,
             const std::vector<protect::Source>& sources, Values values);

    /// A short from a place of a conductor to the return: at `share` of the way from its first end.
    struct Fault {
        int branch = -1;
        double share = 0, ohm = 0;
    };
    /// Currents in ampere from a to b that last once no fuse carries more than its rating, per branch; of the
    /// shorted one the greater of its two pieces'. `on`: which sources there are. `last_first`: of several
    /// fuses above their rating the least loaded opens first, not the most.
    std::vector<double> lasting(const Fault& fault, const std::vector<bool>& on, bool last_first) const;

private:
    std::vector<double> solve(const Fault& fault, const std::vector<bool>& on,
                              const std::vector<bool>& open) const;

    const network::Network& net_;
    const std::vector<protect::Source>& sources_;
    Values values_;
    std::vector<bool> returns_;
    std::vector<double> rating_; ///< per branch; infinite = no fuse
};

} // namespace fl::test
