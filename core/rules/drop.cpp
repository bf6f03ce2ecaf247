#include "core/rules/drop.h"

#include "core/quantity/limit.h"
#include "core/rules/list.h"
#include "core/rules/losses.h"

#include <algorithm>

// What each load may lose on its way.

namespace fl::rules {
namespace {

using condition::Solved;

std::optional<AllowedDrop> allowed_by(const catalogue::RuleSet& rules, const char* id) {
    const auto* limit = rules.limit(id);
    if (!limit || !limit->value) return {};
    return AllowedDrop{Ratio::si(*limit->value), id};
}

} // namespace

std::optional<AllowedDrop> allowed_drop(const plan::Installation& in, const catalogue::RuleSet& rules,
                                        const network::Port& port) {
    if (network::parameters<plan::Inverter>(in, port)) return allowed_by(rules, "drop.inverter");
    const auto* load = network::parameters<plan::Load>(in, port);
    if (!load) return {};
    if (load->drop_limit) return AllowedDrop{*load->drop_limit, ""};
    const auto by_purpose = catalogue::drop_limit(rules, load->purpose);
    const auto* critical = rules.limit("drop.critical");
    const bool is_critical = critical && critical->value && by_purpose.value == Ratio::si(*critical->value);
    AllowedDrop allowed{by_purpose.value, is_critical ? "drop.critical" : "drop.other"};
    if (load->duty != plan::Duty::continuous)
        if (const auto brief = allowed_by(rules, "drop.short_motor"); brief && allowed.share < brief->share)
            return brief;
    return allowed;
}

namespace {

struct TooMuch {
    int port = -1;
    Voltage drop, allowed;
    Voltage nominal;
    int condition = -1;
    std::string limit; ///< of the rule set; empty = the load's own
    std::vector<Lost> lost;
    int main = -1;       ///< branch of the conductor that loses most
    int loses_most = -1; ///< branch that loses most, be it a conductor or not
};

/// Per load of the circuit: dead in this condition.
std::vector<bool> dead_loads(const Solved& s) {
    std::vector<bool> dead(s.setup.circuit.loads.size());
    for (const auto& v : s.solution.verdicts)
        if (v.code == solve::VerdictCode::dead && v.subject.kind == solve::ElementKind::load)
            dead[at(v.subject.index)] = true;
    return dead;
}

/// Voltage of what feeds the load less the load's own, while it runs; empty when it does not.
std::optional<Voltage> drop_in(const Facts& facts, const Solved& s, const std::vector<bool>& dead,
                               std::size_t port) {
    const int load = s.setup.map.load_of_port[port];
    const auto& reference = s.setup.references[port];
    if (!s.solution.usable || load < 0 || !s.setup.circuit.loads[at(load)].on || dead[at(load)]) return {};
    const auto source = condition::voltage_between(s, condition::terminals_of(facts.network, reference));
    const auto own = condition::port_voltage(facts.network, s, static_cast<int>(port));
    if (!source || !own) return {};
    return *source - *own;
}

/// A load that runs briefly is judged while it does; a lasting one in lasting conditions only. What dims for
/// as long as an inverter surges or an engine is cranked is no fault of either, as in the worst of all
/// conditions.
bool judged_in(const Facts& facts, const network::Port& port, const plan::Condition& c) {
    const auto* load = network::parameters<plan::Load>(facts.installation, port);
    const bool brief = load && load->duty != plan::Duty::continuous;
    const bool uses =
        c.uses.empty() || std::find(c.uses.begin(), c.uses.end(), plan::Use::lowest_voltage) != c.uses.end();
    return uses && (!c.duration || (brief && *c.duration >= Time::si(10)));
}

std::vector<TooMuch> too_much(const Facts& facts) {
    std::vector<TooMuch> all;
    std::vector<std::vector<bool>> dead;
    for (const Solved& s : facts.conditions) dead.push_back(dead_loads(s));
    std::map<int, Losses> losses; // by condition
    for (std::size_t p = 0; p < facts.network.ports.size(); ++p) {
        const auto& port = facts.network.ports[p];
        const auto allowed = allowed_drop(facts.installation, facts.rule_set, port);
        if (!allowed || as_found(facts, port.component)) continue;
        TooMuch t;
        t.limit = allowed->limit;
        t.port = static_cast<int>(p);
        for (std::size_t c = 0; c < facts.conditions.size(); ++c) {
            if (!judged_in(facts, port, facts.conditions[c].condition)) continue;
            const auto drop = drop_in(facts, facts.conditions[c], dead[c], p);
            if (drop && (t.condition < 0 || *drop > t.drop))
                t.drop = *drop, t.condition = static_cast<int>(c);
        }
        if (t.condition < 0) continue;
        const Solved& solved = facts.conditions[at(t.condition)];
        t.nominal = solved.setup.references[p].nominal;
        t.allowed = t.nominal * allowed->share.si();
        if (!above(t.drop, t.allowed)) continue;
        t.lost = losses.try_emplace(t.condition, facts, solved).first->second.of(t.port);
        double most = 0, most_of_all = 0;
        for (const Lost& l : t.lost) {
            if (l.volts > most_of_all) most_of_all = l.volts, t.loses_most = l.branch;
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

void drop_too_large(const Seen& facts, std::vector<Finding>& out) {
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
        Finding f = make(facts, "drop-too-large", worst.limit);
        if (worst.limit.empty()) { // nobody's rule but the fitter's own
            f.grade = Grade::practice;
            f.must = false;
            f.source = record("drop-too-large").follows.back().source.citation;
        }
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
        }
        if (worst.loses_most >= 0)
            f.values["most"] = designation(facts, subject_of(facts.network.branches[at(worst.loses_most)]));
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

} // namespace fl::rules
