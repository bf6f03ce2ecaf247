#include "core/condition/latches.h"
#include "core/solve/reading.h"

#include <algorithm>

// What lets go by itself. Each begins on and is looked at only after chargers and relays have settled.
namespace fl::condition {
namespace {

using catalogue::default_of;

/// So much above its stop voltage something tries again, for a system of this nominal voltage.
double restart_above(std::string_view id, Voltage nominal) {
    return default_of<Voltage>(id).value.si() * blocks(nominal);
}

/// Its electronics switch it off when the voltage is too low, and on again when it has recovered. A lamp or a
/// motor just runs badly.
bool drops_out(const plan::Load& load) {
    using enum plan::Purpose;
    return load.lowest && (load.purpose == fridge || load.purpose == heater || load.purpose == electronics);
}

void add_load(const State& state, const Setup& setup, int i, std::vector<Latch>& all) {
    const auto& in = state.drawn.in;
    const auto& port = item(state.drawn.network.ports, i);
    const int index = item(setup.map.load_of_port, i);
    if (index < 0 || !item(setup.circuit.loads, index).on || state.forced(port.component)) return;
    const Voltage nominal = item(state.drawn.references, i).nominal;
    Latch l;
    l.of = Latch::Of::load;
    l.index = i;
    l.off_V = item(setup.circuit.loads, index).lowest_V;
    if (const auto* inverter = network::parameters<plan::Inverter>(in, port))
        l.on_V = l.off_V + restart_above("inverter.restart_above_stop",
                                         inverter->nominal ? *inverter->nominal : nominal);
    else if (const auto* load = network::parameters<plan::Load>(in, port); load && drops_out(*load))
        l.on_V = l.off_V + restart_above("load.restart_above_stop", nominal);
    else
        return;
    if (l.off_V > 0) all.push_back(l);
}

/// What a battery's electronics let through for as long as this condition lasts.
double discharge_limit_A(const State& state, const plan::Battery& b) {
    if (!b.discharge_limit) return solve::unlimited; // not known: asked for by an open question
    const double lasting_A = (*b.discharge_limit).si();
    const double pulse_s = or_else(b.pulse_time, default_of<Time>("lithium.pulse_time").value.si());
    if (!state.brief() || or_else(state.condition.duration, 0) > pulse_s * (1 + 1e-9)) return lasting_A;
    return std::max(lasting_A, or_else(b.pulse_limit,
                                       lasting_A * catalogue::default_number("lithium.pulse_factor").value));
}

void add_electronics(const State& state, const Setup& setup, int i, std::vector<Latch>& all) {
    const auto& port = item(state.drawn.network.ports, i);
    const auto* b = network::parameters<plan::Battery>(state.drawn.in, port);
    const int index = item(setup.map.battery_of_port, i);
    if (!b || index < 0 || state.forced(port.component) || !has_electronics(*b)) return;
    const auto& battery = item(setup.circuit.batteries, index);
    Latch l;
    l.index = i;
    l.of = Latch::Of::discharge;
    l.most_A = discharge_limit_A(state, *b);
    l.off_V = or_else(b->cut_off, 0);
    // Asleep it wakes only by a voltage from outside: that of a charger.
    l.on_V = std::max(l.off_V, battery.emf_V);
    if (battery.may_discharge && (l.off_V > 0 || l.most_A < solve::unlimited)) all.push_back(l);
    l = {};
    l.index = i;
    l.of = Latch::Of::charge;
    l.most_A = or_else(b->electronics_charge_limit, solve::unlimited);
    l.stays_off = true;
    if (battery.may_charge && l.most_A < solve::unlimited) all.push_back(l);
}

void add_converter(const State& state, const Setup& setup, int i, std::vector<Latch>& all) {
    const auto& port = item(state.drawn.network.converters, i);
    const auto* plain = network::parameters<plan::Converter>(state.drawn.in, port);
    const int index = item(setup.map.converter_of, i);
    if (!plain || index < 0 || !item(setup.circuit.converters, index).on || state.forced(port.component))
        return;
    if (plain->at_limit != plan::AtLimit::hiccup && plain->at_limit != plan::AtLimit::latch) return;
    Latch l;
    l.of = Latch::Of::converter;
    l.index = i;
    l.most_A = item(setup.circuit.converters, index).out_limit_A;
    l.stays_off = plain->at_limit == plan::AtLimit::latch;
    all.push_back(l);
}

} // namespace

bool has_electronics(const plan::Battery& b) {
    return b.electronics ? *b.electronics : b.chemistry == plan::Chemistry::lifepo4;
}

std::vector<Latch> protections_of(const State& state, const Setup& setup) {
    std::vector<Latch> all;
    for (int i = 0; i < count(state.drawn.network.ports); ++i) {
        add_load(state, setup, i, all);
        add_electronics(state, setup, i, all);
    }
    for (int i = 0; i < count(state.drawn.network.converters); ++i) add_converter(state, setup, i, all);
    return all;
}

void put(const State& state, Setup& setup, const Latch& l, bool on) {
    const auto& ports = state.drawn.network.ports;
    switch (l.of) {
    case Latch::Of::charger:
    case Latch::Of::converter:
        item(setup.circuit.converters, l.index).on = on;
        return;
    case Latch::Of::load:
        item(setup.circuit.loads, item(setup.map.load_of_port, l.index)).on = on;
        return;
    case Latch::Of::discharge:
        item(setup.circuit.batteries, item(setup.map.battery_of_port, l.index)).may_discharge = on;
        return;
    case Latch::Of::charge:
        item(setup.circuit.batteries, item(setup.map.battery_of_port, l.index)).may_charge = on;
        return;
    case Latch::Of::contact:
        break;
    }
    item(setup.circuit.resistors, l.index).closed = on;
    if (l.coil < 0) return;
    const auto* relay = network::parameters<plan::Relay>(state.drawn.in, item(ports, l.coil));
    if (relay && relay->control == plan::RelayControl::voltage_sensing)
        item(setup.circuit.loads, item(setup.map.load_of_port, l.coil)).on = on;
}

LetGo let_go(const State& state, const Setup& setup, const solve::Solution& s, const Latch& l) {
    const auto& net = state.drawn.network;
    const bool two = l.of == Latch::Of::converter || l.of == Latch::Of::charger;
    LetGo out;
    (two ? out.converter : out.port) = l.index;
    const auto volts = [&](int plus, int minus) { return solve::voltage(s, plus, minus).value_or(0); };
    if (l.of == Latch::Of::charger) {
        const auto& port = item(net.converters, l.index);
        out = {LetGo::Of::converter,
               LetGo::Why::voltage_high,
               -1,
               l.index,
               volts(port.in_plus, port.in_minus),
               l.above_V,
               false};
    } else if (l.of == Latch::Of::converter) {
        out.of = LetGo::Of::converter;
        out.why = LetGo::Why::current;
        out.reached = item(s.converter_out_A, l.index);
        out.limit = l.most_A;
    } else if (l.of == Latch::Of::load) {
        const auto& port = item(net.ports, l.index);
        out.of = LetGo::Of::load;
        out.why = LetGo::Why::voltage_low;
        out.reached = volts(port.plus, port.minus);
        out.limit = l.off_V;
    } else {
        const bool charging = l.of == Latch::Of::charge;
        const double amps = item(s.battery_A, item(setup.map.battery_of_port, l.index));
        const auto& port = item(net.ports, l.index);
        out.of = charging ? LetGo::Of::battery_charge : LetGo::Of::battery_discharge;
        const bool by_current = charging || -amps > l.most_A;
        out.why = by_current ? LetGo::Why::current : LetGo::Why::voltage_low;
        out.reached = by_current ? (charging ? amps : -amps) : volts(port.plus, port.minus);
        out.limit = by_current ? l.most_A : l.off_V;
    }
    return out;
}

} // namespace fl::condition
