#include "core/network/part.h"
#include "core/protect/graph.h"

#include <algorithm>

namespace fl::protect {
namespace {

using network::BranchKind;
using network::PortKind;

struct Poles {
    int plus = -1, minus = -1;
};

} // namespace

std::vector<bool> starting_circuit(const plan::Installation& installation, const network::Network& network,
                                   const Graph& graph) {
    std::vector<Poles> batteries, motors, alternators;
    for (const auto& p : network.ports) {
        const auto* battery = network::parameters<plan::Battery>(installation, p);
        if (battery && battery->role == plan::BatteryRole::starter) batteries.push_back({p.plus, p.minus});
        if (p.kind == PortKind::starter_motor) motors.push_back({p.plus, p.minus});
        if (p.kind == PortKind::alternator) alternators.push_back({p.plus, p.minus});
    }
    std::vector<bool> live(network.branches.size()), bare(live), back(live), starting(live);
    for (std::size_t i = 0; i < live.size(); ++i) {
        const auto& b = network.branches[i];
        live[i] = graph.edge_of[i] >= 0;
        bare[i] = live[i] && !is_device(b) && b.kind != BranchKind::relay;
        back[i] = graph.returns[at(b.a)] && !is_device(b);
    }
    const auto any = [](const std::vector<bool>& on) {
        return std::find(on.begin(), on.end(), true) != on.end();
    };
    for (const auto& battery : batteries) {
        for (const auto& motor : motors) {
            // A starting circuit with a fuse in it is one too, but then no detour over other devices counts.
            auto on = network::on_ways_between(network, battery.plus, motor.plus, bare);
            if (!any(on))
                if (const auto way =
                        network::shortest_way(installation, network, {battery.plus}, motor.plus, live))
                    for (const int i : way->branches) on[at(i)] = true;
            // Back by one way: a second return that happens to lead there has another purpose.
            if (const auto way =
                    network::shortest_way(installation, network, {motor.minus}, battery.minus, back))
                for (const int i : way->branches) on[at(i)] = true;
            for (std::size_t i = 0; i < on.size(); ++i) starting[i] = starting[i] || on[i];
        }
        for (const auto& alternator : alternators) {
            const auto on = network::on_ways_between(network, alternator.plus, battery.plus, bare);
            for (std::size_t i = 0; i < on.size(); ++i) {
                const auto* w = installation.conductors.find(network.branches[i].conductor);
                if (on[i] && w && w->origin == plan::Origin::as_found) starting[i] = true;
            }
        }
    }
    return starting;
}

} // namespace fl::protect
