#include "core/fault/snapshot.h"

#include "core/catalogue/catalogue.h"
#include "core/catalogue/lie.h"
#include "core/condition/condition.h"
#include "core/network/part.h"

#include <algorithm>

namespace fl::fault {
namespace {

using catalogue::default_number;
using catalogue::default_of;
using network::BranchKind;

/// Calls edit(parameters) on every part of the installation, elements of units too.
template <class Edit>
void edit_parts(plan::Installation& in, Edit edit) {
    std::vector<plan::Component> rows;
    for (plan::Component c : in.components) {
        if (auto* unit = std::get_if<plan::Unit>(&c.with))
            for (auto& e : unit->elements) std::visit(edit, e.with);
        else
            std::visit(edit, c.with);
        rows.push_back(std::move(c));
    }
    in.components = Table<plan::Component>::of(std::move(rows));
}

/// All but emergency links, which close only where a condition says so.
void close_switches(plan::Installation& in) {
    edit_parts(in, [](auto& with) {
        if constexpr (std::is_same_v<std::decay_t<decltype(with)>, plan::Switch>) with.closed = true;
    });
}

/// The installation as the largest fault sees it: what nobody entered about joints is nothing, copper is
/// cold and at its best, an alternator is cold too, and a lithium pack is as stiff as its cells.
plan::Installation at_its_strongest(plan::Installation in) {
    in.basis.temperature = plan::ConductorTemperature::plain_20C;
    in.basis.ideal_copper = true;
    in.basis.joints = false;
    edit_parts(in, [](auto& with) {
        using P = std::decay_t<decltype(with)>;
        if constexpr (std::is_same_v<P, plan::Battery>) {
            if (with.chemistry == plan::Chemistry::lifepo4) with.resistance = {};
        } else if constexpr (std::is_same_v<P, plan::Alternator>) {
            with.hot_share = with.hot_idle_share = Ratio::si(1);
        }
    });
    close_switches(in);
    return in;
}

plan::Installation at_its_weakest(plan::Installation in, bool joints) {
    in.basis.temperature = plan::ConductorTemperature::rated;
    in.basis.ideal_copper = false;
    in.basis.joints = joints;
    close_switches(in);
    return in;
}

/// Relays are closed too, emergency links if asked for, and every source is on; batteries at this share of
/// their charge.
template <class Charge>
plan::Condition all_closed(const plan::Installation& in, const network::Network& network, bool links,
                           Charge charge) {
    plan::Condition c;
    c.engine = plan::Engine::running;
    c.alternator = plan::AlternatorState::normal;
    c.mains = c.sun = true;
    for (const auto& b : network.branches)
        if (const auto* s = network::parameters<plan::Switch>(in, b);
            b.kind == BranchKind::relay || (links && s && s->role == plan::SwitchRole::emergency_link))
            c.forced.push_back({b.component, true});
    for (const auto& p : network.ports)
        if (const auto* b = network::parameters<plan::Battery>(in, p))
            c.batteries.push_back({p.component, Ratio::si(charge(*b))});
    return c;
}

double full(const plan::Battery& b) {
    // A lithium pack falls off its charging voltage within the last hundredths of its charge.
    return b.chemistry == plan::Chemistry::lifepo4 ? 0.98 : 1;
}
double used_up(const plan::Battery& b) {
    return 1 - catalogue::chemistry(b.chemistry).usable_share;
}

condition::Setup setup(const plan::Installation& in, const network::Network& network,
                       const plan::Condition& c) {
    return condition::setup(in, network, c, std::vector<bool>(network.converters.size(), true));
}

double ohm_of(const solve::Resistor& r) {
    return r.r20_ohm * (234.5 + r.at_C) / 254.5 + r.fixed_ohm; // copper: IEC 60949
}

/// The resistance of the vehicle's own battery behind a take-off point, for a 12 V block.
double vehicle_ohm(const plan::Installation& in) {
    const auto& rules = catalogue::rules_of(in);
    const char* id = !rules.body_return                ? "starter_battery.narrow_boat.cold_current"
                     : rules.nominal > Voltage::si(18) ? "starter_battery.truck.cold_current"
                                                       : "starter_battery.van.cold_current";
    return (default_of<Voltage>("starter_battery.resistance_times_cold_current").value /
            default_of<Current>(id).value)
        .si();
}

/// A take-off point stands for the vehicle's battery.
Feeder take_off(const plan::Installation& in, const network::Port& port, const plan::TakeOffPoint& t,
                double charge, double factor) {
    const Voltage nominal = t.nominal ? *t.nominal : catalogue::rules_of(in).nominal;
    Feeder f{port.component, port.plus, port.minus};
    f.emf_V = catalogue::rest_voltage(plan::Chemistry::lead_flooded, nominal, Ratio::si(charge)).si();
    if (t.rest_voltage && factor == 1) f.emf_V = std::max(f.emf_V, (*t.rest_voltage).si());
    f.ohm = t.resistance ? (*t.resistance).si() : vehicle_ohm(in) * (nominal > Voltage::si(18) ? 2 : 1);
    f.ohm *= factor;
    return f;
}

/// What limits itself, from the solver's own elements.
void add_limited(Snapshot& out, const condition::Setup& set, const network::Network& network, double factor) {
    for (std::size_t i = 0; i < network.ports.size(); ++i) {
        if (set.map.regulator_of_port[i] < 0 || network.ports[i].kind == network::PortKind::take_off_point)
            continue;
        const auto& r = set.circuit.regulators[static_cast<std::size_t>(set.map.regulator_of_port[i])];
        const double limit_A = std::min(r.limit_A, r.set_V > 0 ? r.limit_W / r.set_V : 0) * factor;
        if (r.on && limit_A > 0)
            out.feeders.push_back(
                {network.ports[i].component, r.plus, r.minus, r.set_V, r.droop_ohm, limit_A});
    }
    for (std::size_t i = 0; i < network.converters.size(); ++i) {
        if (set.map.converter_of[i] < 0) continue;
        const auto& c = set.circuit.converters[static_cast<std::size_t>(set.map.converter_of[i])];
        if (c.on && c.out_limit_A > 0)
            out.feeders.push_back({network.converters[i].component, c.out_plus, c.out_minus, c.set_V,
                                   c.droop_ohm, c.out_limit_A * factor});
    }
}

/// Nothing comes back through an isolator: what limits itself before it stands at each of its outputs too.
/// With a battery before it, it is a resistance both ways: never too little.
void add_isolators(Snapshot& out, const condition::Setup& set, const network::Network& network) {
    std::vector<bool> joined;
    for (const auto& b : network.branches) joined.push_back(b.kind != BranchKind::isolator);
    const auto island = network::islands(network, joined);
    const auto before = [&](const Feeder& f, const network::Branch& b) {
        return island[static_cast<std::size_t>(f.plus)] == island[static_cast<std::size_t>(b.a)];
    };
    const std::vector<Feeder> all = out.feeders;
    for (std::size_t i = 0; i < network.branches.size(); ++i) {
        const auto& b = network.branches[i];
        const int diode = set.map.diode_of_branch[i];
        if (diode < 0) continue;
        const bool battery = std::any_of(all.begin(), all.end(),
                                         [&](const Feeder& f) { return !f.limited() && before(f, b); });
        if (battery)
            out.elements.push_back(
                {b.a, b.b, set.circuit.diodes[static_cast<std::size_t>(diode)].ohm, static_cast<int>(i)});
        for (Feeder f : all) {
            if (battery || !f.limited() || !before(f, b)) continue;
            f.plus = b.b;
            out.feeders.push_back(f);
        }
    }
}

/// How much stiffer a battery is in a fault than when running, where its resistance is not entered: the
/// chemistry's two values. A starter battery's is taken from its cold cranking current and stays.
double fault_over_running(const plan::Battery& b) {
    if (b.resistance || (b.chemistry != plan::Chemistry::lifepo4 &&
                         (b.cold_cranking || b.role == plan::BatteryRole::starter)))
        return 1;
    const auto& c = catalogue::chemistry(b.chemistry);
    return std::min(1.0, c.fault_resistance_ohm_Ah_per_12V / c.resistance_ohm_Ah_per_12V);
}

/// Resistance of a link that nobody entered, cold.
double link_ohm(const plan::Installation& in, const network::Branch& b) {
    const auto* fuse = network::parameters<plan::Fuse>(in, b);
    const auto* way = network::way_of(in, b);
    if (!fuse && !way) return 0;
    if (fuse ? fuse->resistance.value : way->resistance.value) return 0;
    const auto rating = fuse ? fuse->rating : way->rating;
    return rating ? catalogue::cold_link_resistance(fuse ? fuse->type : way->type, *rating).value.si() : 0;
}

} // namespace

namespace {

// Live nodes joined by what is drawn, and over batteries whose minus is live too (a string).
std::vector<int> live_parts(const Snapshot& of, const network::Network& network) {
    const auto returns = network::return_nodes(network);
    std::vector<std::vector<int>> next(static_cast<std::size_t>(of.nodes));
    const auto join = [&](int a, int b) {
        if (a < 0 || b < 0 || returns[static_cast<std::size_t>(a)] || returns[static_cast<std::size_t>(b)])
            return;
        next[static_cast<std::size_t>(a)].push_back(b);
        next[static_cast<std::size_t>(b)].push_back(a);
    };
    for (const Element& e : of.elements) join(e.a, e.b);
    for (const Feeder& f : of.feeders) join(f.plus, f.minus);
    std::vector<int> part(next.size(), -1);
    int count = 0;
    for (std::size_t start = 0; start < part.size(); ++start) {
        if (part[start] >= 0 || returns[start]) continue;
        std::vector<int> queue{static_cast<int>(start)};
        part[start] = count;
        for (std::size_t i = 0; i < queue.size(); ++i)
            for (const int node : next[static_cast<std::size_t>(queue[i])])
                if (part[static_cast<std::size_t>(node)] < 0) {
                    part[static_cast<std::size_t>(node)] = count;
                    queue.push_back(node);
                }
        ++count;
    }
    return part;
}

} // namespace

Snapshot strongest(const plan::Installation& installation, const network::Network& network, Moment moment) {
    const auto in = at_its_strongest(installation);
    const auto set = setup(in, network, all_closed(in, network, true, full));
    Snapshot out{static_cast<int>(network.nodes.size()), {}, {}, {}};
    for (std::size_t i = 0; i < network.branches.size(); ++i) {
        const int index = set.map.resistor_of_branch[i];
        if (index < 0) continue;
        const auto& r = set.circuit.resistors[static_cast<std::size_t>(index)];
        out.elements.push_back(
            {r.a, r.b, ohm_of(r) + link_ohm(in, network.branches[i]), static_cast<int>(i)});
    }
    const double stiffer = moment == Moment::peak ? default_number("fault.peak_resistance").value : 1;
    const double lower = moment == Moment::plateau ? default_number("fault.plateau_voltage").value : 1;
    for (std::size_t i = 0; i < network.ports.size(); ++i) {
        const auto& port = network.ports[i];
        if (const auto* t = network::parameters<plan::TakeOffPoint>(in, port)) {
            out.feeders.push_back(take_off(in, port, *t, 1, 1));
            out.feeders.back().ohm *= stiffer;
            out.feeders.back().emf_V *= lower;
        }
        if (set.map.battery_of_port[i] < 0) continue;
        const auto& b = set.circuit.batteries[static_cast<std::size_t>(set.map.battery_of_port[i])];
        const auto& drawn = *network::parameters<plan::Battery>(in, port);
        const auto& as_entered = *network::parameters<plan::Battery>(installation, port);
        double ohm = b.discharge_ohm * fault_over_running(drawn);
        if (drawn.chemistry == plan::Chemistry::lifepo4) {
            if (as_entered.resistance) ohm = std::min(ohm, (*as_entered.resistance).si());
            out.feeders.push_back({port.component, b.plus, b.minus, b.emf_V, ohm});
        } else {
            out.feeders.push_back({port.component, b.plus, b.minus, b.emf_V * lower, ohm * stiffer});
        }
    }
    add_limited(out, set, network, default_number("fault.limited_source").value);
    add_isolators(out, set, network);
    out.live_part = live_parts(out, network);
    return out;
}

Snapshot weakest(const plan::Installation& installation, const network::Network& network) {
    const auto in = at_its_weakest(installation, true);
    const auto c = all_closed(in, network, false, used_up);
    const auto set = setup(in, network, c);
    const auto entered = setup(at_its_weakest(installation, false), network, c);
    const double joints = default_number("fault.least_joint").value;
    const double softer = default_number("fault.least_resistance").value;
    Snapshot out{static_cast<int>(network.nodes.size()), {}, {}, {}};
    for (std::size_t i = 0; i < network.branches.size(); ++i) {
        const int index = set.map.resistor_of_branch[i];
        if (index < 0) continue;
        const auto& branch = network.branches[i];
        if (const auto* w = in.conductors.find(branch.conductor))
            if (!plan::length_of(in, *w) || !catalogue::per_length_of(in, *w)) continue;
        const auto& r = set.circuit.resistors[static_cast<std::size_t>(index)];
        const double known = entered.circuit.resistors[static_cast<std::size_t>(index)].fixed_ohm;
        const bool joint = branch.kind == BranchKind::conductor || branch.kind == BranchKind::earth ||
                           branch.kind == BranchKind::switch_ || branch.kind == BranchKind::relay;
        out.elements.push_back(
            {r.a, r.b, ohm_of(r) + (joint ? (joints - 1) * (r.fixed_ohm - known) : 0), static_cast<int>(i)});
    }
    for (std::size_t i = 0; i < network.ports.size(); ++i) {
        const auto& port = network.ports[i];
        if (const auto* t = network::parameters<plan::TakeOffPoint>(in, port))
            out.feeders.push_back(take_off(
                in, port, *t, 1 - catalogue::chemistry(plan::Chemistry::lead_flooded).usable_share, softer));
        if (set.map.battery_of_port[i] < 0) continue;
        const auto& b = set.circuit.batteries[static_cast<std::size_t>(set.map.battery_of_port[i])];
        out.feeders.push_back({port.component, b.plus, b.minus, b.emf_V, b.discharge_ohm * softer});
    }
    add_limited(out, set, network, 1);
    out.live_part = live_parts(out, network);
    return out;
}

namespace {

/// The same source in another snapshot; null where that has none. A unit may give at one place by several
/// elements, whose order is the same.
const Feeder* same_in(const Snapshot& other, const std::vector<Feeder>& mine, std::size_t index) {
    const auto same = [&](const Feeder& f) {
        const Feeder& own = mine[index];
        return f.component == own.component && f.plus == own.plus && f.minus == own.minus &&
               f.limited() == own.limited();
    };
    auto place = std::count_if(mine.begin(), mine.begin() + static_cast<std::ptrdiff_t>(index), same);
    for (const Feeder& f : other.feeders)
        if (same(f) && place-- == 0) return &f;
    return nullptr;
}

/// A device is asked for its current, which no voltage across nothing tells.
void give_devices_resistance(Snapshot& snapshot, const network::Network& network) {
    constexpr double next_to_nothing_ohm = 1e-7;
    for (Element& e : snapshot.elements) {
        const BranchKind kind = network.branches[static_cast<std::size_t>(e.branch)].kind;
        if (kind == BranchKind::fuse || kind == BranchKind::breaker || kind == BranchKind::way)
            e.ohm = std::max(e.ohm, next_to_nothing_ohm);
    }
}

} // namespace

Range range(const plan::Installation& installation, const network::Network& network) {
    Range out{strongest(installation, network), weakest(installation, network)};
    for (std::size_t i = 0; i < out.cold.feeders.size(); ++i) {
        Feeder& f = out.cold.feeders[i];
        const Feeder* weak = same_in(out.hot, out.cold.feeders, i);
        if (!weak) continue;
        f.weak_emf_V = weak->emf_V, f.weak_ohm = weak->ohm;
        if (f.limited()) f.weak_limit_A = weak->limit_A;
    }
    out.hot.feeders = out.cold.feeders;
    give_devices_resistance(out.cold, network);
    give_devices_resistance(out.hot, network);
    return out;
}

} // namespace fl::fault
