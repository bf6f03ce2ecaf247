#pragma once

#include "core/solve/circuit.h"

#include <optional>

namespace fl::solve {

/// Copper's resistance at a temperature: r20·(234.5 + T)/254.5 (IEC 60228, annex; alpha at 20 °C = 1/254.5).
inline double copper_ohm(double r20_ohm, double at_C) {
    constexpr double zero_ohm_C = -234.5; // where copper's straight line of resistance meets 0
    return r20_ohm * (at_C - zero_ohm_C) / (20 - zero_ohm_C);
}

/// Where the copper settles when it carries `current_A` for ever, by heat balance with R(T) (docs/method.md
/// 1): q = (I/rated)², dT = dTr·q·(234.5 + Ta)/(234.5 + Tmax - dTr·q). Empty when there is no steady
/// temperature (heating outruns cooling). The ambient where the rating is not known.
std::optional<double> steady_C(const Thermal& thermal, double current_A);

/// The temperature a conductor's resistance is taken at, and how it changes with the current.
struct Warm {
    double copper_C = 20;
    double per_A = 0;    ///< d copper_C / d current
    bool beyond = false; ///< no steady temperature at this current
};

/// `steady_C`, but never above the insulation's limit (or the ambient, if that is hotter): what is beyond has
/// no lasting state, and a resistance that jumps back to the limit there would leave currents without a
/// solution. So the law stays continuous and meets "taken at the limit" from both sides.
Warm warm(const Thermal& thermal, double current_A);

/// The greatest dU/dI that copper can have whose resistance follows `warm`: just before it meets the limit.
double steepest_ohm(double r20_ohm, const Thermal& thermal);

} // namespace fl::solve
