#include "core/base/check.h"
#include "core/condition/drawn.h"
#include "core/solve/reading.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace fl::condition {
namespace {

using network::PortKind;

/// The resistor of a branch in this state of the world.
solve::Resistor in_state(const State& state, int branch) {
    solve::Resistor r = item(state.drawn.resistors, branch);
    const auto& ambient = state.condition.ambient;
    if (r.thermal && ambient) r.thermal->ambient_C = r.at_C = (*ambient).celsius();
    if (state.brief()) r.thermal.reset(); // no time to warm up
    r.closed = is_closed(state, item(state.drawn.network.branches, branch));
    return r;
}

/// A voltage-sensing relay's coil takes current only while it holds its contact.
bool holds_itself(const State& state, const network::Port& port) {
    const auto* relay = network::parameters<plan::Relay>(state.drawn.in, port);
    return relay && relay->control == plan::RelayControl::voltage_sensing;
}

bool contact_of(const State& state, const network::Port& coil, const std::vector<bool>& contact_closed) {
    const auto& branches = state.drawn.network.branches;
    for (int i = 0; i < count(branches); ++i) {
        const auto& b = item(branches, i);
        if (b.kind == network::BranchKind::relay && b.component == coil.component &&
            b.element == coil.element)
            return item(contact_closed, i);
    }
    return false;
}

/// The place of the shared limit of the unit this element belongs to, or -1; made at its first element.
int shared_limit(const State& state, solve::Circuit& circuit, std::map<plan::ComponentId, int>& places,
                 plan::ComponentId id, int element) {
    const plan::Component* c = state.drawn.in.components.find(id);
    const auto* unit = c && element >= 0 ? std::get_if<plan::Unit>(&c->with) : nullptr;
    if (!unit || !unit->shared_limit) return -1;
    const auto [place, added] = places.try_emplace(id, count(circuit.shared_limit_A));
    if (added) circuit.shared_limit_A.push_back((*unit->shared_limit).si());
    return place->second;
}

} // namespace

Setup assemble(const State& state, const std::vector<bool>& converter_on,
               const std::vector<bool>& contact_closed) {
    const Drawn& d = state.drawn;
    FL_CHECK(converter_on.size() == d.network.converters.size());
    FL_CHECK(contact_closed.size() == d.network.branches.size());
    Setup out;
    std::map<plan::ComponentId, int> shared;
    out.references = d.references;
    out.circuit.nodes = count(d.network.nodes);
    for (int i = 0; i < count(d.network.branches); ++i) {
        out.map.resistor_of_branch.push_back(i);
        out.circuit.resistors.push_back(in_state(state, i));
        if (item(d.network.branches, i).kind == network::BranchKind::relay)
            out.circuit.resistors.back().closed = item(contact_closed, i);
        out.map.diode_of_branch.push_back(-1);
        if (item(d.network.branches, i).kind != network::BranchKind::isolator) continue;
        out.map.diode_of_branch.back() = count(out.circuit.diodes);
        out.circuit.diodes.push_back(diode_of(d, item(d.network.branches, i)));
    }
    for (int i = 0; i < count(d.network.ports); ++i) {
        const auto& p = item(d.network.ports, i);
        int battery = -1, regulator = -1, load = -1;
        switch (p.kind) {
        case PortKind::battery:
            battery = count(out.circuit.batteries);
            out.circuit.batteries.push_back(battery_of(state, p));
            break;
        case PortKind::alternator:
        case PortKind::take_off_point:
        case PortKind::mains_charger:
        case PortKind::solar_controller:
            regulator = count(out.circuit.regulators);
            out.circuit.regulators.push_back(regulator_of(state, p));
            out.circuit.regulators.back().shared =
                shared_limit(state, out.circuit, shared, p.component, p.element);
            break;
        case PortKind::starter_motor:
        case PortKind::inverter:
        case PortKind::load:
        case PortKind::relay_coil:
            load = count(out.circuit.loads);
            out.circuit.loads.push_back(load_of(state, i));
            if (holds_itself(state, p))
                out.circuit.loads.back().on =
                    out.circuit.loads.back().on && contact_of(state, p, contact_closed);
            break;
        }
        out.map.battery_of_port.push_back(battery);
        out.map.regulator_of_port.push_back(regulator);
        out.map.load_of_port.push_back(load);
    }
    for (int i = 0; i < count(d.network.converters); ++i) {
        out.map.converter_of.push_back(i);
        out.circuit.converters.push_back(converter_of(state, item(d.network.converters, i)));
        auto& c = out.circuit.converters.back();
        c.on = c.on && item(converter_on, i);
        const auto& port = item(d.network.converters, i);
        c.shared = shared_limit(state, out.circuit, shared, port.component, port.element);
    }
    return out;
}

solve::Solution operating_point(const State& state, Setup& setup) {
    struct Sensed {
        const network::Port* port;
        int regulator;
        double set_V, most_V;
    };
    std::vector<Sensed> sensed;
    for (int i = 0; i < count(state.drawn.network.ports); ++i) {
        const auto& p = item(state.drawn.network.ports, i);
        const int r = item(setup.map.regulator_of_port, i);
        if (p.sense < 0 || r < 0) continue;
        if (!item(setup.circuit.regulators, r).on || item(setup.circuit.regulators, r).holds) continue;
        const double more_V =
            default_volts("alternator.sense_most", nominal_of_source(state.drawn.in, state.drawn.network, p));
        sensed.push_back({&p, r, vehicle_set_voltage(state, p), more_V});
        item(setup.circuit.regulators, r).set_V = sensed.back().set_V;
    }
    auto solution = solve::operating_point(setup.circuit);
    constexpr int most = 60;
    constexpr double settled_V = 1e-7;
    double moved_V = 1;
    for (int step = 0; step < most && moved_V > settled_V && !sensed.empty() && solution.usable; ++step) {
        moved_V = 0;
        for (const Sensed& s : sensed) {
            const auto lost = solve::voltage(solution, s.port->plus, s.port->sense);
            double& set_V = item(setup.circuit.regulators, s.regulator).set_V;
            const double wanted_V = s.set_V + std::clamp(lost.value_or(0), 0.0, s.most_V);
            moved_V = std::max(moved_V, std::abs(wanted_V - set_V));
            set_V = wanted_V;
        }
        if (moved_V > settled_V) solution = solve::operating_point(setup.circuit);
    }
    return solution;
}

void leave_out_open(Setup& setup) {
    for (int& index : setup.map.resistor_of_branch)
        if (index >= 0 && !item(setup.circuit.resistors, index).closed) index = -1;
}

Setup setup(const plan::Installation& in, const network::Network& network, const plan::Condition& condition,
            const std::vector<bool>& converter_on) {
    const Drawn drawn(in, network);
    const State state{drawn, condition};
    std::vector<bool> contacts;
    for (const auto& b : network.branches) contacts.push_back(is_closed(state, b));
    Setup out = assemble(state, converter_on, contacts);
    leave_out_open(out);
    return out;
}

std::optional<Voltage> voltage_between(const Solved& solved, const Terminals& at) {
    const auto& s = solved.solution;
    if (!s.usable || at.plus < 0 || item(s.node_island, at.plus) != item(s.node_island, at.minus)) return {};
    return Voltage::si(item(s.node_V, at.plus) - item(s.node_V, at.minus));
}

std::optional<Voltage> port_voltage(const network::Network& network, const Solved& solved, int port) {
    const auto& p = item(network.ports, port);
    return voltage_between(solved, {p.plus, p.minus});
}

} // namespace fl::condition
