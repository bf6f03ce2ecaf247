#pragma once

#include "core/catalogue/catalogue.h"
#include "core/condition/condition.h"

#include <gtest/gtest.h>

#include <string>
#include <string_view>
#include <utility>

namespace fl::condition {

/// Draws an installation for a test, a line a part.
struct Draft {
    plan::Installation in;

    /// Plain copper at 20 °C, no resistance that is not entered: what a formula by hand counts.
    static Draft plain() {
        Draft d;
        d.in.basis.temperature = plan::ConductorTemperature::plain_20C;
        d.in.basis.joints = false;
        return d;
    }

    plan::ComponentId part(std::string designation, plan::Parameters with) {
        plan::Component c;
        c.id = plan::ComponentId{in.next_id++};
        c.designation = std::move(designation);
        c.with = std::move(with);
        in.components = in.components.with(c);
        return c.id;
    }
    /// "G1.+", that part's terminal.
    plan::TerminalRef at(std::string_view where) const {
        const auto dot = where.find('.');
        const auto* c = plan::find(in, where.substr(0, dot));
        EXPECT_NE(c, nullptr) << where;
        return {c ? c->id : plan::ComponentId{}, std::string(where.substr(dot + 1))};
    }
    /// A conductor; joints in mΩ, all at its first end. No size = nothing but its joints.
    plan::ConductorId wire(std::string_view from, std::string_view to, double length_m = 0, double mm2 = 0,
                           double joints_mohm = 0) {
        plan::Conductor w;
        w.id = plan::ConductorId{in.next_id++};
        w.designation = "W" + std::to_string(w.id.value);
        w.from = at(from);
        w.to = at(to);
        if (mm2 > 0) {
            w.length = Length::si(length_m);
            w.size = WireSize::mm2(mm2);
        }
        w.ends[0].joint = Resistance::si(joints_mohm / 1e3);
        w.ends[1].joint = Resistance::si(0);
        in.conductors = in.conductors.with(w);
        return w.id;
    }
    plan::ConductorId signal(std::string_view from, std::string_view to,
                             plan::Supplied supplied = plan::Supplied::unknown) {
        const auto id = wire(from, to, 1, 0.75);
        plan::Conductor w = *in.conductors.find(id);
        w.role = plan::Role::signal;
        w.supplied = supplied;
        in.conductors = in.conductors.with(w);
        return id;
    }
};

/// The state of charge at which a 12 V battery rests at this voltage.
inline Ratio charge_at(plan::Chemistry chemistry, double rest_V) {
    double low = 0, high = 1;
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        const auto v = catalogue::rest_voltage(chemistry, Voltage::si(12), Ratio::si(middle));
        (v.si() < rest_V ? low : high) = middle;
    }
    return Ratio::si(low);
}

inline plan::Battery battery(plan::Chemistry chemistry, double mohm,
                             plan::BatteryRole role = plan::BatteryRole::service) {
    plan::Battery b;
    b.chemistry = chemistry;
    b.role = role;
    b.nominal = Voltage::si(12);
    b.capacity = Charge::si(200 * 3600.0);
    b.resistance = Resistance::si(mohm / 1e3);
    return b;
}

inline plan::Load amperes(double a) {
    plan::Load l;
    l.law = plan::LoadLaw::current;
    l.current = Current::si(a);
    return l;
}
inline plan::Load watts(double w) {
    plan::Load l;
    l.law = plan::LoadLaw::power;
    l.power = Power::si(w);
    return l;
}
inline plan::Load ohms(double r) {
    plan::Load l;
    l.law = plan::LoadLaw::resistance;
    l.resistance = Resistance::si(r);
    return l;
}
template <class P>
P with_mohm(double mohm) {
    P p;
    p.resistance = Resistance::si(mohm / 1e3);
    return p;
}

/// One condition of an installation, solved, asked by designation.
struct Answer {
    const plan::Installation& in;
    network::Network network;
    Solved solved;

    Answer(const plan::Installation& installation, const plan::Condition& condition)
        : in(installation)
        , network(network::build(installation))
        , solved(solve(installation, network, condition)) {
        EXPECT_TRUE(solved.solution.usable);
        EXPECT_TRUE(solve::laws_not_met(solved.setup.circuit, solved.solution).empty());
    }

    int port(std::string_view designation) const {
        const auto* c = plan::find(in, designation);
        for (std::size_t i = 0; c && i < network.ports.size(); ++i)
            if (network.ports[i].component == c->id) return static_cast<int>(i);
        ADD_FAILURE() << "no port " << designation;
        return 0;
    }
    double volts(std::string_view designation) const {
        const auto v = port_voltage(network, solved, port(designation));
        EXPECT_TRUE(v) << designation;
        return v ? v->si() : 0;
    }
    /// Drawn by a load; delivered by a source.
    double amperes(std::string_view designation) const {
        const auto at = static_cast<std::size_t>(port(designation));
        const auto pick = [&](const std::vector<double>& of, const std::vector<int>& map) {
            return of[static_cast<std::size_t>(map[at])];
        };
        const auto& m = solved.setup.map;
        if (m.load_of_port[at] >= 0) return pick(solved.solution.load_A, m.load_of_port);
        if (m.regulator_of_port[at] >= 0) return pick(solved.solution.regulator_A, m.regulator_of_port);
        return -pick(solved.solution.battery_A, m.battery_of_port);
    }
    double amperes(plan::ConductorId wire) const {
        const int r = solved.setup.map.resistor_of_branch[static_cast<std::size_t>(network.branch_of(wire))];
        return r < 0 ? 0 : solved.solution.resistor_A[static_cast<std::size_t>(r)];
    }
    double input_volts(std::size_t converter = 0) const {
        const auto& c = network.converters[converter];
        const auto& v = solved.solution.node_V;
        return v[static_cast<std::size_t>(c.in_plus)] - v[static_cast<std::size_t>(c.in_minus)];
    }
    double input_amperes(std::size_t converter = 0) const {
        return solved.solution.converter_in_A[converter];
    }
    Runs runs(std::size_t converter = 0) const { return solved.runs[converter]; }
};

} // namespace fl::condition
