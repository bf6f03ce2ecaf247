#pragma once

#include "core/rules/seen.h"
#include "core/rules/suited.h"

#include <map>
#include <vector>

// Private to this room.
namespace fl::rules {

std::vector<Suited> suited(const Seen& facts);

/// A device, what it may have to break, and what it can.
struct Break {
    Device device;
    Current fault, capacity;
    int node = -1; ///< of the short
};
/// Of every device of which both are known (devices.cpp).
std::vector<Break> breaks(const Seen& facts);
/// Per break: a current-limiting link cuts off what the device can't break (devices.cpp).
std::vector<bool> backed_up(const Seen& facts, const std::vector<Break>& all);
/// The highest lasting voltage of each live island: what charges the batteries on it (devices.cpp).
std::map<int, Voltage> highest_of_islands(const Seen& facts);

/// How long the slowest opening at a current takes, over how long the wire stands it; infinite where it may
/// never open and the wire does not stand that for good. Empty when not known.
std::optional<double> opening_share(const Device& device, const WireSize& size, const catalogue::Lie& lie,
                                    Current current);

} // namespace fl::rules
