#pragma once

#include "core/quantity/quantity.h"

#include <compare>
#include <optional>
#include <string>

namespace fl {

/// An American wire gauge by its index: 18 ... 1, then 0, -1, -2, -3 for 1/0 ... 4/0.
struct Awg {
    int index = 0;
    constexpr auto operator<=>(const Awg&) const = default;

    static constexpr int smallest = 18, largest = -3;
    /// Copper area by the diameter law of ASTM B258: d = 0.005 in * 92^((36 - n)/39).
    Area area() const;
    /// "6", "1/0", "4/0".
    std::string name() const;
};

/// The size of a conductor: its copper area, and the gauge where it was given as one.
struct WireSize {
    Area area;
    std::optional<Awg> awg;

    static WireSize mm2(double value) { return {Area::si(value / 1e6), {}}; }
    static WireSize gauge(Awg awg) { return {awg.area(), awg}; }
    constexpr bool operator==(const WireSize&) const = default;
};

} // namespace fl
