#include "core/condition/drawn.h"

#include <algorithm>
#include <cmath>

namespace fl::condition {
namespace {

using catalogue::default_number;
using catalogue::default_of;
using network::PortKind;

/// Who the vehicle is by the rule set, in the names of the defaults.
struct Vehicle {
    std::string_view cold_current, alternator;
};
Vehicle vehicle(const plan::Installation& in) {
    const auto& rules = catalogue::rules_of(in);
    if (!rules.body_return) return {"starter_battery.narrow_boat.cold_current", "alternator.boat.rated"};
    if (rules.nominal > Voltage::si(18))
        return {"starter_battery.truck.cold_current", "alternator.truck.rated"};
    return {"starter_battery.van.cold_current", "alternator.van.rated"};
}

/// State of charge of a battery in this condition; empty for a starter battery nobody said anything about.
std::optional<double> charge_of(const State& state, const network::Port& port, const plan::Battery& b) {
    for (const auto& s : state.condition.batteries)
        if (s.battery == port.component) return s.charge.si();
    if (b.role == plan::BatteryRole::starter) return {};
    return or_else(state.condition.state_of_charge, 1);
}

/// The highest voltage that alternators hold this battery at by closed ways; where none is joined to it so,
/// that of the first there is. Empty without one.
std::optional<double> held_at(const State& state, const network::Port& battery) {
    if (!state.engine_on() || state.brief()) return {};
    const Drawn& d = state.drawn;
    std::optional<double> highest, first;
    for (const auto& p : d.network.ports) {
        if (p.kind != PortKind::alternator) continue;
        const double volts = vehicle_set_voltage(state, p);
        first = first.value_or(volts);
        if (item(d.islands, p.plus) == item(d.islands, battery.plus))
            highest = std::max(highest.value_or(volts), volts);
    }
    return highest ? highest : first;
}

double discharge_ohm(const plan::Installation& in, const plan::Battery& b, double capacity_Ah, double n) {
    if (b.resistance && *b.resistance > Resistance::si(0)) return (*b.resistance).si();
    if (b.cold_cranking || b.role == plan::BatteryRole::starter) {
        const double cold_A =
            or_else(b.cold_cranking, default_of<Current>(vehicle(in).cold_current).value.si());
        const double law_V = default_of<Voltage>("starter_battery.resistance_times_cold_current").value.si();
        if (cold_A > 0) return law_V * n / cold_A;
    }
    return catalogue::chemistry(b.chemistry).resistance_ohm_Ah_per_12V * n / capacity_Ah;
}

double rated_A(const plan::Installation& in, const plan::Alternator& a) {
    const double entered = or_else(a.rated, 0);
    return entered > 0 ? entered : default_of<Current>(vehicle(in).alternator).value.si();
}

/// Stiff enough to hold a bus to a microvolt per ampere, soft enough to stand beside another.
constexpr double held_droop_ohm = 1e-6;

/// Droop so that regulators in parallel have one answer; an assumption, the same share for each.
double droop_ohm(double set_V, double rated_A) {
    return std::max(held_droop_ohm, default_number("regulator.droop").value * set_V / rated_A);
}

double alternator_volts(const State& state, const plan::Alternator& a, Voltage nominal) {
    using enum plan::AlternatorState;
    const double usual =
        blocks(nominal) < 1.5
            ? default_of<Voltage>("alternator.set_voltage_12").value.si() * blocks(nominal)
            : default_of<Voltage>("alternator.set_voltage_24").value.si() * blocks(nominal) / 2;
    const double set_V = or_else(a.set_voltage, usual);
    if (a.regulation == plan::Regulation::conventional) return set_V;
    const auto by_default = [&](std::string_view id) { return default_volts(id, nominal); };
    switch (state.condition.alternator) {
    case lean:
        return or_else(a.lean_voltage, by_default("controlled_alternator.cruise"));
    case overrun:
        return or_else(a.overrun_voltage, by_default("controlled_alternator.overrun"));
    case idle:
        return or_else(a.idle_voltage, by_default("controlled_alternator.idle"));
    case off:
    case plan::AlternatorState::normal:
    case held:
        break;
    }
    return set_V;
}

double take_off_volts(const State& state, const plan::TakeOffPoint& t, Voltage nominal) {
    if (!state.engine_on() || state.condition.alternator == plan::AlternatorState::off)
        return or_else(t.rest_voltage,
                       catalogue::rest_voltage(plan::Chemistry::lead_flooded, nominal, Ratio::si(1)).si());
    if (state.condition.alternator == plan::AlternatorState::lean)
        return or_else(t.lean_voltage, default_volts("controlled_alternator.cruise", nominal));
    if (state.condition.alternator == plan::AlternatorState::overrun && t.lean_voltage)
        return default_volts("controlled_alternator.overrun", nominal);
    return or_else(t.running_voltage, default_volts("alternator.set_voltage_12", nominal));
}

solve::Regulator alternator(const State& state, const network::Port& port, const plan::Alternator& a) {
    const auto& in = state.drawn.in;
    const bool idle = state.condition.engine == plan::Engine::idle;
    const double share = idle ? or_else(a.hot_idle_share, default_number("alternator.hot_idle").value)
                              : or_else(a.hot_share, default_number("alternator.hot").value);
    solve::Regulator r;
    r.set_V = vehicle_set_voltage(state, port);
    r.droop_ohm = droop_ohm(r.set_V, rated_A(in, a));
    r.limit_A = rated_A(in, a) * share;
    r.on = state.engine_on() && state.condition.alternator != plan::AlternatorState::off;
    return r;
}

solve::Regulator take_off(const State& state, const network::Port& port, const plan::TakeOffPoint& t) {
    constexpr double usual_A = 100; // what the least droop is reckoned from where the point has no figure
    solve::Regulator r;
    r.set_V = vehicle_set_voltage(state, port);
    // The vehicle behind the point is not limited by it: its permitted current is a rule's business.
    r.droop_ohm = or_else(t.resistance, 0) + droop_ohm(r.set_V, std::max(1.0, or_else(t.permitted, usual_A)));
    r.on = state.engine_on() || t.supplied == plan::Supplied::live_always ||
           t.supplied == plan::Supplied::unknown;
    return r;
}

/// Charging voltage for the battery a charger's output leads to.
double charging_volts(const State& state, int node, Voltage nominal) {
    const plan::Battery* b = state.drawn.battery_at(node);
    const auto& c = catalogue::chemistry(b ? b->chemistry : plan::Chemistry::lead_flooded);
    return c.absorption_per_cell.si() * c.cells_per_12V * blocks(nominal);
}

double capacity_Ah(const plan::Battery& b) {
    const double c = or_else(b.capacity, 0) / 3600;
    return c > 0 ? c : default_of<Charge>("battery.capacity").value.si() / 3600;
}

/// Greatest output of a charger that nobody gave a figure for: the usual rate for its battery.
double usual_charger_A(const State& state, int node) {
    const plan::Battery* b = state.drawn.battery_at(node);
    if (!b) return 0;
    const bool lithium = b->chemistry == plan::Chemistry::lifepo4;
    return capacity_Ah(*b) *
           default_number(lithium ? "mains_charger.rate_lithium" : "mains_charger.rate_lead_greatest").value;
}

solve::Regulator mains_charger(const State& state, const network::Port& port, const plan::MainsCharger& c) {
    solve::Regulator r;
    r.set_V = or_else(c.set_voltage, charging_volts(state, port.plus, state.drawn.nominal_at(port.plus)));
    r.limit_A = or_else(c.output_current, usual_charger_A(state, port.plus));
    r.on = state.condition.mains && r.limit_A > 0;
    r.droop_ohm = droop_ohm(r.set_V, std::max(r.limit_A, 1.0));
    return r;
}

solve::Regulator solar(const State& state, const network::Port& port, const plan::SolarController& c) {
    solve::Regulator r;
    r.set_V = or_else(c.set_voltage, charging_volts(state, port.plus, state.drawn.nominal_at(port.plus)));
    // Full sun: what the wires must carry, not what a day yields.
    const double efficiency = or_else(c.efficiency, default_number("solar.controller_efficiency").value);
    if (c.panel_power) r.limit_W = (*c.panel_power).si() * efficiency;
    if (c.output_current) r.limit_A = (*c.output_current).si();
    const double greatest_A = std::min(r.limit_A, r.limit_W / r.set_V);
    r.on = state.condition.sun && greatest_A > 0 && std::isfinite(greatest_A);
    r.droop_ohm = droop_ohm(r.set_V, r.on ? greatest_A : 1.0);
    return r;
}

} // namespace

StringOhms string_ohms(const State& state, const network::Port& port, const plan::Battery& b) {
    const auto& in = state.drawn.in;
    const double n = blocks(nominal_of_source(in, state.drawn.network, port));
    const double s = std::clamp(charge_of(state, port, b).value_or(1), 0.0, 1.0);
    const int strings = std::max(b.parallel, 1);
    const double links = or_else(b.link, 0) * std::max(b.series - 1, 0);
    const double discharge = discharge_ohm(in, b, capacity_Ah(b), n) * strings + links;
    constexpr double nearly_full = 0.01; // the law's pole at full charge: 1 % from it nothing more flows
    const double k = catalogue::chemistry(b.chemistry).charge_K_ohm_Ah_per_12V;
    return {discharge, discharge + strings * k * n / (capacity_Ah(b) * std::max(1 - s, nearly_full))};
}

bool too_cold_to_charge(const State& state, const plan::Battery& b) {
    constexpr double freezing_C = 0; // cells of this kind are plated with lithium when charged below
    return b.chemistry == plan::Chemistry::lifepo4 && b.low_temperature_protection &&
           *b.low_temperature_protection && state.condition.ambient &&
           (*state.condition.ambient).celsius() < freezing_C;
}

solve::Battery battery_of(const State& state, const network::Port& port) {
    const auto& in = state.drawn.in;
    const auto& b = *network::parameters<plan::Battery>(in, port);
    const Voltage nominal = nominal_of_source(in, state.drawn.network, port);
    const auto charge = charge_of(state, port, b);
    const double s = std::clamp(charge.value_or(1), 0.0, 1.0);

    solve::Battery out;
    out.plus = port.plus;
    out.minus = port.minus;
    out.emf_V = catalogue::rest_voltage(b.chemistry, nominal, Ratio::si(s)).si();
    // While driving for long the starter battery has settled to what the alternator holds; it gives its
    // charge for minutes, not for a journey, so it must not hide what the alternator is asked for.
    if (const auto held = held_at(state, port); held && !charge) out.emf_V = std::min(out.emf_V, *held);
    const StringOhms ohms = string_ohms(state, port, b);
    const double link_ohm = or_else(b.link, 0);
    out.discharge_ohm = ladder(b.parallel, ohms.discharge, link_ohm, b.take_off).ohm;
    out.charge_ohm = ladder(b.parallel, ohms.charge, link_ohm, b.take_off).ohm;
    out.may_charge = !too_cold_to_charge(state, b);
    out.connected = state.forced(port.component).value_or(true);
    return out;
}

double vehicle_set_voltage(const State& state, const network::Port& port) {
    const auto& in = state.drawn.in;
    if (state.condition.alternator == plan::AlternatorState::held && state.condition.held)
        return (*state.condition.held).si();
    const Voltage nominal = nominal_of_source(in, state.drawn.network, port);
    if (const auto* a = network::parameters<plan::Alternator>(in, port))
        return alternator_volts(state, *a, nominal);
    if (const auto* t = network::parameters<plan::TakeOffPoint>(in, port))
        return take_off_volts(state, *t, nominal);
    return nominal.si();
}

solve::Regulator regulator_of(const State& state, const network::Port& port) {
    const auto& in = state.drawn.in;
    solve::Regulator r;
    if (const auto* a = network::parameters<plan::Alternator>(in, port))
        r = alternator(state, port, *a);
    else if (const auto* t = network::parameters<plan::TakeOffPoint>(in, port))
        r = take_off(state, port, *t);
    else if (const auto* m = network::parameters<plan::MainsCharger>(in, port))
        r = mains_charger(state, port, *m);
    else if (const auto* s = network::parameters<plan::SolarController>(in, port))
        r = solar(state, port, *s);
    r.plus = port.plus;
    r.minus = port.minus;
    const bool vehicle = port.kind == PortKind::alternator || port.kind == PortKind::take_off_point;
    if (vehicle && state.condition.alternator == plan::AlternatorState::held && state.condition.held) {
        r.on = r.holds = true;
        r.droop_ohm = held_droop_ohm;
    }
    if (const auto forced = state.forced(port.component)) r.on = *forced;
    r.on = r.on && r.set_V > 0 && r.limit_A > 0 && r.limit_W > 0;
    return r;
}

} // namespace fl::condition
