#pragma once

#include "core/network/sides.h"
#include "core/rules/seen.h"

#include <map>
#include <optional>
#include <vector>

/// Currents through devices into a short. Private to this room.
namespace fl::rules {

/// What comes through one device into a short, from the sources on one of its sides. In a ring all of it
/// counts: an upper bound.
class Throughs {
public:
    /// `usable`: the branches over which anything comes.
    Throughs(const Seen& facts, const std::vector<bool>& usable);

    enum class Which : std::uint8_t { largest, least };
    /// Into a short at `node`, from the sources on the side of `from`, an end of the device's branch. Empty
    /// where the short gives no current.
    std::optional<Current> into(int branch, int from, int node, Which which) const;
    /// True when a source without a limit is on the side of `end`, an end of the device's branch.
    bool has_battery(int branch, int end) const;
    /// True when nothing joins `from` to `node` but the device.
    bool is_only_way(int branch, int from, int node) const {
        return usable_[at(branch)] && !sides_.reached(branch, from, node);
    }

private:
    const Seen& facts_;
    std::vector<bool> usable_;
    network::Sides sides_;
    std::map<plan::ComponentId, std::vector<int>> plus_of_; ///< nodes at which a source gives
};

} // namespace fl::rules
