#include "core/catalogue/lie.h"
#include "core/quantity/limit.h"
#include "core/rules/list.h"

#include <algorithm>
#include <cmath>

// Does charging while driving start, stop and stay within what its parts can give and take?

namespace fl::rules {
namespace {

using network::BranchKind;
using network::PortKind;

/// Live branches, all contacts closed, without branch `but`.
std::vector<bool> live_without(const Seen& facts, int but) {
    auto usable = facts.live;
    if (but >= 0) usable[at(but)] = false;
    return usable;
}

bool is_controlled(const Facts& facts, const network::Port& p) {
    if (const auto* a = network::parameters<plan::Alternator>(facts.installation, p))
        return a->regulation == plan::Regulation::computer_controlled;
    if (const auto* t = network::parameters<plan::TakeOffPoint>(facts.installation, p))
        return t->lean_voltage && t->running_voltage && *t->lean_voltage < *t->running_voltage;
    return false;
}

} // namespace

void relay_on_controlled_alternator(const Seen& facts, std::vector<Finding>& out) {
    const auto& net = facts.network;
    for (std::size_t b = 0; b < net.branches.size(); ++b) {
        const auto& relay = net.branches[b];
        if (relay.kind != BranchKind::relay || as_found(facts, relay.component)) continue;
        const auto usable = live_without(facts, static_cast<int>(b));
        const auto side_a = reached(net, {relay.a}, usable), side_b = reached(net, {relay.b}, usable);
        if (side_a[at(relay.b)]) continue; // joined by another way too
        for (const auto& [vehicle, service] : {std::pair{&side_a, &side_b}, {&side_b, &side_a}}) {
            plan::ComponentId source, battery;
            for (const auto& p : net.ports) {
                if ((*vehicle)[at(p.plus)] && is_controlled(facts, p)) source = p.component;
                if ((*service)[at(p.plus)] && p.kind == PortKind::battery) battery = p.component;
            }
            if (!source || !battery) continue;
            Finding f = make(facts, "relay-on-controlled-alternator");
            f.subjects = {plan::Subject::of(relay.component), plan::Subject::of(source),
                          plan::Subject::of(battery)};
            f.values["source"] = designation(facts, source);
            f.values["battery"] = designation(facts, battery);
            out.push_back(std::move(f));
        }
    }
}

void run_signal_always_live(const Seen& facts, std::vector<Finding>& out) {
    const auto& net = facts.network;
    for (const auto& c : net.converters) {
        const auto* charger = network::parameters<plan::DriveCharger>(facts.installation, c);
        if (!charger || c.run < 0 || (charger->needs_run_signal && !*charger->needs_run_signal)) continue;
        // Whatever feeds it through wires and fuses alone is there all the time; a switch or relay contact in
        // between is not walked through.
        std::vector<bool> usable(net.branches.size());
        for (std::size_t b = 0; b < usable.size(); ++b)
            usable[b] = net.branches[b].kind == BranchKind::conductor || protect::is_device(net.branches[b]);
        const auto there = reached(net, {c.run}, usable);
        plan::Subject from;
        plan::Subject by;
        for (const auto& p : net.ports)
            if (there[at(p.plus)] && p.kind == PortKind::battery) from = plan::Subject::of(p.component);
        for (std::size_t n = 0; n < net.nodes.size(); ++n) {
            if (!there[n]) continue;
            for (const auto& t : net.nodes[n].terminals) {
                const auto* signal = network::parameters<plan::SignalPoint>(facts.installation, t.component);
                const auto* tap = network::parameters<plan::TakeOffPoint>(facts.installation, t.component);
                if ((signal && signal->supplied == plan::Supplied::live_always) ||
                    (tap && tap->supplied == plan::Supplied::live_always))
                    from = plan::Subject::of(t.component);
            }
        }
        for (std::size_t b = 0; b < net.branches.size(); ++b) {
            const auto* wire = conductor_of(facts, static_cast<int>(b));
            if (!wire || !there[at(net.branches[b].a)]) continue;
            if (wire->role == plan::Role::signal) by = plan::Subject::of(wire->id);
            if (wire->supplied == plan::Supplied::live_always && from.id == 0)
                from = plan::Subject::of(wire->id);
        }
        if (from.id == 0) continue;
        Finding f = make(facts, "run-signal-always-live");
        f.subjects.push_back(plan::Subject::of(c.component));
        f.subjects.push_back(from);
        if (by.id && by != from) f.subjects.push_back(by);
        f.values["source"] = designation(facts, from);
        if (charger->stop_voltage) f.values["stop_voltage"] = *charger->stop_voltage;
        out.push_back(std::move(f));
    }
}

void charge_rate_too_high(const Seen& facts, std::vector<Finding>& out) {
    const auto& net = facts.network;
    for (std::size_t p = 0; p < net.ports.size(); ++p) {
        const auto* battery = network::parameters<plan::Battery>(facts.installation, net.ports[p]);
        const auto& charge = facts.envelope.battery_charge[p];
        if (!battery || !charge || as_found(facts, net.ports[p].component)) continue;
        auto limit = battery->charge_limit.value;
        bool by_electronics = false, usual = false;
        const auto& electronics = battery->electronics_charge_limit;
        if (electronics && (!limit || *electronics < *limit)) limit = *electronics, by_electronics = true;
        if (!limit && battery->capacity) {
            // Not known: what batteries of this kind usually stand.
            const double rate = catalogue::chemistry(battery->chemistry).charge_limit_C;
            limit = Current::si(battery->capacity.value->si() / 3600 * rate);
            usual = true;
        }
        if (!limit || limit->si() <= 0 || !above(charge.value, *limit)) continue;
        Finding f = make(facts, "charge-rate-too-high");
        if (usual) f.grade = Grade::practice, f.must = false;
        f.subjects.push_back(plan::Subject::of(net.ports[p].component));
        // Whose current it is: every charging source that reaches it.
        const auto there = reached(net, {net.ports[p].plus}, facts.live);
        for (const auto& c : net.converters)
            if (there[at(c.out_plus)]) f.subjects.push_back(plan::Subject::of(c.component));
        for (const auto& other : net.ports)
            if (there[at(other.plus)] &&
                (other.kind == PortKind::mains_charger || other.kind == PortKind::solar_controller ||
                 other.kind == PortKind::alternator))
                f.subjects.push_back(plan::Subject::of(other.component));
        f.values["current"] = charge.value;
        f.values["limit"] = *limit;
        if (by_electronics) f.values["electronics_limit"] = *limit;
        if (usual) f.values["usual"] = *limit;
        f.condition = condition_of(facts, charge);
        out.push_back(std::move(f));
    }
}

void lithium_charged_cold(const Seen& facts, std::vector<Finding>& out) {
    for (const auto& p : facts.network.ports) {
        const auto* battery = network::parameters<plan::Battery>(facts.installation, p);
        if (!battery || battery->chemistry != plan::Chemistry::lifepo4 || as_found(facts, p.component))
            continue;
        const auto& cold = battery->low_temperature_protection;
        if (!cold || *cold) continue; // not known is an open question
        Finding f = make(facts, "lithium-charged-cold");
        f.subjects.push_back(plan::Subject::of(p.component));
        out.push_back(std::move(f));
    }
}

namespace {

/// What the alternators of one part of the vehicle can give lastingly, and what is asked of them.
struct Balance {
    std::vector<plan::ComponentId> alternators, chargers;
    double hot_A = 0, asked_A = 0, chargers_A = 0;
    bool known = true;
};

Balance balance(const Facts& facts, const condition::Solved& s, const std::vector<bool>& there) {
    const auto& net = facts.network;
    Balance sum;
    for (std::size_t p = 0; p < net.ports.size(); ++p) {
        if (!there[at(net.ports[p].plus)]) continue;
        if (const auto* a = network::parameters<plan::Alternator>(facts.installation, net.ports[p])) {
            sum.alternators.push_back(net.ports[p].component);
            if (!a->rated) sum.known = false;
            const double share = a->hot_share ? a->hot_share.value->si()
                                              : catalogue::default_of<Ratio>("alternator.hot").value.si();
            if (a->rated) sum.hot_A += a->rated.value->si() * share;
        }
        if (const int load = s.setup.map.load_of_port[p]; load >= 0)
            sum.asked_A += s.solution.load_A[at(load)];
        // A service battery that is coupled straight to it asks too; the starter battery only evens out.
        if (const int battery = s.setup.map.battery_of_port[p]; battery >= 0) {
            const auto* b = network::parameters<plan::Battery>(facts.installation, net.ports[p]);
            if (b && b->role == plan::BatteryRole::service)
                sum.asked_A += std::max(0.0, s.solution.battery_A[at(battery)]);
        }
    }
    for (std::size_t k = 0; k < net.converters.size(); ++k) {
        const int c = s.setup.map.converter_of[k];
        if (c < 0 || !there[at(net.converters[k].in_plus)]) continue;
        const double in_A = s.solution.converter_in_A[at(c)];
        sum.asked_A += in_A;
        if (!network::parameters<plan::DriveCharger>(facts.installation, net.converters[k]) || in_A <= 0)
            continue;
        sum.chargers_A += in_A;
        sum.chargers.push_back(net.converters[k].component);
    }
    return sum;
}

bool counts(const condition::Solved& s) {
    const auto& uses = s.condition.uses;
    return s.solution.usable && !s.condition.duration && s.condition.engine == plan::Engine::running &&
           s.condition.alternator != plan::AlternatorState::off &&
           s.condition.alternator != plan::AlternatorState::held &&
           (uses.empty() || std::find(uses.begin(), uses.end(), plan::Use::lasting_current) != uses.end());
}

} // namespace

void alternator_overloaded(const Seen& facts, std::vector<Finding>& out) {
    const auto& net = facts.network;
    std::vector<plan::ComponentId> said;
    for (const auto& p : net.ports) {
        if (p.kind != PortKind::alternator || std::find(said.begin(), said.end(), p.component) != said.end())
            continue;
        const auto there = reached(net, {p.plus}, live_without(facts, -1));
        const condition::Solved* worst = nullptr;
        Balance most;
        for (const auto& s : facts.conditions) {
            if (!counts(s)) continue;
            Balance sum = balance(facts, s, there);
            for (const auto id : sum.alternators) said.push_back(id);
            if (!sum.known || (worst && sum.asked_A <= most.asked_A)) continue;
            most = std::move(sum);
            worst = &s;
        }
        if (!worst || !above(most.asked_A, most.hot_A)) continue;
        Finding f = make(facts, "alternator-overloaded");
        for (const auto* list : {&most.alternators, &most.chargers})
            for (const auto id : *list) f.subjects.push_back(plan::Subject::of(id));
        // By a hair's breadth: it is at its limit, and what the battery adds is next to nothing. Nobody knows
        // an alternator so well that the one would be told from the other.
        const double near = catalogue::default_number("alternator.near_limit").value;
        if (above(most.asked_A, most.hot_A * (1 + near))) {
            f.values["asked"] = Current::si(most.asked_A);
            f.values["hot"] = Current::si(most.hot_A);
        } else {
            f.grade = Grade::practice;
            f.must = false;
            f.values["all"] = Current::si(most.hot_A);
        }
        f.values["chargers"] = Current::si(most.chargers_A);
        f.values["others"] = Current::si(most.asked_A - most.chargers_A);
        if (most.chargers.size() == 1) {
            const auto* charger =
                network::parameters<plan::DriveCharger>(facts.installation, most.chargers.front());
            const double in_hand = most.hot_A - (most.asked_A - most.chargers_A);
            if (charger && charger->output_current && in_hand > 0) {
                // In steps of 5 A, as chargers are set.
                const double output = charger->output_current.value->si() * in_hand / most.chargers_A;
                const double step = 5 * std::floor(output / 5);
                if (step > 0) f.values["limit_to"] = Current::si(step);
            }
        }
        f.condition = worst->condition.name;
        out.push_back(std::move(f));
    }
}

} // namespace fl::rules
