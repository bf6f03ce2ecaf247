#pragma once

#include "core/solve/circuit.h"
#include "core/solve/solution.h"

namespace fl::solve {

// One law an element, each continuous and piecewise smooth, with its derivatives. Which piece holds is read
// off the present values; nothing is remembered. Where a law has a corner, the derivative is that of the side
// on which the element still has a grip on the voltage.

/// A knee is never lower than this: 0 V would make a jump of the law.
inline constexpr double least_knee_V = 0.05;

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

/// What a regulator wants to deliver at `volts`, times its droop: in volts, because the droop is often so
/// small that the same in amperes would be lost in rounding.
struct RegulatorLaw {
    double drop_V = 0, per_V = 0;
    RegulatorMode mode = RegulatorMode::idle;
};
RegulatorLaw regulator_drop(const Regulator& regulator, double volts);

/// A converter that is on: what it wants to deliver times its droop, and what it takes while it delivers
/// `out_A`. `in` and `out` as suffix: the voltages at its ports.
struct ConverterLaw {
    double drop_V = 0, drop_per_in = 0, drop_per_out = 0;
    ConverterMode mode = ConverterMode::idle;
    double in_A = 0, in_per_in = 0, in_per_out = 0, in_per_out_A = 0;
};
ConverterLaw converter_law(const Converter& converter, double knee_V, double in_V, double out_V,
                           double out_A);

} // namespace fl::solve
