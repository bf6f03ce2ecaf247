#include "core/quantity/limit.h"
#include "core/rules/list.h"

#include <algorithm>
#include <cmath>

// Does each load get the voltage it needs?

namespace fl::rules {
namespace {

using condition::Solved;
using network::PortKind;

/// What each branch of a load's way there and back loses in one condition.
struct Lost {
    int branch = -1;
    double volts = 0;
    bool live = false;
};

std::vector<Lost> losses(const Facts& facts, const Solved& solved, int port) {
    const auto& load = facts.network.ports[at(port)];
    const auto& reference = solved.setup.references[at(port)];
    int plus = -1, minus = -1;
    if (reference.port >= 0) {
        plus = facts.network.ports[at(reference.port)].plus;
        minus = facts.network.ports[at(reference.port)].minus;
    } else if (reference.converter >= 0) {
        plus = facts.network.converters[at(reference.converter)].out_plus;
        minus = facts.network.converters[at(reference.converter)].out_minus;
    } else {
        return {};
    }
    std::vector<bool> usable(facts.network.branches.size());
    for (std::size_t b = 0; b < usable.size(); ++b) {
        const int r = solved.setup.map.resistor_of_branch[b];
        usable[b] = r >= 0 && solved.setup.circuit.resistors[at(r)].closed;
    }
    std::vector<Lost> out;
    const auto add = [&](int from, int to, bool live) {
        const auto way = network::shortest_way(facts.installation, facts.network, {from}, to, usable);
        if (!way) return;
        for (const int b : way->branches) {
            const auto& resistor =
                solved.setup.circuit.resistors[at(solved.setup.map.resistor_of_branch[at(b)])];
            const auto& v = solved.solution.node_V;
            out.push_back({b, std::fabs(v[at(resistor.a)] - v[at(resistor.b)]), live});
        }
    };
    add(plus, load.plus, true);
    add(minus, load.minus, false);
    return out;
}

/// The allowed drop of a load or an inverter, as a share of nominal.
std::optional<Ratio> allowed_drop(const Facts& facts, const network::Port& port) {
    if (const auto* load = network::parameters<plan::Load>(facts.installation, port))
        return load->drop_limit ? load->drop_limit.value
                                : std::optional(catalogue::drop_limit(facts.rule_set, load->purpose).value);
    if (network::parameters<plan::Inverter>(facts.installation, port)) {
        const auto* limit = facts.rule_set.limit("drop.inverter");
        if (limit && limit->value) return Ratio::si(*limit->value);
    }
    return {};
}

struct TooMuch {
    int port = -1;
    Voltage drop, allowed;
    Voltage nominal;
    int condition = -1;
    std::vector<Lost> lost;
    int main = -1; ///< branch of the conductor that loses most
};

std::vector<TooMuch> too_much(const Facts& facts) {
    std::vector<TooMuch> all;
    for (std::size_t p = 0; p < facts.network.ports.size(); ++p) {
        const auto& port = facts.network.ports[p];
        const auto& drop = facts.envelope.port_drop[p];
        const auto share = allowed_drop(facts, port);
        if (!drop || !share || as_found(facts, port.component)) continue;
        TooMuch t;
        t.port = static_cast<int>(p);
        t.drop = drop.value;
        t.nominal = facts.conditions[at(drop.condition)].setup.references[p].nominal;
        t.allowed = t.nominal * share->si();
        t.condition = drop.condition;
        if (!above(t.drop, t.allowed)) continue;
        const Solved& solved = facts.conditions[at(drop.condition)];
        if (solved.solution.usable) t.lost = losses(facts, solved, t.port);
        double most = 0;
        for (const Lost& l : t.lost) {
            const auto* c = conductor_of(facts, l.branch);
            // The live one of a pair speaks; as found is not ours to change.
            const double weight = l.volts * (l.live ? 1.05 : 1);
            if (c && c->origin != plan::Origin::as_found && weight > most) most = weight, t.main = l.branch;
        }
        all.push_back(std::move(t));
    }
    return all;
}

/// The size at which the conductor and its equal on the other pole lose so much less.
std::optional<WireSize> thicker(const Facts& facts, const TooMuch& t) {
    const auto* c = t.main >= 0 ? conductor_of(facts, t.main) : nullptr;
    if (!c || !c->size) return {};
    double pair = 0;
    for (const Lost& l : t.lost) {
        const auto* other = conductor_of(facts, l.branch);
        if (other && other->size && area_of(*other) == area_of(*c)) pair += l.volts;
    }
    const double excess = t.drop.si() - t.allowed.si();
    if (pair <= excess) return {}; // not this conductor alone
    return sizing::next_size(area_of(*c) * (pair / (pair - excess)), facts.rule_set.gauges);
}

} // namespace

void drop_too_large(const Facts& facts, std::vector<Finding>& out) {
    std::map<int, std::vector<TooMuch>> causes; // by the conductor that loses most
    for (TooMuch& t : too_much(facts)) {
        const int cause = t.main >= 0 ? t.main : -2 - t.port; // none: a cause of its own
        causes[cause].push_back(std::move(t));
    }
    for (auto& [cause, loads] : causes) {
        std::stable_sort(loads.begin(), loads.end(), [](const TooMuch& x, const TooMuch& y) {
            return x.drop / x.allowed > y.drop / y.allowed;
        });
        const TooMuch& worst = loads.front();
        Finding f = make(facts, "drop-too-large");
        const auto subject = [&](const TooMuch& t) {
            return plan::Subject::of(facts.network.ports[at(t.port)].component);
        };
        if (worst.main >= 0) {
            const auto* c = conductor_of(facts, worst.main);
            if (loads.size() > 1) { // several loads: what they share is the place
                f.subjects.push_back(plan::Subject::of(c->id));
                f.values["loads"] = static_cast<std::int64_t>(loads.size());
            }
            f.values["conductor"] = c->designation;
            if (c->size) f.values["size"] = *c->size;
        }
        for (const TooMuch& t : loads) f.subjects.push_back(subject(t));
        if (worst.main >= 0 && loads.size() == 1)
            f.subjects.push_back(subject_of(facts.network.branches[at(worst.main)]));
        f.values["worst"] = designation(facts, subject(worst));
        f.values["drop"] = worst.drop;
        f.values["share"] = Ratio::si(worst.drop / worst.nominal);
        f.values["limit"] = Ratio::si(worst.allowed / worst.nominal);
        if (const auto size = thicker(facts, worst)) f.values["fit_size"] = *size;
        f.condition = facts.conditions[at(worst.condition)].condition.name;
        out.push_back(std::move(f));
    }
}

namespace {

/// Index in `of` whose entry is `wanted`, or -1.
int index_of(const std::vector<int>& of, int wanted) {
    const auto found = std::find(of.begin(), of.end(), wanted);
    return found == of.end() ? -1 : static_cast<int>(found - of.begin());
}

bool lasting(const plan::Condition& c) {
    return !c.duration;
}

struct Starved {
    plan::ComponentId load;
    Voltage reached;
    std::optional<Voltage> lowest;
    std::optional<Power> greatest;
    std::string condition;
};

} // namespace

void load_starved(const Facts& facts, std::vector<Finding>& out) {
    std::map<int, std::vector<Starved>> causes; // by the limiting branch; -1 = not known
    for (const Solved& s : facts.conditions) {
        if (!s.solution.usable || !lasting(s.condition)) continue;
        for (const auto& v : s.solution.verdicts) {
            Starved starved;
            if (v.code == solve::VerdictCode::starved && v.subject.kind == solve::ElementKind::load) {
                const int port = index_of(s.setup.map.load_of_port, v.subject.index);
                if (port < 0) continue;
                starved.load = facts.network.ports[at(port)].component;
                const double lowest = s.setup.circuit.loads[at(v.subject.index)].lowest_V;
                if (lowest > 0) starved.lowest = Voltage::si(lowest);
            } else if (v.code == solve::VerdictCode::converter_starved) {
                const int k = index_of(s.setup.map.converter_of, v.subject.index);
                if (k < 0) continue;
                starved.load = facts.network.converters[at(k)].component;
            } else {
                continue;
            }
            if (as_found(facts, starved.load)) continue;
            starved.reached = Voltage::si(v.reached_V);
            if (v.greatest_W) starved.greatest = Power::si(*v.greatest_W);
            starved.condition = s.condition.name;
            const int limiting = v.limiting.kind == solve::ElementKind::resistor
                                     ? index_of(s.setup.map.resistor_of_branch, v.limiting.index)
                                     : -1;
            auto& cause = causes[limiting];
            const auto known = std::find_if(cause.begin(), cause.end(),
                                            [&](const Starved& other) { return other.load == starved.load; });
            if (known == cause.end())
                cause.push_back(starved);
            else if (starved.reached < known->reached) // the worst condition speaks
                *known = starved;
        }
    }
    std::vector<plan::ComponentId> said; // a load is starved once, by its first cause
    for (auto& [limiting, loads] : causes) {
        std::erase_if(loads, [&](const Starved& s) {
            return std::find(said.begin(), said.end(), s.load) != said.end();
        });
        if (loads.empty()) continue;
        for (const Starved& s : loads) said.push_back(s.load);
        std::stable_sort(loads.begin(), loads.end(),
                         [](const Starved& x, const Starved& y) { return x.reached < y.reached; });
        const Starved& worst = loads.front();
        Finding f = make(facts, "load-starved");
        if (limiting >= 0) {
            const auto subject = subject_of(facts.network.branches[at(limiting)]);
            f.values["limiting"] = designation(facts, subject);
            if (loads.size() > 1) {
                f.subjects.push_back(subject);
                f.values["loads"] = static_cast<std::int64_t>(loads.size());
            }
        }
        for (const Starved& s : loads) f.subjects.push_back(plan::Subject::of(s.load));
        if (limiting >= 0 && loads.size() == 1)
            f.subjects.push_back(subject_of(facts.network.branches[at(limiting)]));
        f.values["worst"] = designation(facts, worst.load);
        f.values["reached"] = worst.reached;
        if (worst.lowest) f.values["lowest"] = *worst.lowest;
        if (worst.greatest) f.values["greatest"] = *worst.greatest;
        f.condition = worst.condition;
        out.push_back(std::move(f));
    }
}

void no_operating_point(const Facts& facts, std::vector<Finding>& out) {
    std::vector<const Solved*> none;
    std::map<plan::ComponentId, std::string> rings; // converters that feed themselves, first condition
    for (const Solved& s : facts.conditions) {
        if (!s.solution.usable) none.push_back(&s);
        for (const auto& v : s.solution.verdicts)
            if (v.code == solve::VerdictCode::feeds_itself)
                if (const int k = index_of(s.setup.map.converter_of, v.subject.index); k >= 0)
                    rings.emplace(facts.network.converters[at(k)].component, s.condition.name);
    }
    if (!none.empty()) {
        Finding f = make(facts, "no-operating-point");
        for (const Solved* s : none) f.subjects.push_back(plan::Subject::of(s->condition.id));
        f.values["conditions"] = static_cast<std::int64_t>(none.size());
        f.condition = none.front()->condition.name;
        out.push_back(std::move(f));
    }
    if (!rings.empty()) {
        Finding f = make(facts, "feeds-itself");
        for (const auto& [id, name] : rings) f.subjects.push_back(plan::Subject::of(id));
        f.condition = rings.begin()->second;
        out.push_back(std::move(f));
    }
}

} // namespace fl::rules
