#include "core/protect/curve.h"
#include "core/quantity/limit.h"
#include "core/rules/chains.h"
#include "core/rules/list.h"
#include "core/rules/suiting.h"
#include "core/rules/through.h"

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

Behind behind(const Seen& facts, int branch) {
    const auto& net = facts.network;
    auto usable = facts.live;
    usable[at(branch)] = false;
    const auto& b = net.branches[at(branch)];
    Behind out;
    for (const int node : {b.a, b.b}) {
        const auto here = reached(net, {node}, usable);
        const bool fed = std::any_of(facts.sources.begin(), facts.sources.end(),
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
std::optional<Current> charger_output(const Seen& facts, int branch) {
    const Behind b = behind(facts, branch);
    const auto takes = [&](int p) { return facts.network.ports[at(p)].kind != PortKind::relay_coil; };
    if (!b.known || b.converters.size() != 1 || std::any_of(b.ports.begin(), b.ports.end(), takes)) return {};
    const auto* charger = network::parameters<plan::DriveCharger>(
        facts.installation, facts.network.converters[at(b.converters.front())]);
    return charger ? charger->output_current.value : std::nullopt;
}

} // namespace

void device_below_current(const Seen& facts, std::vector<Finding>& out) {
    const double factor = continuous_factor();
    struct Cause {
        double current_A;
        std::size_t finding;
    };
    std::vector<Cause> causes; // devices in a row, all too small for one current, are one cause
    for (const Device& d : facts.devices) {
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

/// Nominal voltage of each live island: the highest of the batteries and take-off points on it.
std::map<int, Voltage> nominal_of_islands(const Seen& facts) {
    std::map<int, Voltage> most;
    for (const auto& p : facts.network.ports) {
        std::optional<Voltage> nominal;
        if (const auto* b = network::parameters<plan::Battery>(facts.installation, p))
            nominal = b->nominal.value;
        if (const auto* t = network::parameters<plan::TakeOffPoint>(facts.installation, p))
            nominal = t->nominal.value;
        if (!nominal) continue;
        auto& known = most.try_emplace(facts.live_island[at(p.plus)], *nominal).first->second;
        known = std::max(known, *nominal);
    }
    return most;
}

/// Live branches but those that lack a device themselves: what comes over them is that finding's affair.
std::vector<bool> without_bare(const Seen& facts) {
    auto usable = facts.live;
    for (const auto& [chain, lack, limit] : facts.chains)
        if (lack == Lack::device || lack == Lack::between)
            for (const int b : chain.conductors) usable[at(b)] = false;
    return usable;
}

/// The greatest current through a device into a short right behind it, from either side.
std::optional<Break> to_break(const Seen& facts, const Throughs& throughs, const Device& d,
                              Current capacity) {
    const auto& b = facts.network.branches[at(d.branch)];
    std::optional<Break> most;
    for (const auto& [from, to] : {std::pair{b.a, b.b}, {b.b, b.a}})
        if (const auto through = throughs.into(d.branch, from, to, Throughs::Which::largest))
            if (!most || *through > most->fault) most = Break{d, *through, capacity, to};
    return most;
}

/// What is left of it when a slow link opens: after a tenth of a second lead's first peak is over.
void at_opening(const Seen& facts, Break& b) {
    constexpr double peak_s = 0.1;
    if (!b.device.type || !b.device.rating || !above(b.fault, b.capacity)) return;
    const auto opens = protect::opening(*b.device.type, *b.device.rating, b.fault).least;
    if (!opens || opens->si() < peak_s) return;
    const auto& at_first = facts.faults[at(b.node)].largest;
    const auto later = fault::plateau(facts.installation, facts.network, b.node);
    if (later && at_first) b.fault = b.fault * (later->total / at_first->total);
}

/// Which devices stand between a weak one and the batteries. Asked for many: what they have in common, the
/// devices that can break as much, makes one picture.
class Backing {
public:
    Backing(const Seen& facts, const std::vector<Break>& all)
        : facts_(facts)
        , all_(all) {}

    /// Devices that can break this fault and stand between the device and every battery; empty when a battery
    /// reaches it past them. `limiting`: only those that cut a large short off in its first rise.
    const std::vector<int>& of(const Break& weak, bool limiting) {
        std::vector<bool> strong;
        for (const Break& other : all_) {
            const bool counts = !limiting || (other.device.type && other.device.type->limits_current);
            strong.push_back(counts && !above(weak.fault, other.capacity));
        }
        const auto [picture, fresh] = pictures_.try_emplace(strong);
        if (fresh) picture->second = make(strong);
        return picture->second
            .of_island[at(picture->second.island[at(facts_.network.branches[at(weak.device.branch)].a)])];
    }

private:
    struct Picture {
        std::vector<int> island;                 ///< per node, the strong devices taken out
        std::vector<std::vector<int>> of_island; ///< branches; empty where a battery is on it
    };

    Picture make(const std::vector<bool>& strong) const {
        const auto& net = facts_.network;
        auto usable = facts_.live;
        for (std::size_t i = 0; i < all_.size(); ++i)
            if (strong[i]) usable[at(all_[i].device.branch)] = false;
        Picture p;
        p.island = network::islands(net, usable);
        p.of_island.resize(net.nodes.size());
        for (std::size_t i = 0; i < all_.size(); ++i) {
            if (!strong[i]) continue;
            const auto& branch = net.branches[at(all_[i].device.branch)];
            const int a = p.island[at(branch.a)], b = p.island[at(branch.b)];
            p.of_island[at(a)].push_back(all_[i].device.branch);
            if (b != a) p.of_island[at(b)].push_back(all_[i].device.branch);
        }
        for (const auto& s : facts_.sources)
            if (!s.limit && !s.not_known) p.of_island[at(p.island[at(s.node)])].clear();
        return p;
    }

    const Seen& facts_;
    const std::vector<Break>& all_;
    std::map<std::vector<bool>, Picture> pictures_;
};

} // namespace

std::vector<Break> breaks(const Seen& facts) {
    const Throughs throughs(facts, without_bare(facts));
    const auto nominal = nominal_of_islands(facts);
    std::vector<Break> out;
    for (const Device& d : facts.devices) {
        auto capacity = d.breaking;
        if (!capacity && d.type) {
            const auto known = nominal.find(facts.live_island[at(facts.network.branches[at(d.branch)].a)]);
            capacity = protect::breaking_capacity(
                *d.type, known != nominal.end() ? known->second : catalogue::nominal_of(facts.installation));
        }
        if (!capacity) continue;
        auto b = to_break(facts, throughs, d, *capacity);
        if (!b) continue;
        at_opening(facts, *b);
        out.push_back(std::move(*b));
    }
    return out;
}

std::vector<bool> backed_up(const Seen& facts, const std::vector<Break>& all) {
    Backing backing(facts, all);
    std::vector<bool> out;
    for (const Break& b : all) out.push_back(above(b.fault, b.capacity) && !backing.of(b, true).empty());
    return out;
}

void breaking_capacity_low(const Seen& facts, std::vector<Finding>& out) {
    const double near = catalogue::default_number("fault.near_limit").value;
    const auto all = breaks(facts);
    Backing backing(facts, all);
    // One cause: the ways of a box that are too weak; and all that others back.
    std::map<std::pair<plan::ComponentId, bool>, std::vector<const Break*>> boxes;
    std::vector<const Break*> backed;
    std::map<const Break*, int> strong_of;
    std::vector<std::vector<const Break*>> causes;
    for (const Break& b : all) {
        const auto& branch = facts.network.branches[at(b.device.branch)];
        if (as_found(facts, branch.component) || !above(b.fault, b.capacity)) continue;
        if (!backing.of(b, true).empty()) continue;
        const bool at_limit = !above(b.fault, b.capacity * (1 + near));
        if (const auto& strong = backing.of(b, false); !strong.empty()) {
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

std::map<int, Voltage> highest_of_islands(const Seen& facts) {
    const auto& in = facts.installation;
    std::map<int, Voltage> highest;
    const auto take = [&](int node, std::optional<Voltage> v) {
        if (!v) return;
        auto& known = highest.try_emplace(facts.live_island[at(node)], *v).first->second;
        known = std::max(known, *v);
    };
    for (const auto& p : facts.network.ports) {
        if (const auto* b = network::parameters<plan::Battery>(in, p)) {
            const auto& data = catalogue::chemistry(b->chemistry);
            const Voltage nominal = b->nominal ? *b->nominal : catalogue::nominal_of(in);
            take(p.plus, data.absorption_per_cell * (data.cells_per_12V * nominal.si() / 12));
        }
        if (const auto* a = network::parameters<plan::Alternator>(in, p))
            take(p.plus, a->set_voltage.value), take(p.plus, a->overrun_voltage.value);
        if (const auto* m = network::parameters<plan::MainsCharger>(in, p))
            take(p.plus, m->set_voltage.value);
        if (const auto* s = network::parameters<plan::SolarController>(in, p))
            take(p.plus, s->set_voltage.value);
    }
    for (const auto& c : facts.network.converters) {
        if (const auto* x = network::parameters<plan::DriveCharger>(in, c))
            take(c.out_plus, x->set_voltage.value);
        if (const auto* x = network::parameters<plan::Converter>(in, c))
            take(c.out_plus, x->set_voltage.value);
    }
    return highest;
}

void device_voltage_low(const Seen& facts, std::vector<Finding>& out) {
    const auto& net = facts.network;
    const auto highest_of = highest_of_islands(facts);
    std::map<plan::ComponentId, std::size_t> boxes;
    for (const Device& d : facts.devices) {
        if (!d.voltage || as_found(facts, net.branches[at(d.branch)].component)) continue;
        const auto highest = highest_of.find(facts.live_island[at(net.branches[at(d.branch)].a)]);
        if (highest == highest_of.end() || !above(highest->second, *d.voltage)) continue;
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
        f.values["highest"] = highest->second;
        out.push_back(std::move(f));
    }
}

} // namespace fl::rules
