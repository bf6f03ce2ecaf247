#pragma once

#include "core/protect/order.h"
#include "core/rules/rules.h"

#include <vector>

/// Order of opening of protective devices in series.
namespace fl::rules {

struct Seen;

struct Series {
    int lower = -1, upper = -1; ///< branches
    bool forward = true;        ///< the short's current flows through the lower one from its first end
    bool next = false;          ///< no other device stands between them
    Current most;               ///< through the lower one into the largest short right behind it
    Current upper_most;         ///< through the upper one in the same short
    std::optional<protect::Order> order; ///< empty = not known
    bool operator==(const Series&) const = default;
};
/// Every pair of which one carries all that a source gives the other, in each direction; by lower branch.
std::vector<Series> series(const Facts& facts);
/// The same, for the rules.
std::vector<Series> series(const Seen& facts);

} // namespace fl::rules
