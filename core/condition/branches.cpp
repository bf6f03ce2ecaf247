#include "core/condition/drawn.h"

#include <algorithm>
#include <string>

namespace fl::condition {
namespace {

using catalogue::default_of;
using network::Branch;
using network::BranchKind;

double ohms(std::string_view id) {
    return default_of<Resistance>(id).value.si();
}

/// How a conductor ends on this component where nothing else is said.
std::string_view usual_termination(const plan::Component& c, const plan::Conductor& w) {
    constexpr double thick_m2 = 10e-6; // does not fit a tab
    if (w.size && w.size.value->area.si() >= thick_m2 * (1 - 1e-9)) return "lug_on_stud";
    switch (c.kind()) {
    case plan::Kind::load:
    case plan::Kind::relay:
    case plan::Kind::fuse_box:
    case plan::Kind::signal_point:
        return "tab";
    case plan::Kind::fuse: {
        const auto& f = std::get<plan::Fuse>(c.with);
        return f.rating && *f.rating > default_of<Current>("fuse.large_blade_to").value ? "lug_on_stud"
                                                                                        : "tab";
    }
    default:
        return "lug_on_stud";
    }
}

/// The joint at one end of a conductor: entered, else by termination, if the job rules count joints.
double end_ohm(const plan::Installation& in, const plan::Conductor& w, int end) {
    const plan::End& e = item(w.ends, end);
    if (e.joint) return (*e.joint).si();
    const plan::TerminalRef& at = end == 0 ? w.from : w.to;
    const plan::Component* c = in.components.find(at.component);
    if (!c) return 0;
    if (const auto* joint = std::get_if<plan::Joint>(&c->with)) {
        // Half of the joint for each of the two conductors a current passes.
        return or_else(joint->resistance, in.basis.joints ? ohms("joint.butt_joint") : 0) / 2;
    }
    if (!in.basis.joints) return 0;
    if (c->kind() == plan::Kind::earth_point) return 0; // counted with the point itself
    const std::string own = "joint." + e.termination;
    if (!e.termination.empty() && catalogue::has_default(own)) return ohms(own);
    return ohms("joint." + std::string(usual_termination(*c, w)));
}

solve::Resistor conductor(const plan::Installation& in, const plan::Conductor& w) {
    solve::Resistor r;
    r.fixed_ohm = end_ohm(in, w, 0) + end_ohm(in, w, 1);
    const auto length = plan::length_of(in, w);
    const auto per_length = catalogue::per_length_of(in, w);
    // What nobody knows adds nothing here; that it is not known is said by the rules.
    if (!length || !per_length) return r;
    r.r20_ohm = (*per_length * *length).si();

    using enum plan::ConductorTemperature;
    if (in.basis.temperature == plain_20C) return r;
    const catalogue::Lie lie = catalogue::lie_of(in, w);
    if (in.basis.temperature == rated) {
        r.at_C = (lie.table ? lie.table->conductor_limit : lie.insulation->limit).celsius();
        return r;
    }
    r.at_C = lie.ambient.celsius();
    if (!lie.table) return r;
    const auto tabulated = catalogue::tabulated(*lie.table, *w.size);
    if (!tabulated) return r;
    solve::Thermal heat;
    heat.ambient_C = lie.ambient.celsius();
    heat.rated_A = tabulated->si() * catalogue::grouping_factor(lie.loaded_conductors).value;
    heat.reference_C = lie.table->reference_ambient.celsius();
    heat.limit_C = lie.table->conductor_limit.celsius();
    r.thermal = heat;
    return r;
}

/// Resistance of link and holder.
double fuse_ohm(const plan::Installation& in, const plan::Entered<Resistance>& entered,
                const std::string& type, const plan::Entered<Current>& rating) {
    if (entered) return (*entered).si();
    if (!in.basis.joints || !rating || *rating <= Current::si(0)) return 0;
    return catalogue::fuse_resistance(type, *rating).value.si();
}

/// Voltage lost at rated current, as a resistance.
double drop_ohm(std::string_view id, const plan::Entered<Current>& rating) {
    if (!rating || *rating <= Current::si(0)) return 0;
    return (default_of<Voltage>(id).value / *rating).si();
}

double relay_ohm(const plan::Relay& r) {
    const bool plug_in = r.control == plan::RelayControl::coil && (!r.rating || *r.rating <= Current::si(40));
    return ohms(plug_in ? "relay.plug_in" : "relay.solenoid");
}

/// The earth point stands where the vehicle's own battery or alternator is earthed: no body between them.
bool is_vehicle_earth(const plan::Installation& in, const network::Network& network, int node) {
    const auto is_vehicle_minus = [&](int other) {
        return std::any_of(network.ports.begin(), network.ports.end(), [&](const network::Port& p) {
            if (p.minus != other) return false;
            const auto* b = network::parameters<plan::Battery>(in, p);
            return p.kind == network::PortKind::alternator || p.kind == network::PortKind::take_off_point ||
                   (b && b->role == plan::BatteryRole::starter);
        });
    };
    if (is_vehicle_minus(node)) return true;
    return std::any_of(network.branches.begin(), network.branches.end(), [&](const Branch& b) {
        if (b.kind != BranchKind::conductor) return false;
        return (b.a == node && is_vehicle_minus(b.b)) || (b.b == node && is_vehicle_minus(b.a));
    });
}

double earth_ohm(const plan::Installation& in, const network::Network& network, const Branch& b,
                 const plan::EarthPoint& e) {
    const plan::Component* c = in.components.find(b.component);
    const bool found = c && c->origin == plan::Origin::as_found;
    const bool counts = in.basis.joints;
    const double joint =
        or_else(e.joint, counts ? ohms(found ? "joint.earth_as_found" : "joint.earth_stud") : 0);
    const int at = network.nodes[static_cast<std::size_t>(b.a)].body ? b.b : b.a;
    if (e.body || !counts || is_vehicle_earth(in, network, at)) return joint + or_else(e.body, 0);
    return joint + ohms(catalogue::rules_of(in).nominal > Voltage::si(18) ? "body.truck_frame" : "body.van");
}

} // namespace

solve::Resistor resistor_of(const plan::Installation& in, const network::Network& network, const Branch& b) {
    solve::Resistor r;
    if (const plan::Conductor* w = in.conductors.find(b.conductor)) {
        r = conductor(in, *w);
    } else if (const plan::Way* way = network::way_of(in, b)) {
        r.fixed_ohm = fuse_ohm(in, way->resistance, way->type, way->rating);
    } else if (const auto* fuse = network::parameters<plan::Fuse>(in, b)) {
        r.fixed_ohm = fuse_ohm(in, fuse->resistance, fuse->type, fuse->rating);
    } else if (const auto* breaker = network::parameters<plan::Breaker>(in, b)) {
        r.fixed_ohm =
            or_else(breaker->resistance,
                    in.basis.joints ? drop_ohm("breaker.thermal_drop_at_rated", breaker->rating) : 0);
    } else if (const auto* s = network::parameters<plan::Switch>(in, b)) {
        r.fixed_ohm = or_else(s->resistance, in.basis.joints ? ohms("switch.master") : 0);
    } else if (const auto* relay = network::parameters<plan::Relay>(in, b)) {
        r.fixed_ohm = or_else(relay->resistance, in.basis.joints ? relay_ohm(*relay) : 0);
    } else if (const auto* shunt = network::parameters<plan::Shunt>(in, b)) {
        r.fixed_ohm =
            or_else(shunt->resistance, in.basis.joints ? drop_ohm("shunt.drop_at_rated", shunt->rating) : 0);
    } else if (const auto* earth = network::parameters<plan::EarthPoint>(in, b)) {
        r.fixed_ohm = earth_ohm(in, network, b, *earth);
    }
    r.a = b.a;
    r.b = b.b;
    return r;
}

solve::Diode diode_of(const Drawn& drawn, const Branch& b) {
    const auto* isolator = network::parameters<plan::Isolator>(drawn.in, b.component, b.element);
    const Voltage drop =
        isolator && isolator->drop ? *isolator->drop : default_of<Voltage>("isolator.drop").value;
    const double rated_A = std::max(1.0, or_else(isolator ? isolator->rating : plan::Entered<Current>{},
                                                 default_of<Current>("isolator.rating").value.si()));
    constexpr double least_ohm = 1e-5; // a law without any slope has no one answer
    solve::Diode d;
    d.a = b.a;
    d.b = b.b;
    d.drop_V = drop.si() * catalogue::default_number("isolator.share_at_nothing").value;
    d.ohm = std::max(least_ohm,
                     (drop.si() - d.drop_V) / rated_A + (isolator ? or_else(isolator->resistance, 0) : 0));
    return d;
}

bool is_closed(const State& state, const Branch& b) {
    const auto& in = state.drawn.in;
    const auto forced = state.forced(b.component);
    if (const plan::Way* way = network::way_of(in, b)) return way->fitted;
    if (const auto* fuse = network::parameters<plan::Fuse>(in, b))
        return fuse->fitted && forced.value_or(true);
    if (const auto* s = network::parameters<plan::Switch>(in, b)) {
        // An emergency link is closed only in a condition that says so.
        return forced.value_or(s->closed && s->role != plan::SwitchRole::emergency_link);
    }
    if (b.kind == BranchKind::isolator) return false;
    if (b.kind == BranchKind::relay) return forced.value_or(false);
    return b.kind == BranchKind::breaker ? forced.value_or(true) : true;
}

} // namespace fl::condition
