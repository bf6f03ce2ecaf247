#include "core/quantity/limit.h"
#include "core/rules/list.h"

#include <algorithm>
#include <cmath>

// What a service battery's electronics let through, and what its shunt sees.

namespace fl::rules {
namespace {

using network::BranchKind;
using network::PortKind;

} // namespace

void above_battery_electronics(const Seen& facts, std::vector<Finding>& out) {
    const auto& net = facts.network;
    for (std::size_t p = 0; p < net.ports.size(); ++p) {
        const auto* battery = network::parameters<plan::Battery>(facts.installation, net.ports[p]);
        const auto& running = facts.envelope.port_current[p];
        if (!battery || !battery->discharge_limit || !running) continue;
        if (as_found(facts, net.ports[p].component) || !above(running.value, *battery->discharge_limit))
            continue;
        Finding f = make(facts, "above-battery-electronics");
        f.subjects.push_back(plan::Subject::of(net.ports[p].component));
        // What runs on it, largest first: where to save.
        const auto& s = facts.conditions[at(running.condition)];
        const auto there = reached(net, {net.ports[p].plus}, facts.live);
        std::vector<std::pair<double, plan::ComponentId>> takers;
        for (std::size_t other = 0; other < net.ports.size(); ++other)
            if (const int load = s.setup.map.load_of_port[other];
                load >= 0 && there[at(net.ports[other].plus)] && s.solution.load_A[at(load)] > 0)
                takers.emplace_back(-s.solution.load_A[at(load)], net.ports[other].component);
        std::sort(takers.begin(), takers.end());
        for (const auto& [amps, id] : takers) f.subjects.push_back(plan::Subject::of(id));
        f.values["current"] = running.value;
        f.values["limit"] = *battery->discharge_limit;
        f.values["excess"] = running.value - *battery->discharge_limit;
        if (!takers.empty()) {
            f.values["largest"] = designation(facts, takers.front().second);
            f.values["largest_current"] = Current::si(-takers.front().first);
        }
        f.condition = condition_of(facts, running);
        out.push_back(std::move(f));
    }
}

void inverter_return_bypasses_shunt(const Seen& facts, std::vector<Finding>& out) {
    const auto& net = facts.network;
    for (std::size_t b = 0; b < net.branches.size(); ++b) {
        const auto& shunt = net.branches[b];
        if (shunt.kind != BranchKind::shunt || as_found(facts, shunt.component)) continue;
        std::vector<bool> usable(net.branches.size(), true);
        usable[b] = false;
        const auto battery_side = reached(net, {shunt.a}, usable),
                   load_side = reached(net, {shunt.b}, usable);
        if (battery_side[at(shunt.b)]) continue; // a second way round it: another matter
        // Its battery: the service battery whose minus lies before it.
        int battery = -1;
        for (std::size_t p = 0; p < net.ports.size(); ++p) {
            const auto* found = network::parameters<plan::Battery>(facts.installation, net.ports[p]);
            if (found && found->role == plan::BatteryRole::service && battery_side[at(net.ports[p].minus)])
                battery = static_cast<int>(p);
        }
        if (battery < 0) continue;
        const auto fed = reached(net, {net.ports[at(battery)].plus}, facts.live);
        std::vector<std::pair<double, std::size_t>> past; // greatest current, port
        for (std::size_t p = 0; p < net.ports.size(); ++p) {
            const auto& port = net.ports[p];
            const bool takes = port.kind == PortKind::inverter || port.kind == PortKind::load;
            if (takes && fed[at(port.plus)] && battery_side[at(port.minus)])
                past.emplace_back(-facts.envelope.port_current[p].value.si(), p);
        }
        if (past.empty()) continue;
        std::sort(past.begin(), past.end());
        Finding f = make(facts, "inverter-return-bypasses-shunt");
        for (const auto& [amps, p] : past) f.subjects.push_back(plan::Subject::of(net.ports[p].component));
        f.subjects.push_back(plan::Subject::of(shunt.component));
        f.values["shunt"] = designation(facts, shunt.component);
        // What the monitor sees, in the lasting condition in which the battery gives most.
        double most_A = 0;
        for (const auto& s : facts.conditions) {
            const int r = s.setup.map.resistor_of_branch[b];
            const int i = s.setup.map.battery_of_port[at(battery)];
            if (r < 0 || i < 0 || !s.solution.usable || s.condition.duration) continue;
            const double given_A = -s.solution.battery_A[at(i)];
            if (given_A <= most_A) continue;
            most_A = given_A;
            f.values["seen"] = Current::si(std::fabs(s.solution.resistor_A[at(r)]));
            f.values["current"] = Current::si(given_A);
            f.condition = s.condition.name;
        }
        out.push_back(std::move(f));
    }
}

} // namespace fl::rules
