#include "core/arrange/tree.h"

#include <algorithm>
#include <queue>
#include <set>
#include <tuple>

namespace fl::arrange {
namespace {

using plan::ComponentId;
using plan::Kind;

/// The vehicle's own sources come first.
int root_order(const plan::Component& c) {
    switch (c.kind()) {
    case Kind::alternator:
        return 0;
    case Kind::take_off_point:
        return 1;
    case Kind::battery:
        return std::get<plan::Battery>(c.with).role == plan::BatteryRole::starter ? 2 : 3;
    case Kind::mains_charger:
        return 4;
    case Kind::solar_controller:
        return 5;
    default:
        return part_of(c) == Part::taker ? 8 : 7;
    }
}

/// An emergency link joins what is fed another way too: it never says where a part stands.
bool emergency(const plan::Installation& in, const Chain& c) {
    return std::any_of(c.hops.begin(), c.hops.end(), [&](const Hop& hop) {
        const auto* one = std::get_if<plan::Switch>(&in.components.find(hop.device)->with);
        return one && one->role == plan::SwitchRole::emergency_link;
    });
}

} // namespace

Part part_of(const plan::Component& c) {
    switch (c.kind()) {
    case Kind::battery:
    case Kind::alternator:
    case Kind::take_off_point:
    case Kind::mains_charger:
    case Kind::solar_controller:
        return Part::source;
    case Kind::starter_motor:
    case Kind::inverter:
    case Kind::load:
        return Part::taker;
    case Kind::drive_charger:
    case Kind::converter:
    case Kind::unit:
        return Part::through;
    case Kind::joint:
        return Part::joint;
    case Kind::busbar:
        return Part::bar;
    case Kind::fuse_box:
        return Part::box;
    default:
        return Part::other;
    }
}

Tree tree(const plan::Installation& in, const Chains& chains) {
    Tree out;
    std::map<ComponentId, std::vector<Branch>> next;
    for (std::size_t i = 0; i < chains.all.size(); ++i) {
        const Chain& c = chains.all[i];
        const ComponentId a = c.from.component, b = c.to.component;
        if (c.side != Side::plus || a == b || chains.in_series(a) || chains.in_series(b) || emergency(in, c))
            continue;
        next[a].push_back({static_cast<int>(i), false, b});
        next[b].push_back({static_cast<int>(i), true, a});
    }
    std::vector<const plan::Component*> starts;
    for (const auto& c : in.components)
        if (next.contains(c.id)) starts.push_back(&c);
    std::stable_sort(starts.begin(), starts.end(),
                     [](const auto* a, const auto* b) { return root_order(*a) < root_order(*b); });
    std::set<ComponentId> seen;
    for (const auto* start : starts) {
        if (!seen.insert(start->id).second) continue;
        out.roots.push_back(start->id);
        std::queue<ComponentId> open({start->id});
        for (; !open.empty(); open.pop())
            for (const Branch& branch : next[open.front()])
                if (seen.insert(branch.child).second) {
                    out.below[open.front()].push_back(branch);
                    open.push(branch.child);
                }
    }
    // what ends here comes first, then what leads on, boxes last
    const auto order = [&](const Branch& branch) {
        const auto& c = *in.components.find(branch.child);
        const Part part = part_of(c);
        const bool leads_on = out.below.contains(c.id) || part == Part::through;
        const int rank = part == Part::box ? 3 : leads_on ? 2 : part == Part::source ? 0 : 1;
        return std::tuple(rank, c.id);
    };
    for (auto& [id, branches] : out.below)
        std::sort(branches.begin(), branches.end(),
                  [&](const Branch& a, const Branch& b) { return order(a) < order(b); });
    return out;
}

} // namespace fl::arrange
