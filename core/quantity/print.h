#pragma once

#include "core/quantity/unit.h"
#include "core/quantity/wire_size.h"

#include <string>

namespace fl {

/// How numbers are written for people.
struct Style {
    char decimal = '.'; ///< '.' or ','
    int more = 0;       ///< further digits of a quantity, where the usual ones do not tell two apart
};

/// A number rounded half away from zero to `decimals` places, trailing zeros kept, true minus sign.
std::string fixed(double value, int decimals, Style style = {});
/// A number rounded to `digits` significant digits, without exponent, trailing zeros after the point dropped.
std::string significant(double value, int digits, Style style = {});

/// A quantity as a fitter reads it: sensible unit, sensible digits, a space before the unit: "75.6 A",
/// "0.47 V", "2.5 mm²", "1.2 kW", "38 mΩ", "45 min", "5.6 %", "-10 °C". Not a finite number: "not known".
std::string text(Voltage, Style = {});               ///< two decimals, V
std::string text(Current, Style = {});               ///< three digits, A, mA, or kA
std::string text(Resistance, Style = {});            ///< three digits, mΩ or Ω
std::string text(Length, Style = {});                ///< at most two decimals, m
std::string text(Area, Style = {});                  ///< at most two decimals, mm²
std::string text(Power, Style = {});                 ///< three digits, W or kW
std::string text(Charge, Style = {});                ///< three digits, Ah
std::string text(Energy, Style = {});                ///< three digits, Wh or kWh
std::string text(Time, Style = {});                  ///< ms, s, min or h
std::string text(Temperature, Style = {});           ///< whole °C
std::string text(TemperatureDifference, Style = {}); ///< at most one decimal, K
std::string text(Ratio, Style = {});                 ///< one decimal, %
std::string text(Joule, Style = {});                 ///< three digits, A²s
std::string text(ResistancePerLength, Style = {});   ///< three digits, mΩ/m
std::string text(const WireSize&, Style = {});       ///< "2.5 mm²" or "6 AWG"

/// The shortest decimal that reads back, through `from_field`, to the very same SI value. Files use it, so
/// that save, load, save gives the same bytes.
template <class Q>
std::string shortest(Q q);
/// The shortest decimal that reads back to the same double. Asserts that it is finite.
std::string shortest(double value);

} // namespace fl
