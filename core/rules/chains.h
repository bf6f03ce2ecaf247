#pragma once

#include "core/rules/look.h"

#include <optional>
#include <vector>

/// Conductors that a source can overload with no suitable device between, as chains from where they are fed.
/// Private to this room.
namespace fl::rules {

/// Conductors in a row, and what they lead to.
struct Chain {
    std::vector<int> conductors;             ///< branches, from the fed end; never empty
    std::vector<int> beyond;                 ///< further ones that the same device would protect
    std::vector<plan::ComponentId> leads_to; ///< what takes current at the bare end
    int fed_at = -1;                         ///< node
    int source = -1;                         ///< index into protect::sources
    bool unlimited = false;                  ///< nothing limits what the source drives into it
    int device_before = -1;                  ///< branch of the device it hangs on, too large for it
    int device_after = -1;                   ///< branch of the one device it leads to
    int other_source = -1; ///< the source at its far end, bare or behind `device_after` and nearer to that
    bool bare = false;     ///< leads to something that takes or gives current, without a device
    bool link = false;     ///< and that is another source's own terminal, nothing else
    bool trunk = false;    ///< parts into several, each with a device of its own
    bool small = false;    ///< a thin tap: sense, run or meter lead
    std::optional<Length> exposure; ///< unprotected length to its end; empty = not known
    Length exposure_at_least;       ///< the lengths of it that are known
    Current allowed;                ///< least of its conductors' allowed protection; 0 = not known
};

/// What a chain lacks.
enum class Lack : std::uint8_t {
    nothing,  ///< its device is near enough, or the distance is not known; or it is a short link
    device,   ///< there is none
    between,  ///< fed from two sources, and none at this end
    distance, ///< its device is too far from where it is fed
    rating,   ///< `device_before` is too large
};

struct Judged {
    Chain chain;
    Lack lack = Lack::nothing;
    const catalogue::Limit* limit = nullptr; ///< of the rule set: its unprotected length; null = it has none
};
std::vector<Judged> chains(const Facts& facts);

} // namespace fl::rules
