#include "core/rules/list.h"
#include "core/rules/losses.h"

#include <algorithm>
#include <set>

// Does each load run at all?

namespace fl::rules {
namespace {

using condition::Solved;

/// Index in `of` whose entry is `wanted`, or -1.
int index_of(const std::vector<int>& of, int wanted) {
    const auto found = std::find(of.begin(), of.end(), wanted);
    return found == of.end() ? -1 : static_cast<int>(found - of.begin());
}

/// The same for many: per number from 0, the index whose entry it is, or -1.
std::vector<int> inverse(const std::vector<int>& of) {
    std::vector<int> index;
    for (std::size_t i = 0; i < of.size(); ++i) {
        if (of[i] < 0) continue;
        if (at(of[i]) >= index.size()) index.resize(at(of[i]) + 1, -1);
        if (index[at(of[i])] < 0) index[at(of[i])] = static_cast<int>(i);
    }
    return index;
}
int entry(const std::vector<int>& index, int wanted) {
    return wanted >= 0 && at(wanted) < index.size() ? index[at(wanted)] : -1;
}

/// A fuse or switch gets no thicker: the conductor of these that loses most, if any does.
int conductor_for(const Facts& facts, const std::vector<Lost>& lost, int branch) {
    if (conductor_of(facts, branch)) return branch;
    int best = branch;
    double most = 0;
    for (const Lost& l : lost)
        if (l.volts > most) most = l.volts, best = l.branch;
    return best;
}

bool lasting(const plan::Condition& c) {
    return !c.duration;
}

/// The live conductor in place of its return, where it loses about as much: a fitter says the feeder.
int live_of_pair(const std::vector<Lost>& lost, int branch) {
    const auto own =
        std::find_if(lost.begin(), lost.end(), [&](const Lost& l) { return l.branch == branch; });
    if (own == lost.end() || own->live) return branch;
    for (const Lost& l : lost)
        if (l.live && l.volts > 0.9 * own->volts) return l.branch;
    return branch;
}

/// Per node, the converter at its limit that alone feeds it, no battery standing by; -1 = none. Copper is
/// then no cure.
std::vector<int> limited_sources(const Seen& facts, const Solved& s) {
    const auto& net = facts.network;
    auto usable = facts.live;
    for (std::size_t b = 0; b < usable.size(); ++b) {
        const int r = s.setup.map.resistor_of_branch[b];
        usable[b] = usable[b] && r >= 0 && s.setup.circuit.resistors[at(r)].closed;
    }
    const auto island = network::islands(net, usable);
    constexpr int none = -1, battery = -2;
    std::vector<int> of(net.nodes.size(), none); // per island
    for (const auto& p : net.ports)
        if (p.kind == network::PortKind::battery) of[at(island[at(p.plus)])] = battery;
    for (std::size_t k = 0; k < net.converters.size(); ++k) {
        const int c = s.setup.map.converter_of[k];
        if (c < 0) continue;
        int& source = of[at(island[at(net.converters[k].out_plus)])];
        const auto mode = s.solution.converter_mode[at(c)];
        const bool limited =
            mode == solve::ConverterMode::output_limited || mode == solve::ConverterMode::input_limited;
        if (limited && source == none) source = static_cast<int>(k);
    }
    std::vector<int> out;
    for (const int i : island) out.push_back(std::max(none, of[at(i)]));
    return out;
}

struct Starved {
    plan::ComponentId load;
    Voltage reached;
    std::optional<Voltage> lowest;
    std::optional<Power> greatest;
    std::string condition;
};

} // namespace

void load_starved(const Seen& facts, std::vector<Finding>& out) {
    // By the limiting branch; -1 = not known; from -2 downwards the converter that gives no more.
    std::map<int, std::vector<Starved>> causes;
    std::map<std::pair<int, plan::ComponentId>, std::size_t> place; // in its cause
    const auto converter_of = [](int cause) { return -2 - cause; };
    for (const Solved& s : facts.conditions) {
        if (!s.solution.usable || !lasting(s.condition) || s.solution.verdicts.empty()) continue;
        const auto port_of = inverse(s.setup.map.load_of_port),
                   two_port_of = inverse(s.setup.map.converter_of),
                   branch_of = inverse(s.setup.map.resistor_of_branch);
        const auto limited = limited_sources(facts, s);
        Losses losses(facts, s);
        for (const auto& v : s.solution.verdicts) {
            Starved starved;
            if (v.code == solve::VerdictCode::starved && v.subject.kind == solve::ElementKind::load) {
                const int port = entry(port_of, v.subject.index);
                if (port < 0) continue;
                starved.load = facts.network.ports[at(port)].component;
                const double lowest = s.setup.circuit.loads[at(v.subject.index)].lowest_V;
                if (lowest > 0) starved.lowest = Voltage::si(lowest);
            } else if (v.code == solve::VerdictCode::converter_starved) {
                const int k = entry(two_port_of, v.subject.index);
                if (k < 0) continue;
                starved.load = facts.network.converters[at(k)].component;
            } else {
                continue;
            }
            if (as_found(facts, starved.load)) continue;
            starved.reached = Voltage::si(v.reached_V);
            if (v.greatest_W) starved.greatest = Power::si(*v.greatest_W);
            starved.condition = s.condition.name;
            int limiting =
                v.limiting.kind == solve::ElementKind::resistor ? entry(branch_of, v.limiting.index) : -1;
            if (limiting >= 0 && v.subject.kind == solve::ElementKind::load) {
                auto lost = losses.of(entry(port_of, v.subject.index));
                std::erase_if(lost, [&](const Lost& l) { return !conductor_of(facts, l.branch); });
                limiting = conductor_for(facts, lost, limiting);
                limiting = live_of_pair(lost, limiting);
            }
            if (v.subject.kind == solve::ElementKind::load) {
                const int port = entry(port_of, v.subject.index);
                if (const int k = limited[at(facts.network.ports[at(port)].plus)]; k >= 0) limiting = -2 - k;
            }
            auto& cause = causes[limiting];
            const auto [known, fresh] = place.try_emplace({limiting, starved.load}, cause.size());
            if (fresh)
                cause.push_back(starved);
            else if (starved.reached < cause[known->second].reached) // the worst condition speaks
                cause[known->second] = starved;
        }
    }
    std::set<plan::ComponentId> said; // a load is starved once, by its first cause
    for (auto& [limiting, loads] : causes) {
        std::erase_if(loads, [&](const Starved& s) { return said.contains(s.load); });
        if (loads.empty()) continue;
        for (const Starved& s : loads) said.insert(s.load);
        std::stable_sort(loads.begin(), loads.end(),
                         [](const Starved& x, const Starved& y) { return x.reached < y.reached; });
        const Starved& worst = loads.front();
        Finding f = make(facts, "load-starved");
        if (limiting >= 0) {
            const auto subject = subject_of(facts.network.branches[at(limiting)]);
            f.values[conductor_of(facts, limiting) ? "limiting" : "most"] = designation(facts, subject);
            if (loads.size() > 1) {
                f.subjects.push_back(subject);
                f.values["loads"] = static_cast<std::int64_t>(loads.size());
            }
        }
        if (limiting < -1) {
            const auto source = facts.network.converters[at(converter_of(limiting))].component;
            f.values["source"] = designation(facts, source);
            if (loads.size() > 1) {
                f.subjects.push_back(plan::Subject::of(source));
                f.values["loads"] = static_cast<std::int64_t>(loads.size());
            }
        }
        for (const Starved& s : loads) f.subjects.push_back(plan::Subject::of(s.load));
        if (limiting >= 0 && loads.size() == 1)
            f.subjects.push_back(subject_of(facts.network.branches[at(limiting)]));
        f.values["worst"] = designation(facts, worst.load);
        f.values["reached"] = worst.reached;
        if (worst.lowest) f.values["lowest"] = *worst.lowest;
        if (worst.greatest && limiting >= -1) f.values["greatest"] = *worst.greatest;
        f.condition = worst.condition;
        out.push_back(std::move(f));
    }
}

void no_operating_point(const Seen& facts, std::vector<Finding>& out) {
    std::vector<const Solved*> none;
    std::map<plan::ComponentId, std::string> rings; // converters that feed themselves, first condition
    for (const Solved& s : facts.conditions) {
        // Sources that work against each other are said by themselves (solve.opposed).
        const auto& said = s.solution.verdicts;
        if (!s.solution.usable && std::none_of(said.begin(), said.end(), [](const solve::Verdict& v) {
                return v.code == solve::VerdictCode::opposed_sources;
            }))
            none.push_back(&s);
        for (const auto& v : s.solution.verdicts)
            if (v.code == solve::VerdictCode::feeds_itself)
                if (const int k = index_of(s.setup.map.converter_of, v.subject.index); k >= 0)
                    rings.emplace(facts.network.converters[at(k)].component, s.condition.name);
    }
    if (!none.empty()) {
        Finding f = make(facts, "no-operating-point");
        for (const Solved* s : none)
            if (s->condition.id) f.subjects.push_back(plan::Subject::of(s->condition.id));
        if (none.size() > 1) f.values["more"] = static_cast<std::int64_t>(none.size() - 1);
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
