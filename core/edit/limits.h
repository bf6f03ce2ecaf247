#pragma once

#include "core/plan/entered.h"
#include "core/quantity/print.h"

#include <string>
#include <string_view>

/// The range in which any quantity of the document must lie. Wide: it keeps nonsense and typing slips out,
/// the rules judge the rest. 60 V d.c. nominal bounds what the planner is for, but a value such as an
/// open-circuit voltage or a stress level may be higher.
namespace fl::edit {

template <class Q>
struct Limits {
    Q least, greatest;
};
template <class Q>
constexpr Limits<Q> limits();
template <>
constexpr Limits<Voltage> limits() {
    return {0_V, 1000_V};
}
template <>
constexpr Limits<Current> limits() {
    return {0_A, 20000_A};
}
template <>
constexpr Limits<Resistance> limits() {
    return {0_ohm, 1000000_ohm};
}
template <>
constexpr Limits<Length> limits() {
    return {0_m, 1000_m};
}
template <>
constexpr Limits<Area> limits() {
    return {Area::si(1e-8), 1000_mm2};
}
template <>
constexpr Limits<Charge> limits() {
    return {0_Ah, 100000_Ah};
}
template <>
constexpr Limits<Power> limits() {
    return {0_W, 1000000_W};
}
template <>
constexpr Limits<Energy> limits() {
    return {Energy::si(0), Energy::si(3.6e12)};
}
template <>
constexpr Limits<Time> limits() {
    return {0_s, Time::si(3.2e7)};
}
template <>
constexpr Limits<Ratio> limits() {
    return {Ratio::si(0), Ratio::si(1)};
}
template <>
constexpr Limits<Temperature> limits() {
    return {Temperature::celsius(-60), Temperature::celsius(300)};
}

/// The range of a whole number by its field: counts, and quarter turns of a symbol.
struct CountLimits {
    int least, greatest;
};
constexpr CountLimits limits_of_count(std::string_view field) {
    if (field == "quarter_turns") return {0, 3};
    return {1, 1000};
}

/// A place on paper lies within this many millimetres of its origin, either way.
inline constexpr double paper_limit_mm = 1e5;

/// What is wrong with a value, or an empty text: "is −3 m, which is outside 0 m to 1000 m".
template <class Q>
std::string out_of_range(Q value) {
    const auto range = limits<Q>();
    if (value >= range.least && value <= range.greatest) return {};
    return "is " + text(value) + ", which is outside " + text(range.least) + " to " + text(range.greatest);
}
inline std::string out_of_range(const WireSize& size) {
    return out_of_range(size.area);
}

} // namespace fl::edit
