#include "core/solve/ramp.h"

#include "core/solve/index.h"

#include <algorithm>
#include <cmath>

namespace fl::solve {

Ramp ramp_demand(System& system, Newton& newton, std::vector<double> x, int sign, const Options& options) {
    constexpr double least_step = 1e-6;
    constexpr int corrections = 6;
    // What counts as a jump: a tenth of what a port has with nothing drawn.
    const std::vector<Port>& ports = system.topology().ports;
    std::vector<double> jump_V(ports.size(), unlimited);
    for (std::size_t p = 0; p < ports.size(); ++p)
        if (ports[p].element.kind != ElementKind::resistor)
            jump_V[p] = 0.1 * std::max(1.0, std::abs(system.across(x, ports[p].plus, ports[p].minus)));
    Ramp ramp;
    ramp.x = std::move(x);
    std::vector<double> before;
    double step = 0.2, last_step = 0;
    for (int k = 0; k < options.ramp_most && ramp.demand < 1; ++k) {
        ++newton.counts.ramp;
        const double to = std::min(1.0, ramp.demand + step);
        system.demand = to;
        std::vector<double> trial = ramp.x;
        if (!before.empty())
            for (std::size_t n = 0; n < trial.size(); ++n)
                trial[n] += (to - ramp.demand) / last_step * (ramp.x[n] - before[n]);
        // Near by, undamped: what a step can't reach a smaller one can.
        bool good = newton.follow(trial, corrections);
        if (!good && !before.empty()) {
            trial = ramp.x;
            good = newton.follow(trial, corrections);
        }
        for (std::size_t p = 0; good && p < ports.size(); ++p)
            good = std::abs(system.across(trial, ports[p].plus, ports[p].minus) -
                            system.across(ramp.x, ports[p].plus, ports[p].minus)) <= jump_V[p];
        if (good) good = newton.determinant_sign(trial) == sign;
        if (!good) {
            step = (to - ramp.demand) / 2;
            if (step < least_step) break;
            continue;
        }
        before = std::move(ramp.x);
        ramp.x = std::move(trial);
        last_step = to - ramp.demand;
        ramp.demand = to;
        step = last_step * 2;
    }
    system.demand = 1;
    ramp.reached = ramp.demand >= 1;
    return ramp;
}

} // namespace fl::solve
