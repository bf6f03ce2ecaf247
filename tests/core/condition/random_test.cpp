#include "tests/core/condition/draft.h"
#include "tests/support/property.h"

#include <cmath>

namespace fl::condition {
namespace {

template <class Q>
plan::Entered<Q> maybe(double least, double greatest) {
    switch (*rc::gen::inRange(0, 5)) {
    case 0:
        return {};
    case 1:
        return Q::si(0); // the worst a label can say
    default:
        return Q::si(least + (greatest - least) * *rc::gen::inRange(0, 1001) / 1000.0);
    }
}

plan::Battery some_battery() {
    plan::Battery b;
    b.chemistry =
        *rc::gen::element(plan::Chemistry::lead_agm, plan::Chemistry::lead_flooded, plan::Chemistry::lifepo4);
    b.role = *rc::gen::element(plan::BatteryRole::starter, plan::BatteryRole::service);
    b.capacity = maybe<Charge>(20 * 3600.0, 600 * 3600.0);
    b.resistance = maybe<Resistance>(0.5e-3, 30e-3);
    b.cold_cranking = maybe<Current>(200, 1200);
    return b;
}

plan::Load some_load() {
    plan::Load l;
    l.law = *rc::gen::element(plan::LoadLaw::current, plan::LoadLaw::power, plan::LoadLaw::resistance);
    l.current = maybe<Current>(0.05, 40);
    l.power = maybe<Power>(1, 800);
    l.lowest = maybe<Voltage>(6, 12);
    l.duty = *rc::gen::element(plan::Duty::continuous, plan::Duty::momentary);
    return l;
}

plan::Parameters some_part(int kind) {
    switch (kind) {
    case 0:
        return some_battery();
    case 1: {
        plan::Alternator a;
        a.regulation =
            *rc::gen::element(plan::Regulation::conventional, plan::Regulation::computer_controlled);
        a.rated = maybe<Current>(50, 200);
        return a;
    }
    case 2: {
        plan::DriveCharger c;
        c.output_current = maybe<Current>(10, 60);
        c.efficiency = maybe<Ratio>(0.7, 1);
        c.start_voltage = maybe<Voltage>(11, 14);
        c.stop_voltage = maybe<Voltage>(11, 14);
        return c;
    }
    case 3: {
        plan::Inverter i;
        i.rated_power = maybe<Power>(300, 3000);
        i.efficiency = maybe<Ratio>(0.7, 1);
        return i;
    }
    case 4: {
        plan::Relay r;
        r.control = plan::RelayControl::voltage_sensing;
        r.rating = maybe<Current>(20, 200);
        return r;
    }
    case 5: {
        plan::SolarController s;
        s.panel_power = maybe<Power>(50, 600);
        s.output_current = maybe<Current>(5, 40);
        return s;
    }
    case 6: {
        plan::TakeOffPoint t;
        t.permitted = maybe<Current>(20, 100);
        t.lean_voltage = maybe<Voltage>(12, 13);
        return t;
    }
    case 7: {
        plan::MainsCharger m;
        m.output_current = maybe<Current>(5, 40);
        return m;
    }
    default:
        return some_load();
    }
}

/// A minus bar, and parts whose plus terminals hang on one of two plus bars or on each other.
Draft some_drawing() {
    Draft d;
    if (*rc::gen::arbitrary<bool>()) d.in.basis.joints = false;
    d.in.basis.temperature =
        *rc::gen::element(plan::ConductorTemperature::solved, plan::ConductorTemperature::plain_20C);
    d.part("X1", plan::Busbar{plan::Polarity::minus, 60, {}});
    d.part("X2", plan::Busbar{plan::Polarity::plus, 60, {}});
    d.part("X3", plan::Busbar{plan::Polarity::plus, 60, {}});
    int stud = 0;
    const int parts = *rc::gen::inRange(2, 12);
    for (int i = 0; i < parts; ++i) {
        const std::string name = "P" + std::to_string(i);
        d.part(name, some_part(i == 0 ? 0 : *rc::gen::inRange(0, 12)));
        for (const auto& terminal : plan::terminals(plan::find(d.in, name)->with)) {
            const bool minus = terminal == "-" || terminal == "B-" || terminal == "31";
            const bool far = terminal == "out+" || terminal == "87";
            const std::string bar = minus ? "X1." : far || *rc::gen::inRange(0, 3) == 0 ? "X3." : "X2.";
            const double sizes[] = {0, 1.5, 6, 35};
            d.wire(name + "." + terminal, bar + std::to_string(++stud), *rc::gen::inRange(0, 100) / 10.0,
                   sizes[*rc::gen::inRange(0, 4)]);
        }
    }
    return d;
}

TEST(Condition, every_drawing_has_an_answer_in_every_condition) {
    test::property(300, [] {
        const Draft d = some_drawing();
        const auto network = network::build(d.in);
        const auto drawn = draw(d.in, network);
        std::vector<Solved> all;
        for (const auto& c : conditions(d.in, network)) all.push_back(solve(*drawn, c));
        for (const Solved& s : all) {
            RC_ASSERT(s.runs.size() == network.converters.size());
            const bool said = !s.solution.verdicts.empty();
            RC_ASSERT(s.solution.usable || said); // never silent
            if (!s.solution.usable) continue;
            const auto broken = solve::laws_not_met(s.setup.circuit, s.solution);
            RC_ASSERT(broken.empty());
            for (const double v : s.solution.node_V) RC_ASSERT(std::isfinite(v));
        }
        const auto worst = envelope(network, all);
        for (const auto& e : worst.branch_current)
            RC_ASSERT(std::isfinite(e.value.si()) && e.value.si() >= 0 &&
                      e.condition < static_cast<int>(all.size()));
        for (const auto& e : worst.port_lowest) RC_ASSERT(std::isfinite(e.value.si()));
    });
}

} // namespace
} // namespace fl::condition
