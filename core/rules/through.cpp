#include "core/rules/through.h"

#include <algorithm>

namespace fl::rules {

Throughs::Throughs(const Seen& facts, const std::vector<bool>& usable)
    : facts_(facts)
    , usable_(usable)
    , sides_(facts.network, usable) {
    for (const auto& p : facts.network.ports) plus_of_[p.component].push_back(p.plus);
    for (const auto& c : facts.network.converters) plus_of_[c.component].push_back(c.out_plus);
}

std::optional<Current> Throughs::into(int branch, int from, int node, Which which) const {
    const auto& faults = facts_.faults[at(node)];
    const auto& fault = which == Which::largest ? faults.largest : faults.least;
    if (!fault) return {};
    Current through;
    for (const auto& share : fault->shares) {
        const auto& plus = plus_of_.at(share.source);
        if (std::any_of(plus.begin(), plus.end(),
                        [&](int at_node) { return sides_.reached(branch, from, at_node); }))
            through += share.current;
    }
    return through;
}

bool Throughs::has_battery(int branch, int end) const {
    return std::any_of(facts_.sources.begin(), facts_.sources.end(), [&](const protect::Source& s) {
        return !s.limit && !s.not_known && sides_.reached(branch, end, s.node);
    });
}

} // namespace fl::rules
