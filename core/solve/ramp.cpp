#include "core/solve/ramp.h"

#include "core/solve/index.h"

#include <algorithm>
#include <cmath>

namespace fl::solve {

Ramp ramp_demand(System& system, Newton& newton, std::vector<double> x, int sign, const Options& options) {
    constexpr double least_step = 1e-6;
    constexpr int corrections = 10;
    const double jump_V = 0.1 * newton.volt_scale();
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
        bool good = newton.solve(trial, corrections);
        if (!good && !before.empty()) {
            trial = ramp.x;
            good = newton.solve(trial, corrections);
        }
        for (int n = 0; good && n < system.voltages(); ++n)
            good = std::abs(trial[at(n)] - ramp.x[at(n)]) <= jump_V;
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
