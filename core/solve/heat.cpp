#include "core/solve/heat.h"

#include <algorithm>
#include <cmath>

namespace fl::solve {

namespace {

constexpr double zero_ohm_C = -234.5; // where copper's straight line of resistance meets 0

bool rated(const Thermal& t) {
    return t.rated_A > 0 && t.limit_C > t.reference_C;
}

} // namespace

std::optional<double> steady_C(const Thermal& t, double current_A) {
    if (!rated(t)) return t.ambient_C;
    const double ratio = current_A / t.rated_A;
    const double heat = (t.limit_C - t.reference_C) * ratio * ratio;
    const double left = t.limit_C - zero_ohm_C - heat;
    if (!(left > 0)) return std::nullopt;
    const double settled = t.ambient_C + heat * (t.ambient_C - zero_ohm_C) / left;
    if (!std::isfinite(settled)) return std::nullopt;
    return settled;
}

Warm warm(const Thermal& t, double current_A) {
    const double cap = std::max(t.limit_C, t.ambient_C);
    const std::optional<double> settled = steady_C(t, current_A);
    if (!settled) return {cap, 0, true};
    if (!rated(t)) return {t.ambient_C, 0, false};
    if (*settled >= cap) return {cap, 0, false};
    // With h = heat, A = 234.5 + Ta, B = 234.5 + Tmax: dT/dh = A·B/(B - h)², dh/dI = 2·h/I.
    const double rise = t.limit_C - t.reference_C;
    const double ratio = current_A / t.rated_A;
    const double full = t.limit_C - zero_ohm_C;
    const double left = full - rise * ratio * ratio;
    const double per_A = (t.ambient_C - zero_ohm_C) * full / (left * left) * rise * 2 * ratio / t.rated_A;
    return {*settled, per_A, false};
}

double steepest_ohm(double r20_ohm, const Thermal& t) {
    const double cap = std::max(t.limit_C, t.ambient_C);
    if (!rated(t) || t.ambient_C >= t.limit_C) return copper_ohm(r20_ohm, cap);
    // U = I·R(T), so dU/dI = R + I·dR/dT·dT/dI; by the heat h as in `warm`, I·dT/dI = 2·h·A·B/(B - h)², which
    // grows with h; at the limit h = (Tmax - Ta)·B/(A + Tmax - Ta).
    const double a = t.ambient_C - zero_ohm_C, b = t.limit_C - zero_ohm_C, rise = t.limit_C - t.ambient_C;
    const double h = rise * b / (a + rise);
    const double per_C = copper_ohm(r20_ohm, 21) - copper_ohm(r20_ohm, 20);
    return copper_ohm(r20_ohm, cap) + per_C * 2 * h * a * b / ((b - h) * (b - h));
}

} // namespace fl::solve
