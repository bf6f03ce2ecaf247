#include "core/protect/curve.h"
#include "core/quantity/limit.h"
#include "core/rules/chains.h"
#include "core/rules/list.h"

#include <algorithm>
#include <cmath>

// Is each fuse and breaker right for its current, its voltage, and what it may have to break?

namespace fl::rules {
namespace {

using network::PortKind;

/// What hangs on one side of a device and on nothing else: the side without a source.
struct Behind {
    bool known = false; ///< false: both sides have sources, or neither
    std::vector<int> ports, converters;
    int node = -1; ///< the device's own on that side
};

Behind behind(const Facts& facts, int branch) {
    const auto& net = facts.network;
    auto usable = live_branches(facts);
    usable[at(branch)] = false;
    const auto& b = net.branches[at(branch)];
    const auto sources = protect::sources(facts.installation, net);
    Behind out;
    for (const int node : {b.a, b.b}) {
        const auto here = reached(net, {node}, usable);
        const bool fed = std::any_of(sources.begin(), sources.end(),
                                     [&](const protect::Source& s) { return here[at(s.node)]; });
        if (fed) continue;
        out.known = !out.known; // both sides without: not known
        out.node = node;
        for (std::size_t p = 0; p < net.ports.size(); ++p)
            if (here[at(net.ports[p].plus)]) out.ports.push_back(static_cast<int>(p));
        for (std::size_t k = 0; k < net.converters.size(); ++k)
            if (here[at(net.converters[k].in_plus)]) out.converters.push_back(static_cast<int>(k));
    }
    return out;
}

/// The output current of the drive charger that alone hangs on this device; empty when anything else does.
std::optional<Current> charger_output(const Facts& facts, int branch) {
    const Behind b = behind(facts, branch);
    const auto takes = [&](int p) { return facts.network.ports[at(p)].kind != PortKind::relay_coil; };
    if (!b.known || b.converters.size() != 1 || std::any_of(b.ports.begin(), b.ports.end(), takes)) return {};
    const auto* charger = network::parameters<plan::DriveCharger>(
        facts.installation, facts.network.converters[at(b.converters.front())]);
    return charger ? charger->output_current.value : std::nullopt;
}

} // namespace

void device_below_current(const Facts& facts, std::vector<Finding>& out) {
    const double factor = continuous_factor();
    struct Cause {
        double current_A;
        std::size_t finding;
    };
    std::vector<Cause> causes; // devices in a row, all too small for one current, are one cause
    for (const Device& d : devices(facts)) {
        const auto& running = facts.envelope.branch_current[at(d.branch)];
        const auto id = facts.network.branches[at(d.branch)].component;
        if (!d.rating || as_found(facts, id) || !above(running.value, *d.rating * factor)) continue;
        const bool opens = above(running.value, *d.rating);
        const auto output = charger_output(facts, d.branch);
        const bool by_output = output && !above(*output, *d.rating);
        Finding f = make(facts, by_output ? "charger-fuse-by-output" : "device-below-current");
        if (!opens) f.grade = Grade::practice;
        f.subjects.push_back(d.subject);
        f.values["rating"] = *d.rating;
        f.values["current"] = running.value;
        f.values["carries"] = *d.rating * factor;
        if (opens) f.values["above"] = running.value;
        if (by_output) f.values["output"] = *output;
        if (const auto fit = fuse_for(running.value, Current::si(1e6))) f.values["fit"] = *fit;
        f.condition = condition_of(facts, running);
        const double i = running.value.si();
        const auto same = std::find_if(causes.begin(), causes.end(), [&](const Cause& c) {
            return std::fabs(c.current_A - i) <= 1e-6 * i && out[c.finding].code == f.code &&
                   out[c.finding].grade == f.grade &&
                   out[c.finding].values.at("rating") == f.values.at("rating");
        });
        if (same != causes.end()) {
            out[same->finding].subjects.push_back(d.subject);
            continue;
        }
        causes.push_back({i, out.size()});
        out.push_back(std::move(f));
    }
}

namespace {

/// The greatest current the device may have to break: through it into a short right behind it, from either
/// side, by what reaches it over `usable` branches.
std::optional<Current> to_break(const Facts& facts, int branch, std::vector<bool> usable) {
    const auto& net = facts.network;
    const auto& b = net.branches[at(branch)];
    usable[at(branch)] = false;
    std::optional<Current> most;
    for (const auto& [from, to] : {std::pair{b.a, b.b}, {b.b, b.a}}) {
        const auto& fault = facts.faults[at(to)].largest;
        if (!fault) continue;
        const auto here = reached(net, {from}, usable);
        Current through;
        for (const auto& share : fault->shares) {
            bool on_this_side = false;
            for (const auto& p : net.ports) on_this_side |= p.component == share.source && here[at(p.plus)];
            for (const auto& c : net.converters)
                on_this_side |= c.component == share.source && here[at(c.out_plus)];
            if (on_this_side) through += share.current; // in a ring: all of it, an upper bound
        }
        if (!most || through > *most) most = through;
    }
    return most;
}

/// Nominal voltage where the device sits: the highest of the batteries and take-off points it can see.
Voltage nominal_at_device(const Facts& facts, int branch) {
    const auto there = reached(facts.network, {facts.network.branches[at(branch)].a}, live_branches(facts));
    std::optional<Voltage> most;
    for (const auto& p : facts.network.ports) {
        if (!there[at(p.plus)]) continue;
        std::optional<Voltage> nominal;
        if (const auto* b = network::parameters<plan::Battery>(facts.installation, p))
            nominal = b->nominal.value;
        if (const auto* t = network::parameters<plan::TakeOffPoint>(facts.installation, p))
            nominal = t->nominal.value;
        if (nominal && (!most || *nominal > *most)) most = nominal;
    }
    return most.value_or(catalogue::nominal_of(facts.installation));
}

} // namespace

namespace {

/// A device, what it may have to break, and what it can.
struct Break {
    Device device;
    Current fault, capacity;
};

/// Live branches but those that lack a device themselves: what comes over them is that finding's affair.
std::vector<bool> without_bare(const Facts& facts) {
    auto usable = live_branches(facts);
    for (const auto& [chain, lack, limit] : chains(facts))
        if (lack == Lack::device || lack == Lack::between)
            for (const int b : chain.conductors) usable[at(b)] = false;
    return usable;
}

std::vector<Break> breaks(const Facts& facts) {
    const auto usable = without_bare(facts);
    std::vector<Break> all;
    for (Device& d : devices(facts)) {
        auto capacity = d.breaking;
        if (!capacity && d.type)
            capacity = protect::breaking_capacity(*d.type, nominal_at_device(facts, d.branch));
        const auto fault = to_break(facts, d.branch, usable);
        if (capacity && fault) all.push_back({std::move(d), *fault, *capacity});
    }
    return all;
}

/// Devices that can break this fault and stand between the device and every battery; empty when a battery
/// reaches it past them. `limiting`: only those that cut a large short off in its first rise.
std::vector<int> backed_by(const Facts& facts, const Break& weak, const std::vector<Break>& all,
                           bool limiting) {
    auto usable = live_branches(facts);
    std::vector<int> strong;
    for (const Break& other : all) {
        const bool counts = !limiting || (other.device.type && other.device.type->limits_current);
        if (!counts || other.device.branch == weak.device.branch || above(weak.fault, other.capacity))
            continue;
        usable[at(other.device.branch)] = false;
        strong.push_back(other.device.branch);
    }
    const auto& own = facts.network.branches[at(weak.device.branch)];
    const auto here = reached(facts.network, {own.a, own.b}, usable);
    for (const auto& s : protect::sources(facts.installation, facts.network))
        if (!s.limit && !s.not_known && here[at(s.node)]) return {};
    std::erase_if(strong, [&](int b) {
        const auto& branch = facts.network.branches[at(b)];
        return !here[at(branch.a)] && !here[at(branch.b)];
    });
    return strong;
}

} // namespace

void breaking_capacity_low(const Facts& facts, std::vector<Finding>& out) {
    const double near = catalogue::default_number("fault.near_limit").value;
    const auto all = breaks(facts);
    // One cause: the ways of a box that are too weak; and all that others back.
    std::map<std::pair<plan::ComponentId, bool>, std::vector<const Break*>> boxes;
    std::vector<const Break*> backed;
    std::map<const Break*, int> strong_of;
    std::vector<std::vector<const Break*>> causes;
    for (const Break& b : all) {
        const auto& branch = facts.network.branches[at(b.device.branch)];
        if (as_found(facts, branch.component) || !above(b.fault, b.capacity)) continue;
        if (!backed_by(facts, b, all, true).empty()) continue;
        const bool at_limit = !above(b.fault, b.capacity * (1 + near));
        if (const auto strong = backed_by(facts, b, all, false); !strong.empty()) {
            if (!at_limit) backed.push_back(&b), strong_of[&b] = strong.front();
        } else if (branch.kind == network::BranchKind::way) {
            boxes[{branch.component, at_limit}].push_back(&b);
        } else {
            causes.push_back({&b});
        }
    }
    for (auto& [box, ways] : boxes) causes.push_back(ways);
    const auto tell = [&](std::vector<const Break*> weak) {
        std::stable_sort(weak.begin(), weak.end(), [](const Break* x, const Break* y) {
            return x->fault / x->capacity > y->fault / y->capacity;
        });
        const Break& worst = *weak.front();
        Finding f = make(facts, "breaking-capacity-low");
        for (const Break* b : weak) f.subjects.push_back(b->device.subject);
        f.values["fault_current"] = worst.fault;
        f.values["capacity"] = worst.capacity;
        const bool at_limit = !above(worst.fault, worst.capacity * (1 + near));
        if (at_limit) f.values["near"] = Ratio::si(near);
        const auto strong = strong_of.find(&worst);
        const bool is_backed = strong != strong_of.end();
        if (is_backed)
            f.values["backed_by"] =
                designation(facts, subject_of(facts.network.branches[at(strong->second)]));
        if (weak.size() > 1) f.values["others"] = static_cast<std::int64_t>(weak.size() - 1);
        if (at_limit || is_backed) f.grade = Grade::practice, f.must = false;
        out.push_back(std::move(f));
    };
    if (!backed.empty()) causes.push_back(backed);
    for (const auto& weak : causes) tell(weak);
}

void device_voltage_low(const Facts& facts, std::vector<Finding>& out) {
    const auto& net = facts.network;
    std::map<plan::ComponentId, std::size_t> boxes;
    for (const Device& d : devices(facts)) {
        if (!d.voltage || as_found(facts, net.branches[at(d.branch)].component)) continue;
        // The highest lasting voltage: what charges the batteries it sees.
        const auto there = reached(net, {net.branches[at(d.branch)].a}, live_branches(facts));
        std::optional<Voltage> highest;
        const auto take = [&](std::optional<Voltage> v) {
            if (v && (!highest || *v > *highest)) highest = v;
        };
        for (const auto& p : net.ports) {
            if (!there[at(p.plus)]) continue;
            if (const auto* b = network::parameters<plan::Battery>(facts.installation, p)) {
                const auto& data = catalogue::chemistry(b->chemistry);
                const Voltage nominal = b->nominal ? *b->nominal : catalogue::nominal_of(facts.installation);
                take(data.absorption_per_cell * (data.cells_per_12V * nominal.si() / 12));
            }
            if (const auto* a = network::parameters<plan::Alternator>(facts.installation, p))
                take(a->set_voltage.value), take(a->overrun_voltage.value);
            if (const auto* m = network::parameters<plan::MainsCharger>(facts.installation, p))
                take(m->set_voltage.value);
            if (const auto* s = network::parameters<plan::SolarController>(facts.installation, p))
                take(s->set_voltage.value);
        }
        for (const auto& c : net.converters) {
            if (!there[at(c.out_plus)]) continue;
            if (const auto* x = network::parameters<plan::DriveCharger>(facts.installation, c))
                take(x->set_voltage.value);
            if (const auto* x = network::parameters<plan::Converter>(facts.installation, c))
                take(x->set_voltage.value);
        }
        if (!highest || !above(*highest, *d.voltage)) continue;
        const auto& branch = net.branches[at(d.branch)];
        if (branch.kind == network::BranchKind::way) {
            const auto [known, fresh] = boxes.try_emplace(branch.component, out.size());
            if (!fresh) {
                out[known->second].subjects.push_back(d.subject);
                continue;
            }
        }
        Finding f = make(facts, "device-voltage-low");
        f.subjects.push_back(d.subject);
        f.values["voltage"] = *d.voltage;
        f.values["highest"] = *highest;
        out.push_back(std::move(f));
    }
}

} // namespace fl::rules
