#pragma once

#include "core/quantity/quantity.h"

#include <optional>

/// The one-line formulas of copper conductors, each with its source. Plain values in, plain values out; the
/// tables are the catalogue's business. Resistivity is in ohm·mm²/m (1 ohm·cmil/ft = 1.6624e-3 of it).
namespace fl::sizing {

/// Annealed copper at 20 °C (IEC 60028, as IEC 60949 quotes it).
inline constexpr double annealed_copper_ohm_mm2_per_m = 0.017241;

/// R = rho · L / A. Area above 0.
Resistance plain_resistance(Area area, Length length, double rho_ohm_mm2_per_m);

/// Copper's resistance at another temperature than 20 °C: R20 · (234.5 + T)/254.5 (IEC 60949), the very
/// formula that the solver uses.
Resistance at_temperature(Resistance at_20C, Temperature at);

/// U = I · rho · L / A over the whole conductor length `loop`, out and back.
Voltage plain_drop(Area area, Length loop, Current current, double rho_ohm_mm2_per_m);

/// Voltage lost over `loop` by a conductor whose maker states its resistance: I · r20 · L, brought to `at`.
Voltage drop(ResistancePerLength at_20C, Length loop, Current current, Temperature at);

/// Smallest area that keeps to the allowed drop: A = I · rho · L / U. Allowed above 0.
Area area_for_drop(Length loop, Current current, Voltage allowed, double rho_ohm_mm2_per_m);

/// Copper area of a strand bundle from its count and the diameter of one strand.
Area area_of_strands(int count, Length diameter);

/// Factor on a tabulated current for an ambient other than the table's: sqrt((Tmax - Ta)/(Tcol - Tref)), the
/// formula behind the printed factors of IEC 60364-5-52, DIN VDE 0298-4 and NEC 310.15(B). `limit` is the
/// insulation's, `column_limit` that of the tabulated column. 0 at and above the limit.
double ambient_factor(Temperature limit, Temperature ambient, Temperature column_limit,
                      Temperature reference);

/// k of the adiabatic equation for copper, A·sqrt(s)/mm², between two conductor temperatures:
/// sqrt(Qc (b + 20)/rho20 · ln(1 + (Te - Ts)/(b + Ts))), Qc = 3.45e-3 J/(K mm³), b = 234.5 °C,
/// rho20 = 17.241e-6 ohm·mm (IEC 60364-5-54 annex A, constants of IEC 60949). End above start.
double adiabatic_k(Temperature start, Temperature end);

/// Smallest area that stands a let-through energy, or a current for a time up to 5 s, without heat leaving
/// it: S = sqrt(I²t)/k (IEC 60364-4-43, 434.5.2).
Area area_to_withstand(Joule let_through, double k_A_sqrt_s_per_mm2);
Area area_to_withstand(Current current, Time time, double k_A_sqrt_s_per_mm2);

/// Steady temperature of a conductor at a current (docs/method.md 1); empty = no steady temperature.
/// `limit` and `reference` belong to the tabulated current. The ambient where that current is 0.
std::optional<Temperature> temperature(Current current, Current tabulated_grouped, Temperature limit,
                                       Temperature reference, Temperature ambient);

} // namespace fl::sizing
