#include "core/condition/latches.h"

#include "core/solve/reading.h"

#include <algorithm>
#include <cmath>

namespace fl::condition {
namespace {

// A threshold is met within this share of itself, so that the last bits of a solution never decide.
constexpr double in_hand = 1e-6;

bool is_wired(const network::Network& net, int node) {
    return node >= 0 && std::any_of(net.branches.begin(), net.branches.end(),
                                    [&](const auto& b) { return b.a == node || b.b == node; });
}

/// The run signal is dead whatever the relays do: the charger needs no second look in this condition.
bool surely_dead(const State& state, int node) {
    std::vector<bool> closed;
    for (const auto& b : state.drawn.network.branches)
        closed.push_back(b.kind == network::BranchKind::relay || is_closed(state, b));
    const auto signal = signal_at(state, network::islands(state.drawn.network, closed), node);
    return signal && !*signal;
}

Latch charger_latch(const State& state, int index, const plan::DriveCharger& c) {
    const Drawn& d = state.drawn;
    const auto& port = item(d.network.converters, index);
    const Voltage nominal = c.nominal_in ? *c.nominal_in : d.nominal_at(port.in_plus);
    const auto volts = [&](std::string_view id) { return default_volts(id, nominal); };
    Latch l;
    l.index = index;
    l.needs_live = c.needs_run_signal ? *c.needs_run_signal : is_wired(d.network, port.run);
    l.never = l.needs_live && (!is_wired(d.network, port.run) || surely_dead(state, port.run));
    const double usual_on =
        volts(l.needs_live ? "drive_charger.restart" : "drive_charger.voltage_only_start");
    const double usual_off = volts(l.needs_live ? "drive_charger.stop" : "drive_charger.voltage_only_stop");
    // Only one of the two known: the usual distance between them.
    l.off_V = or_else(c.stop_voltage,
                      c.start_voltage ? (*c.start_voltage).si() - (usual_on - usual_off) : usual_off);
    l.on_V = std::max(l.off_V,
                      or_else(c.start_voltage, c.stop_voltage ? l.off_V + (usual_on - usual_off) : usual_on));
    l.above_V = or_else(c.highest_input, volts("drive_charger.greatest_input"));
    l.off_hold_s =
        or_else(c.hold, l.needs_live ? 0 : catalogue::default_of<Time>("drive_charger.hold").value.si());
    return l;
}

Latch relay_latch(const State& state, int branch, const plan::Relay& r) {
    const Drawn& d = state.drawn;
    const auto& b = item(d.network.branches, branch);
    Latch l;
    l.of = Latch::Of::contact;
    l.index = branch;
    for (int i = 0; i < count(d.network.ports); ++i) {
        const auto& p = item(d.network.ports, i);
        if (p.kind == network::PortKind::relay_coil && p.component == b.component && p.element == b.element)
            l.coil = i;
    }
    const Voltage nominal = l.coil < 0 ? catalogue::nominal_of(d.in) : item(d.references, l.coil).nominal;
    if (r.control == plan::RelayControl::voltage_sensing) {
        l.on_V = or_else(r.pull_in, default_volts("relay.sensing_on", nominal));
        l.off_V = or_else(r.drop_out, default_volts("relay.sensing_off", nominal));
    } else {
        l.on_V = or_else(r.pull_in, catalogue::default_number("relay.pull_in").value * nominal.si());
        l.off_V = or_else(r.drop_out, catalogue::default_number("relay.drop_out").value * nominal.si());
    }
    l.off_V = std::min(l.off_V, l.on_V);
    l.never = l.coil < 0;
    return l;
}

/// Voltage between two nodes; 0 where it is not defined.
double volts_between(const solve::Solution& s, int plus, int minus) {
    return solve::voltage(s, plus, minus).value_or(0);
}

std::vector<int> islands_now(const State& state, const Setup& setup) {
    std::vector<bool> closed;
    for (const auto& r : setup.circuit.resistors) closed.push_back(r.closed);
    return network::islands(state.drawn.network, closed);
}

bool by_voltage(const Latch& l, double v, bool on) {
    if (v > l.above_V * (1 + in_hand)) return false;
    return on ? v >= l.off_V * (1 - in_hand) : v >= l.on_V * (1 - in_hand);
}

/// Whether a protection keeps on, or comes back.
bool keeps_on(const State& state, const Setup& setup, const solve::Solution& s, const Latch& l, bool on) {
    if (!on && l.stays_off) return false;
    if (l.of == Latch::Of::converter) {
        const auto& port = item(state.drawn.network.converters, l.index);
        if (!on) return volts_between(s, port.in_plus, port.in_minus) > 0;
        return item(s.converter_mode, l.index) != solve::ConverterMode::output_limited;
    }
    const auto& port = item(state.drawn.network.ports, l.index);
    const double v = volts_between(s, port.plus, port.minus);
    if (l.of == Latch::Of::load) return by_voltage(l, v, on);
    const double amps = item(s.battery_A, item(setup.map.battery_of_port, l.index));
    const double through_A = l.of == Latch::Of::charge ? amps : -amps;
    return by_voltage(l, v, on) && through_A <= l.most_A * (1 + in_hand);
}

/// The run input is live: by a signal of the vehicle, else by the voltage that reaches it.
bool run_live(const State& state, const Setup& setup, const solve::Solution& solution,
              const network::TwoPort& port) {
    if (const auto signal = signal_at(state, islands_now(state, setup), port.run)) return *signal;
    return volts_between(solution, port.run, port.in_minus) > state.drawn.nominal_at(port.in_plus).si() / 2;
}

} // namespace

std::vector<Latch> latches_of(const State& state) {
    const Drawn& d = state.drawn;
    std::vector<Latch> all;
    for (int i = 0; i < count(d.network.converters); ++i) {
        const auto& port = item(d.network.converters, i);
        if (state.forced(port.component)) continue;
        if (const auto* c = network::parameters<plan::DriveCharger>(d.in, port))
            all.push_back(charger_latch(state, i, *c));
    }
    for (int i = 0; i < count(d.network.branches); ++i) {
        const auto& b = item(d.network.branches, i);
        if (b.kind != network::BranchKind::relay || state.forced(b.component)) continue;
        if (const auto* r = network::parameters<plan::Relay>(d.in, b))
            all.push_back(relay_latch(state, i, *r));
    }
    return all;
}

bool wanted(const State& state, const Setup& setup, const solve::Solution& solution, const Latch& l,
            bool on) {
    if (l.never) return false;
    switch (l.of) {
    case Latch::Of::charger: {
        const auto& port = item(state.drawn.network.converters, l.index);
        return by_voltage(l, volts_between(solution, port.in_plus, port.in_minus), on) &&
               (!l.needs_live || run_live(state, setup, solution, port));
    }
    case Latch::Of::load:
    case Latch::Of::discharge:
    case Latch::Of::charge:
    case Latch::Of::converter:
        return keeps_on(state, setup, solution, l, on);
    case Latch::Of::contact:
        break;
    }
    const auto& coil = item(state.drawn.network.ports, l.coil);
    // A coil may be wired either way round.
    if (by_voltage(l, std::abs(volts_between(solution, coil.plus, coil.minus)), on)) return true;
    // A vehicle's signal has no source in the drawing, so the voltage at the coil does not show it.
    const auto islands = islands_now(state, setup);
    for (const int node : {coil.plus, coil.minus})
        if (const auto signal = signal_at(state, islands, node); signal && *signal) return true;
    return false;
}

} // namespace fl::condition
