#include "core/condition/drawn.h"

#include <algorithm>

namespace fl::condition {
namespace {

using plan::AlternatorState;
using plan::Condition;
using plan::Engine;
using plan::LoadsOn;
using plan::Use;

/// What is drawn, as far as it decides which conditions there are.
struct Parts {
    bool vehicle = false;    ///< an alternator, or a tap on the existing vehicle
    bool controlled = false; ///< its voltage is the engine computer's
    bool battery = false;    ///< of whatever role
    bool charger = false, mains = false, sun = false, short_load = false;
    Voltage overshoot;
    std::vector<const plan::Component*> service, starters, inverters, links, masters, electronics;
};

template <class Visit>
void each_part(const plan::Component& c, Visit visit) {
    if (const auto* unit = std::get_if<plan::Unit>(&c.with)) {
        for (const auto& e : unit->elements) std::visit(visit, e.with);
        return;
    }
    std::visit(visit, c.with);
}

struct Gather {
    Parts& parts;
    const plan::Component& c;

    void operator()(const plan::Battery& b) const {
        parts.battery = true;
        if (b.role == plan::BatteryRole::service) parts.service.push_back(&c);
        if (b.role == plan::BatteryRole::service && has_electronics(b)) parts.electronics.push_back(&c);
    }
    void operator()(const plan::Alternator& a) const {
        parts.vehicle = true;
        parts.controlled |= a.regulation == plan::Regulation::computer_controlled;
    }
    void operator()(const plan::TakeOffPoint& t) const {
        parts.vehicle = true;
        parts.controlled |= t.lean_voltage.value.has_value();
    }
    void operator()(const plan::StarterMotor&) const { parts.starters.push_back(&c); }
    void operator()(const plan::DriveCharger&) const { parts.charger = true; }
    void operator()(const plan::MainsCharger&) const { parts.mains = true; }
    void operator()(const plan::SolarController&) const { parts.sun = true; }
    void operator()(const plan::Inverter&) const { parts.inverters.push_back(&c); }
    void operator()(const plan::Load& l) const { parts.short_load |= l.duty != plan::Duty::continuous; }
    void operator()(const plan::Switch& s) const {
        if (s.role == plan::SwitchRole::emergency_link) parts.links.push_back(&c);
        if (s.role == plan::SwitchRole::master) parts.masters.push_back(&c);
    }
    template <class Other>
    void operator()(const Other&) const {}
};

/// The highest the vehicle's side is taken to reach just after starting.
Voltage overshoot(const plan::Installation& in, const network::Network& network) {
    double highest = 0;
    for (const auto& p : network.ports) {
        const Voltage nominal = nominal_of_source(in, network, p);
        const auto by_default = [&](std::string_view id) { return default_volts(id, nominal); };
        if (const auto* a = network::parameters<plan::Alternator>(in, p)) {
            if (a->regulation == plan::Regulation::computer_controlled)
                highest = std::max(highest, std::max(by_default("controlled_alternator.greatest"),
                                                     or_else(a->overrun_voltage, 0)));
            else
                highest = std::max(highest, or_else(a->set_voltage, by_default("alternator.set_voltage_12")) +
                                                by_default("alternator.cold_rise"));
        } else if (const auto* t = network::parameters<plan::TakeOffPoint>(in, p)) {
            highest = std::max(highest, t->lean_voltage ? by_default("controlled_alternator.greatest")
                                                        : or_else(t->running_voltage,
                                                                  by_default("alternator.set_voltage_12")) +
                                                              by_default("alternator.cold_rise"));
        }
    }
    return Voltage::si(highest);
}

Parts parts_of(const plan::Installation& in, const network::Network& network) {
    Parts parts;
    for (const auto& c : in.components)
        if (c.origin != plan::Origin::removed) each_part(c, Gather{parts, c});
    parts.overshoot = overshoot(in, network);
    return parts;
}

const plan::Battery* battery_in(const plan::Component& c) {
    const plan::Battery* found = nullptr;
    each_part(c, [&](const auto& with) {
        if constexpr (std::is_same_v<std::decay_t<decltype(with)>, plan::Battery>) found = &with;
    });
    return found;
}

class Templates {
public:
    explicit Templates(Parts parts)
        : parts_(std::move(parts)) {}

    std::vector<Condition> made() {
        if (parts_.vehicle) driving();
        if (parts_.battery) parked();
        if (parts_.mains) supplied("mains connected", true, false);
        if (parts_.sun) supplied("sun only", false, true);
        brief();
        return std::move(all_);
    }

private:
    Condition& add(std::string name, LoadsOn loads, double charge, std::vector<Use> uses = {}) {
        Condition c;
        c.name = std::move(name);
        c.loads = loads;
        c.state_of_charge = plan::Entered<Ratio>(Ratio::si(charge), plan::From::assumed);
        c.uses = std::move(uses);
        all_.push_back(std::move(c));
        return all_.back();
    }
    /// With every service battery at its lower limit.
    Condition& add_low(std::string name, LoadsOn loads, std::vector<Use> uses = {}) {
        Condition& c = add(std::move(name), loads, 0.5, std::move(uses));
        for (const auto* s : parts_.service)
            if (const auto* b = battery_in(*s)) {
                const double usable = catalogue::chemistry(b->chemistry).usable_share;
                c.batteries.push_back({s->id, Ratio::si(1 - usable)});
            }
        return c;
    }
    static Condition& run(Condition& c, AlternatorState state) {
        c.engine = state == AlternatorState::idle ? Engine::idle : Engine::running;
        c.alternator = state;
        return c;
    }
    /// Whether the lower limit is another state than half full.
    bool low_differs() const {
        return std::any_of(parts_.service.begin(), parts_.service.end(), [](const plan::Component* c) {
            const auto* b = battery_in(*c);
            return b && catalogue::chemistry(b->chemistry).usable_share > 0.5 + 1e-9;
        });
    }

    void driving() {
        Condition& over =
            run(add("start-up overshoot", LoadsOn::none, 1, {Use::highest_voltage}), AlternatorState::held);
        over.held = plan::Entered<Voltage>(parts_.overshoot, plan::From::assumed);
        journey("cruise", AlternatorState::normal);
        if (parts_.controlled) {
            journey("lean cruise", AlternatorState::lean);
            journey("overrun", AlternatorState::overrun);
        }
        run(add_low("engine running, everything on", LoadsOn::all), AlternatorState::normal);
        run(add_low("idle, hot", LoadsOn::all, {Use::lowest_voltage, Use::lasting_current}),
            AlternatorState::idle);
        if (parts_.charger || parts_.mains || parts_.sun) {
            const std::vector<Use> uses{Use::lasting_current, Use::charging, Use::highest_voltage};
            run(add_low("charging, loads off", LoadsOn::none, uses), AlternatorState::normal);
            if (parts_.mains || parts_.sun) {
                Condition& every = run(add_low("all charging sources at once", LoadsOn::none, uses),
                                       AlternatorState::normal);
                every.mains = parts_.mains;
                every.sun = parts_.sun;
            }
        }
    }

    void journey(const std::string& name, AlternatorState state) {
        run(add(name, LoadsOn::driving, 0.5), state);
        if (low_differs()) run(add_low(name + ", battery low", LoadsOn::driving), state);
    }

    void parked() {
        add_low("parked, everything on", LoadsOn::all);
        add("parked, everything on, battery full", LoadsOn::all, 1);
        add("overnight", LoadsOn::night, 0.5, {Use::standby});
        add("stood 30 days", LoadsOn::none, 1, {Use::standby});
    }

    void supplied(const std::string& name, bool mains, bool sun) {
        for (const bool loads : {true, false}) {
            Condition& c = add_low(loads ? name : name + ", loads off", loads ? LoadsOn::all : LoadsOn::none);
            c.mains = mains;
            c.sun = sun;
        }
    }

    Condition& for_seconds(std::string name, LoadsOn loads, Time lasts) {
        Condition& c = add_low(std::move(name), loads, {Use::short_current, Use::lowest_voltage});
        c.duration = plan::Entered<Time>(lasts, plan::From::assumed);
        return c;
    }
    static void force(Condition& c, const std::vector<const plan::Component*>& parts, bool on = true) {
        for (const auto* p : parts) c.forced.push_back({p->id, on});
    }
    /// What holds the voltage goes away while something charges: only what is then too much is told.
    void opened(std::string name, const std::vector<const plan::Component*>& parts) {
        constexpr double moment_s = 1;
        Condition& c = add(std::move(name), LoadsOn::driving, 1, {Use::highest_voltage});
        run(c, AlternatorState::normal);
        c.mains = parts_.mains;
        c.sun = parts_.sun;
        c.duration = plan::Entered<Time>(Time::si(moment_s), plan::From::assumed);
        force(c, parts, false);
    }

    void brief() {
        constexpr double crank_s = 5, short_s = 10; // as long as it takes; only says that nothing warms up
        if (!parts_.inverters.empty())
            for_seconds("inverter surge", LoadsOn::all,
                        catalogue::default_of<Time>("inverter.surge_time").value);
        if (parts_.short_load) for_seconds("parked, short loads too", LoadsOn::all, Time::si(short_s));
        if (parts_.vehicle && parts_.short_load) {
            Condition& c = for_seconds("engine running, short loads too", LoadsOn::all, Time::si(short_s));
            run(c, AlternatorState::normal);
        }
        if (!parts_.starters.empty())
            force(for_seconds("cranking", LoadsOn::none, Time::si(crank_s)), parts_.starters);
        if (!parts_.links.empty()) {
            Condition& c = for_seconds("emergency link closed", LoadsOn::none, Time::si(crank_s));
            force(c, parts_.starters);
            force(c, parts_.links);
        }
        if (parts_.vehicle && !parts_.masters.empty())
            opened("master switch opened while running", parts_.masters);
        if (!parts_.electronics.empty() && (parts_.charger || parts_.mains || parts_.sun || parts_.vehicle))
            opened("battery electronics open", parts_.electronics);
    }

    Parts parts_;
    std::vector<Condition> all_;
};

} // namespace

std::vector<plan::Condition> conditions(const plan::Installation& in, const network::Network& network) {
    std::vector<Condition> all = Templates(parts_of(in, network)).made();
    for (const Condition& own : in.conditions) {
        const auto same =
            std::find_if(all.begin(), all.end(), [&](const Condition& c) { return c.name == own.name; });
        if (same == all.end())
            all.push_back(own);
        else
            *same = own;
    }
    return all;
}

} // namespace fl::condition
