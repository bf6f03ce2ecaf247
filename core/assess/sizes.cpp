#include "core/assess/sizes.h"

#include "core/protect/placement.h"
#include "core/quantity/limit.h"
#include "core/rules/drop.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace fl::assess {
namespace {

struct AllowedDrop {
    Voltage most;
    Current at; // what flows in the condition that it is judged in
};

// The shortest ways to every node from those that loads refer to: few sources feed many loads.
class WaysFrom {
public:
    explicit WaysFrom(const Assessment& a)
        : a_(a)
        , all_(a.network.branches.size(), true) {}

    const std::vector<int>& operator()(int from, int to) {
        auto& ways = ways_[from];
        if (ways.empty()) ways = network::shortest_ways(a_.installation, a_.network, {from}, all_);
        const auto& way = ways[static_cast<std::size_t>(to)];
        return way ? way->branches : none_;
    }

private:
    const Assessment& a_;
    std::vector<bool> all_;
    std::map<int, std::vector<std::optional<network::Way>>> ways_;
    std::vector<int> none_;
};

// For each branch the voltage it alone may lose so that the worst load behind it still keeps its allowance,
// everything else as drawn: what it loses now, plus the load's allowance less the load's whole drop.
std::map<int, AllowedDrop> allowed_drops(const Assessment& a, const catalogue::RuleSet& set) {
    std::map<int, AllowedDrop> allowed;
    WaysFrom ways(a);
    for (std::size_t p = 0; p < a.network.ports.size(); ++p) {
        const auto& worst = a.envelope.port_drop[p];
        const auto limit = rules::allowed_drop(a.installation, set, a.network.ports[p]);
        if (!worst || !limit) continue;
        const condition::Solved& in = a.conditions[static_cast<std::size_t>(worst.condition)];
        if (!in.solution.usable) continue;
        const Voltage allowance = in.setup.references[p].nominal * limit->share.si();
        const Voltage in_hand = allowance - worst.value;
        const auto source = condition::terminals_of(a.network, in.setup.references[p]);
        if (source.plus < 0) continue;
        const network::Port& load = a.network.ports[p];
        std::map<int, double> lost_by;
        std::map<int, double> at_ends; // of that, what the joints lose whatever the size
        double most = 0;               // of the conductors
        for (const auto* leg : {&ways(source.plus, load.plus), &ways(source.minus, load.minus)})
            for (int b : *leg) {
                const int r = in.setup.map.resistor_of_branch[static_cast<std::size_t>(b)];
                if (r < 0) continue;
                const auto& resistor = in.setup.circuit.resistors[static_cast<std::size_t>(r)];
                const double lost = std::fabs(in.solution.node_V[static_cast<std::size_t>(resistor.a)] -
                                              in.solution.node_V[static_cast<std::size_t>(resistor.b)]);
                lost_by[b] = lost;
                at_ends[b] =
                    std::fabs(in.solution.resistor_A[static_cast<std::size_t>(r)]) * resistor.fixed_ohm;
                if (a.network.branches[static_cast<std::size_t>(b)].conductor) most = std::max(most, lost);
            }
        for (const auto& [b, lost] : lost_by) {
            const Voltage in_copper = Voltage::si(lost - at_ends[b]);
            Voltage may = in_copper + in_hand;
            // Where no conductor alone makes up for it, those that lose most come down by as much as the
            // whole must; what then still lacks shows at the next size.
            if (may.si() <= 0 && lost >= 0.9 * most) may = in_copper * (allowance / worst.value);
            const int r = in.setup.map.resistor_of_branch[static_cast<std::size_t>(b)];
            const AllowedDrop own{
                may, Current::si(std::fabs(in.solution.resistor_A[static_cast<std::size_t>(r)]))};
            const auto [found, fresh] = allowed.emplace(b, own);
            // The least resistance decides.
            if (!fresh && may.si() * found->second.at.si() < found->second.most.si() * own.at.si())
                found->second = own;
        }
    }
    return allowed;
}

// The device that a way without forks leads to from one end of a conductor; empty where it ends otherwise.
struct Ahead {
    Current rating;
    Length length; // of what lies between, as far as it is known
};
class DeviceAtEnd {
public:
    explicit DeviceAtEnd(const Assessment& a)
        : a_(a)
        , at_(a.network.nodes.size())
        , ends_(a.network.nodes.size()) {
        for (std::size_t b = 0; b < a.network.branches.size(); ++b)
            for (const int node : {a.network.branches[b].a, a.network.branches[b].b})
                at_[static_cast<std::size_t>(node)].push_back(static_cast<int>(b));
        const auto end_at = [&](int node) {
            if (node >= 0) ends_[static_cast<std::size_t>(node)] = true;
        };
        for (const auto& p : a.network.ports) end_at(p.plus), end_at(p.minus);
        for (const auto& c : a.network.converters)
            for (const int node : {c.in_plus, c.in_minus, c.out_plus, c.out_minus, c.run}) end_at(node);
    }

    std::optional<Ahead> operator()(int branch, int node) const {
        Length length;
        for (std::size_t steps = 0; steps < a_.network.branches.size(); ++steps) {
            const auto& here = at_[static_cast<std::size_t>(node)];
            if (ends_[static_cast<std::size_t>(node)] || here.size() != 2) return {};
            branch = here.front() == branch ? here.back() : here.front();
            const auto& next = a_.network.branches[static_cast<std::size_t>(branch)];
            if (protect::is_device(next)) {
                const auto rating = protect::device_rating(a_.installation, next);
                return rating ? std::optional(Ahead{*rating, length}) : std::nullopt;
            }
            if (const auto* w = a_.installation.conductors.find(next.conductor))
                if (const auto own = plan::length_of(a_.installation, *w)) length = length + *own;
            node = next.a == node ? next.b : next.a;
        }
        return {};
    }

private:
    const Assessment& a_;
    std::vector<std::vector<int>> at_;
    std::vector<bool> ends_; // something gives or takes current at the node
};

// Node where the source that drives most into the core comes to it unprotected; -1 = none.
int supply_of(const protect::Placement& placement) {
    const protect::FromSource* most = nullptr;
    for (const auto& from : placement.from)
        if (!from.is_protected && (!most || from.greatest > most->greatest)) most = &from;
    return most ? most->supply : -1;
}

// What the sources can lastingly drive through this conductor past its devices. A stretch that the rule set
// lets do without a device (a hand's breadth before its own fuse), or that nothing limits, is not sized by
// what lies farther up, but by the fuse that it leads to.
std::optional<Current> protecting(const Assessment& a, const protect::Placement& placement, std::size_t b,
                                  const DeviceAtEnd& device, const catalogue::RuleSet& rules) {
    const auto& limit = rules.unprotected.from_other;
    const Current most = std::max(placement.greatest_a, placement.greatest_b);
    const bool limited = std::isfinite(most.si());
    if (!placement.return_side && (placement.exposed || !limited)) {
        const auto& branch = a.network.branches[b];
        const int fed_at = supply_of(placement);
        std::optional<Current> least;
        for (const int node : {branch.a, branch.b}) {
            const auto ahead = device(static_cast<int>(b), node);
            if (node == fed_at || !ahead || (least && *least <= ahead->rating)) continue;
            const bool near =
                placement.exposure && limit && !above(*placement.exposure + ahead->length, *limit);
            if (near || !limited) least = ahead->rating;
        }
        if (least) return least;
    }
    if (!placement.reachable || !limited || most.si() <= 0) return {};
    return most;
}

} // namespace

std::vector<sizing::Size> sizes(const Assessment& a) {
    std::vector<sizing::Size> all(a.network.branches.size());
    const catalogue::RuleSet& rules = catalogue::rules_of(a.installation);
    const auto drops = allowed_drops(a, rules);
    const DeviceAtEnd device(a);
    std::map<plan::ConductorId, const protect::Placement*> placed;
    for (const protect::Placement& p : a.placements) placed[p.conductor] = &p;
    for (std::size_t b = 0; b < all.size(); ++b) {
        const plan::Conductor* w = a.installation.conductors.find(a.network.branches[b].conductor);
        if (!w || w->origin == plan::Origin::as_found || w->origin == plan::Origin::removed) continue;
        sizing::Needs needs;
        needs.running = a.envelope.branch_current[b].value;
        needs.device_multiple = rules.device_multiple;
        needs.gauges = rules.gauges;
        needs.minimum = w->role == plan::Role::signal ? rules.least_signal
                        : w->cable                    ? rules.least_in_cable
                                                      : rules.least_single;
        const auto placement = placed.find(w->id);
        if (placement != placed.end()) needs.device = protecting(a, *placement->second, b, device, rules);
        const plan::Entered<Length> length = plan::length_of(a.installation, *w);
        const auto drop = drops.find(static_cast<int>(b));
        if (drop != drops.end() && length && drop->second.most.si() > 0 && drop->second.at.si() > 0) {
            needs.drop = drop->second.most;
            needs.drop_current = drop->second.at;
            needs.loop = *length;
        }
        all[b] = sizing::least_size(needs, sizing::lie_of(a.installation, *w));
    }
    return all;
}

} // namespace fl::assess
