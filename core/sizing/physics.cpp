#include "core/sizing/physics.h"

#include "core/base/check.h"
#include "core/solve/heat.h"

#include <cmath>
#include <numbers>

namespace fl::sizing {
namespace {

constexpr double mm2 = 1e-6; // m²

} // namespace

Resistance plain_resistance(Area area, Length length, double rho_ohm_mm2_per_m) {
    FL_CHECK(area.si() > 0);
    return Resistance::si(rho_ohm_mm2_per_m * mm2 * length.si() / area.si());
}

Resistance at_temperature(Resistance at_20C, Temperature at) {
    return Resistance::si(solve::copper_ohm(at_20C.si(), at.celsius()));
}

Voltage plain_drop(Area area, Length loop, Current current, double rho_ohm_mm2_per_m) {
    return current * plain_resistance(area, loop, rho_ohm_mm2_per_m);
}

Voltage drop(ResistancePerLength at_20C, Length loop, Current current, Temperature at) {
    return current * at_temperature(at_20C * loop, at);
}

Area area_for_drop(Length loop, Current current, Voltage allowed, double rho_ohm_mm2_per_m) {
    FL_CHECK(allowed.si() > 0);
    return Area::si(rho_ohm_mm2_per_m * mm2 * loop.si() * current.si() / allowed.si());
}

Area area_of_strands(int count, Length diameter) {
    return std::numbers::pi / 4 * count * diameter * diameter;
}

double ambient_factor(Temperature limit, Temperature ambient, Temperature column_limit,
                      Temperature reference) {
    FL_CHECK(column_limit > reference);
    if (ambient >= limit) return 0;
    return std::sqrt((limit - ambient) / (column_limit - reference));
}

double adiabatic_k(Temperature start, Temperature end) {
    FL_CHECK(end > start && start.celsius() > -234.5);
    constexpr double heat_capacity = 3.45e-3; // J/(K mm³)
    constexpr double rho20_ohm_mm = annealed_copper_ohm_mm2_per_m * 1e-3;
    return std::sqrt(heat_capacity * (234.5 + 20) / rho20_ohm_mm *
                     std::log1p((end - start).si() / (234.5 + start.celsius())));
}

Area area_to_withstand(Joule let_through, double k_A_sqrt_s_per_mm2) {
    FL_CHECK(k_A_sqrt_s_per_mm2 > 0);
    return Area::si(std::sqrt(let_through.si()) / k_A_sqrt_s_per_mm2 * mm2);
}

Area area_to_withstand(Current current, Time time, double k_A_sqrt_s_per_mm2) {
    return area_to_withstand(current * current * time, k_A_sqrt_s_per_mm2);
}

std::optional<Temperature> temperature(Current current, Current tabulated_grouped, Temperature limit,
                                       Temperature reference, Temperature ambient) {
    const solve::Thermal thermal{.ambient_C = ambient.celsius(),
                                 .rated_A = tabulated_grouped.si(),
                                 .reference_C = reference.celsius(),
                                 .limit_C = limit.celsius()};
    const std::optional<double> settled = solve::steady_C(thermal, current.si());
    if (!settled) return {};
    return Temperature::celsius(*settled);
}

} // namespace fl::sizing
