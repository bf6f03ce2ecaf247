#pragma once

#include "core/rules/look.h"

#include <map>
#include <optional>
#include <vector>

/// Conductors without suitable protection, one by one. Private to this room.
namespace fl::rules {

/// The worst source from which a conductor lacks protection.
struct Open {
    int source = -1;
    bool unlimited = false;
    const protect::FromSource* from = nullptr;
};

/// Which conductors are open, and what the walks over them need. Keeps references to the facts.
class Opens {
public:
    explicit Opens(const Facts& facts);

    const Facts& facts;
    const network::Network& net;
    std::vector<protect::Source> sources;
    std::vector<std::vector<int>> at_node; ///< branches
    std::vector<bool> live;                ///< per branch
    std::vector<std::optional<Open>> open; ///< per branch

    /// The open ones from their sources outwards, so that what is fed comes after what feeds it.
    std::vector<int> outwards();
    /// The end at which an open conductor is fed: its point of supply, else the end nearer to that, or to the
    /// source.
    int fed_end(int branch);
    int far_end(int branch, int node) const;
    /// Another source than `than` that reaches a node without a device, or -1.
    int source_behind(int node, int than) const;

private:
    std::optional<Open> lacking(int branch) const;
    const std::vector<int>& hops_from(int node);
    int start_of(int branch) const;
    std::vector<int> part_;                // per node: what live branches without a device join
    std::map<int, std::vector<int>> hops_; // live branches from a node to each node
};

} // namespace fl::rules
