#pragma once

#include "core/quantity/quantity.h"

#include <string_view>

namespace fl {

/// A unit a fitter types or a file names. `file` is its spelling in field names ("mm2"), `sign` on screen
/// ("mm²"). One unit is `scale` SI units, kept as an exact product or quotient so that 2.5 mm² survives a
/// round trip: si = value * up / down. Temperature in °C is a point, not a scale, and is handled by its own
/// type.
struct Unit {
    std::string_view file;
    std::string_view sign;
    Dim dim;
    double up = 1, down = 1;

    constexpr double to_si(double value) const { return value * up / down; }
    constexpr double from_si(double si) const { return si * down / up; }
};

namespace unit {
inline constexpr Unit volt{"V", "V", Voltage::dim};
inline constexpr Unit ampere{"A", "A", Current::dim};
inline constexpr Unit ohm{"ohm", "Ω", Resistance::dim};
inline constexpr Unit milliohm{"mohm", "mΩ", Resistance::dim, 1, 1e3};
inline constexpr Unit metre{"m", "m", Length::dim};
inline constexpr Unit square_mm{"mm2", "mm²", Area::dim, 1, 1e6};
inline constexpr Unit amp_hour{"Ah", "Ah", Charge::dim, 3600, 1};
inline constexpr Unit watt{"W", "W", Power::dim};
inline constexpr Unit watt_hour{"Wh", "Wh", Energy::dim, 3600, 1};
inline constexpr Unit second{"s", "s", Time::dim};
inline constexpr Unit kelvin{"K", "K", TemperatureDifference::dim};
inline constexpr Unit milliohm_per_metre{"mohm_per_m", "mΩ/m", ResistancePerLength::dim, 1, 1e3};
inline constexpr Unit joule_integral{"A2s", "A²s", Joule::dim};
inline constexpr Unit percent{"pct", "%", Dim{}, 1, 1e2};
inline constexpr Unit celsius{"C", "°C", Dim{.k = 1}};
} // namespace unit

/// The unit in which a file holds a quantity of type Q, and that a bare number typed into such a field takes.
template <class Q>
constexpr const Unit& field_unit();
template <>
constexpr const Unit& field_unit<Voltage>() {
    return unit::volt;
}
template <>
constexpr const Unit& field_unit<Current>() {
    return unit::ampere;
}
template <>
constexpr const Unit& field_unit<Resistance>() {
    return unit::milliohm;
}
template <>
constexpr const Unit& field_unit<Length>() {
    return unit::metre;
}
template <>
constexpr const Unit& field_unit<Area>() {
    return unit::square_mm;
}
template <>
constexpr const Unit& field_unit<Charge>() {
    return unit::amp_hour;
}
template <>
constexpr const Unit& field_unit<Power>() {
    return unit::watt;
}
template <>
constexpr const Unit& field_unit<Energy>() {
    return unit::watt_hour;
}
template <>
constexpr const Unit& field_unit<Time>() {
    return unit::second;
}
template <>
constexpr const Unit& field_unit<TemperatureDifference>() {
    return unit::kelvin;
}
template <>
constexpr const Unit& field_unit<ResistancePerLength>() {
    return unit::milliohm_per_metre;
}
template <>
constexpr const Unit& field_unit<Joule>() {
    return unit::joule_integral;
}
template <>
constexpr const Unit& field_unit<Ratio>() {
    return unit::percent;
}
template <>
constexpr const Unit& field_unit<Temperature>() {
    return unit::celsius;
}

/// A value of Q from a number in its field unit, and back.
template <class Q>
constexpr Q from_field(double value) {
    return Q::si(field_unit<Q>().to_si(value));
}
template <>
constexpr Temperature from_field<Temperature>(double value) {
    return Temperature::celsius(value);
}
template <class Q>
constexpr double to_field(Q q) {
    return field_unit<Q>().from_si(q.si());
}
constexpr double to_field(Temperature t) {
    return t.celsius();
}

} // namespace fl
