#include "core/condition/drawn.h"

#include <algorithm>

namespace fl::condition {
namespace {

using catalogue::default_number;
using catalogue::default_of;

/// May run in this state by itself: when it runs, and how the engine is.
bool runs_in(const State& state, plan::RunsWhen runs, plan::LoadsOn on) {
    using enum plan::RunsWhen;
    if (runs == mains && !state.condition.mains) return false;
    switch (on) {
    case plan::LoadsOn::all:
        return state.engine_on() ? runs != parked && runs != night : runs != driving;
    case plan::LoadsOn::driving:
        return runs == any || runs == driving;
    case plan::LoadsOn::parked:
        return runs == any || runs == parked || runs == mains;
    case plan::LoadsOn::night:
        return runs == any || runs == night || runs == mains;
    case plan::LoadsOn::none:
    case plan::LoadsOn::listed:
        return false;
    }
    return false;
}

/// Runs for so short a time that it never counts among lasting currents.
bool is_short(const plan::Load& load) {
    if (load.duty == plan::Duty::continuous) return false;
    if (load.duty == plan::Duty::momentary) return true;
    return load.on_time && *load.on_time < default_of<Time>("load.continuous_from").value;
}

bool is_on(const State& state, plan::ComponentId id, plan::RunsWhen runs) {
    if (const auto forced = state.forced(id)) return *forced;
    const auto& listed = state.condition.listed;
    if (state.condition.loads == plan::LoadsOn::listed)
        return std::find(listed.begin(), listed.end(), id) != listed.end();
    return runs_in(state, runs, state.condition.loads);
}

bool is_on(const State& state, plan::ComponentId id, const plan::Load& load) {
    if (state.forced(id) || state.condition.loads == plan::LoadsOn::listed)
        return is_on(state, id, load.runs);
    // What the vehicle itself takes runs with its engine and can't be switched off.
    if (load.purpose == plan::Purpose::vehicle && load.runs == plan::RunsWhen::any) return state.engine_on();
    return is_on(state, id, load.runs) && (state.brief() || !is_short(load));
}

/// The voltage below which a load of constant power is a resistance: never so low that the answer could be
/// the collapsed one.
double knee_volts(const plan::Entered<Voltage>& knee, const plan::Entered<Voltage>& lowest, Voltage nominal) {
    const double least = default_number("load.knee").value * nominal.si();
    return std::max(least, or_else(knee, or_else(lowest, least)));
}

void set_law(solve::Load& out, const plan::Load& load, Voltage nominal) {
    const double n = std::max(load.count, 1), V = nominal.si();
    const double A = or_else(load.current, 0), W = or_else(load.power, 0), ohm = or_else(load.resistance, 0);
    // A figure of another sort than the law's is taken at nominal voltage.
    const double at_nominal_A = A > 0 ? A : W > 0 ? W / V : ohm > 0 ? V / ohm : 0;
    switch (load.law) {
    case plan::LoadLaw::current:
        out.law = solve::LoadLaw::current;
        out.value = at_nominal_A * n;
        break;
    case plan::LoadLaw::power:
        out.law = solve::LoadLaw::power;
        out.value = (W > 0 ? W : at_nominal_A * V) * n;
        break;
    case plan::LoadLaw::resistance:
        out.law = solve::LoadLaw::resistance;
        if (at_nominal_A > 0) out.value = (ohm > 0 ? ohm : V / at_nominal_A) / n;
        break;
    }
    if (out.law != solve::LoadLaw::resistance) out.knee_V = knee_volts(load.knee, load.lowest, nominal);
    out.lowest_V = or_else(load.lowest, 0);
    out.highest_V = or_else(load.highest, solve::unlimited);
    out.on = out.on && out.value > 0; // of a load that nobody gave a figure for nothing is known
}

void set_inverter(solve::Load& out, const State& state, const plan::Inverter& i, Voltage nominal,
                  int plus_node) {
    const double rated_W = or_else(i.rated_power, 0);
    const double surge_W = or_else(i.surge_power, rated_W * default_number("inverter.surge").value);
    const double surge_s =
        std::max(or_else(i.surge_time, 0), default_of<Time>("inverter.surge_time").value.si());
    const bool surges = state.brief() && or_else(state.condition.duration, 0) <= surge_s * (1 + 1e-9);
    const double used_W = surges ? surge_W : or_else(i.used_power, rated_W);
    const double efficiency = or_else(i.efficiency, default_number("inverter.efficiency_full").value);
    const double idle_W =
        or_else(i.idle_power, rated_W / 1000 * default_number("inverter.idle_per_kW").value);
    const plan::Battery* b = state.drawn.battery_at(plus_node);
    const bool lithium = b && b->chemistry == plan::Chemistry::lifepo4;
    out.law = solve::LoadLaw::power;
    out.value = used_W / std::clamp(efficiency, 0.05, 1.0) + idle_W;
    out.lowest_V = or_else(i.stop_voltage,
                           default_volts(lithium ? "inverter.stop_lithium" : "inverter.stop_lead", nominal));
    out.knee_V = knee_volts({}, {}, nominal);
    out.highest_V = or_else(i.highest_input, default_volts("inverter.greatest_input", nominal));
    out.on = out.on && out.value > 0;
}

void set_coil(solve::Load& out, const plan::Relay& r, Voltage nominal) {
    const bool plug_in = r.control == plan::RelayControl::coil && (!r.rating || *r.rating <= Current::si(40));
    const double usual_A =
        default_of<Current>(plug_in ? "relay.plug_in_coil" : "relay.solenoid_coil").value.si();
    const double coil_A = or_else(r.coil_current, usual_A);
    out.law = solve::LoadLaw::resistance;
    out.value = coil_A > 0 ? nominal.si() / coil_A : 0;
    out.highest_V = or_else(r.coil_highest, default_volts("relay.coil_highest", nominal));
    out.on = out.value > 0;
}

/// One unit charges from mains and inverts from the battery: with mains there it passes that on.
bool passes_mains_on(const State& state, const network::Port& port) {
    const plan::Component* c = state.drawn.in.components.find(port.component);
    const auto* unit = c && port.element >= 0 ? std::get_if<plan::Unit>(&c->with) : nullptr;
    return state.condition.mains && unit &&
           std::any_of(unit->elements.begin(), unit->elements.end(), [](const plan::Element& e) {
               return std::holds_alternative<plan::MainsCharger>(e.with);
           });
}

} // namespace

solve::Load load_of(const State& state, int index) {
    const auto& in = state.drawn.in;
    const auto& port = item(state.drawn.network.ports, index);
    const Voltage nominal = item(state.drawn.references, index).nominal;
    solve::Load out;
    out.plus = port.plus;
    out.minus = port.minus;
    if (const auto* load = network::parameters<plan::Load>(in, port)) {
        out.on = is_on(state, port.component, *load);
        set_law(out, *load, nominal);
    } else if (const auto* inverter = network::parameters<plan::Inverter>(in, port)) {
        out.on = is_on(state, port.component, inverter->runs) && !passes_mains_on(state, port);
        set_inverter(out, state, *inverter, inverter->nominal ? *inverter->nominal : nominal, port.plus);
    } else if (const auto* starter = network::parameters<plan::StarterMotor>(in, port)) {
        // Turns only where a condition says so: it is forced on while cranking.
        out.on = state.forced(port.component).value_or(false);
        out.value = or_else(starter->running, default_of<Resistance>("starter_motor.running").value.si() *
                                                  blocks(nominal) * blocks(nominal));
        out.on = out.on && out.value > 0;
    } else if (const auto* relay = network::parameters<plan::Relay>(in, port)) {
        set_coil(out, *relay, nominal);
    }
    return out;
}

} // namespace fl::condition
