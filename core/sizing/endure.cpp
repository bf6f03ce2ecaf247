#include "core/sizing/endure.h"

#include "core/quantity/unit.h"
#include "core/sizing/sizing.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fl::sizing {
namespace {

constexpr double forever = std::numeric_limits<double>::infinity();

/// Until a rise reaches `most_K`: towards `steady_K` with a time constant, never sooner than without any
/// cooling, which takes `adiabatic_s` for `adiabatic_K`.
double until(double most_K, std::optional<double> steady_K, double constant_s, double adiabatic_s,
             double adiabatic_K) {
    if (most_K <= 0) return 0;
    const double alone_s = adiabatic_s * most_K / adiabatic_K;
    if (!steady_K) return alone_s;
    if (*steady_K <= most_K) return forever;
    return std::max(alone_s, -constant_s * std::log1p(-most_K / *steady_K));
}

} // namespace

std::optional<Time> endures(const WireSize& size, const catalogue::Lie& lie, Current current) {
    if (!lie.insulation || !lie.table || !lie.insulation->k_A_sqrt_s_per_mm2) return {};
    const auto tabulated = catalogue::tabulated(*lie.table, size);
    if (!tabulated) return {};
    if (!(current > Current{})) return Time::si(forever);
    const double k_S = *lie.insulation->k_A_sqrt_s_per_mm2 * to_field(size.area);
    const double adiabatic_s = k_S * k_S / (current.si() * current.si());
    constexpr double no_cooling_s = 5, minute_s = 60, overload = 2.1;
    if (adiabatic_s <= no_cooling_s || !lie.insulation->short_circuit_limit) return Time::si(adiabatic_s);
    const double carries_A = tabulated->si() * catalogue::grouping_factor(lie.loaded_conductors).value;
    const Temperature reference = lie.table->reference_ambient;
    const double rated_K = (lie.table->conductor_limit - reference).si();
    const double short_K = (*lie.insulation->short_circuit_limit - lie.insulation->limit).si();
    const double constant_s = k_S * k_S / (carries_A * carries_A) * rated_K / short_K;
    std::optional<double> rise_K;
    if (const auto steady = temperature(size, lie, current)) rise_K = (*steady - lie.ambient).si();
    const auto reaches = [&](Temperature t) {
        return until((t - lie.ambient).si(), rise_K, constant_s, adiabatic_s, short_K);
    };
    const double to_short_s = reaches(*lie.insulation->short_circuit_limit);
    const double to_overload_s = reaches(reference + TemperatureDifference::si(overload * rated_K));
    const double s = std::min(to_short_s, std::max(minute_s, to_overload_s));
    return Time::si(std::max(no_cooling_s, s));
}

} // namespace fl::sizing
