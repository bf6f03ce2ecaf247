#pragma once

#include "core/solve/circuit.h"
#include "core/solve/solution.h"

namespace fl::solve {

// One law an element, each continuous and piecewise smooth, with its derivatives. Which piece holds is read
// off the present values; nothing is remembered. Where a law has a corner, the derivative is that of the side
// on which the element still has a grip on the voltage.

/// A knee is never lower than this: 0 V would make a jump of the law. What has less than twice this with
/// nothing drawn is not fed at all.
inline constexpr double least_knee_V = 1;

/// A current as a function of the voltage across.
struct CurrentLaw {
    double amps = 0, per_V = 0;
};

/// What a load that is on takes at `volts`, with its law bent at `knee_V` > 0.
CurrentLaw load_current(const Load& load, double knee_V, double volts);

/// What a converter that is off takes from its input.
CurrentLaw standby_current(const Converter& converter, double knee_V, double volts);

/// Voltage across a battery that takes `amps`, and how it rises with the current.
struct BatteryLaw {
    double volts = 0, per_A = 0;
};
BatteryLaw battery_voltage(const Battery& battery, double amps);

/// The law of a source that holds `set_V` by its droop between 0 and a limit, as a row that is 0 where it is
/// met: row = m·i - clamp(m·i + set - v - droop·i, 0, m·limit), in volts. Any m > 0 states the same law; this
/// one is about as large as the resistance outside, so that a step that overshoots from one bound is seen as
/// "between" and not as "beyond the other": with m = droop, Newton's method bounces between the bounds.
inline constexpr double usual_margin = 0.1; ///< m: so much of the set voltage over the whole range of current
struct SourceRow {
    double volts = 0, scale_V = 0, per_V = 0, per_A = 0, m_ohm = 0;
    double per_left_A = 0; ///< by what the others of its unit leave
};

/// `left_A`: what the others of its unit leave of their shared limit. `margin`: see `usual_margin`.
SourceRow regulator_row(const Regulator& regulator, double volts, double amps, double left_A = unlimited,
                        double margin = usual_margin);

/// A battery of which one direction is blocked, as a row by its voltage and charging current.
SourceRow one_way_row(const Battery& battery, double volts, double amps, double margin = usual_margin);

SourceRow diode_row(const Diode& diode, double volts, double amps, double margin = usual_margin);

/// What a regulator does at `volts`.
RegulatorMode regulator_mode(const Regulator& regulator, double volts, double left_A = unlimited);

/// A converter that is on, delivering `out_A`: its row as above, and what it takes from its input.
struct ConverterLaw {
    SourceRow row;         ///< by the output's voltage and current
    double row_per_in = 0; ///< and by the input's voltage
    double in_A = 0, in_per_in = 0, in_per_out = 0, in_per_out_A = 0;
};
ConverterLaw converter_law(const Converter& converter, double knee_V, double in_V, double out_V, double out_A,
                           double left_A = unlimited, double margin = usual_margin);

/// What a converter that is on does at these voltages.
ConverterMode converter_mode(const Converter& converter, double knee_V, double in_V, double out_V,
                             double left_A = unlimited);

} // namespace fl::solve
