#include "core/solve/verdicts.h"

#include "core/solve/greatest.h"
#include "core/solve/heat.h"
#include "core/solve/index.h"

#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

namespace fl::solve {

namespace {

// A limit is compared with this in hand, so that last bits never decide.
constexpr double hand = 1e-6;

bool below(double value, double limit) {
    return value < limit - hand * std::max(1.0, limit);
}

bool contains(const std::vector<Element>& all, Element one) {
    return std::find(all.begin(), all.end(), one) != all.end();
}

/// The most that can go round through this converter: the widest way from its output back to its input over
/// converters that run, by the power each puts out.
double circulating_W(const Topology& t, const std::vector<double>& out_W, std::size_t output) {
    struct Reached {
        std::size_t output;
        double watts;
    };
    std::vector<Reached> reached{{output, out_W[output]}};
    double most = 0;
    for (std::size_t k = 0; k < reached.size(); ++k) {
        const Reached here = reached[k];
        if (t.block[here.output] == t.block[output - 1]) {
            most = std::max(most, here.watts);
            continue;
        }
        for (std::size_t p = 1; p < t.ports.size(); ++p) {
            if (!t.ports[p].output || t.block[p - 1] != t.block[here.output]) continue;
            const double watts = std::min(here.watts, out_W[p]);
            const bool better = std::none_of(reached.begin(), reached.end(), [&](const Reached& r) {
                return r.output == p && r.watts >= watts;
            });
            if (better && watts > 0) reached.push_back({p, watts});
        }
    }
    return most;
}

/// Rings of converters with a source in them run, and waste what goes round.
void say_of_rings(const System& system, const Point& point, Solution& solution) {
    constexpr double noticed_W = 1;
    const Topology& t = system.topology();
    std::vector<double> out_W(t.ports.size(), 0);
    for (std::size_t p = 1; p < t.ports.size(); ++p)
        if (t.ports[p].output)
            out_W[p] = system.across(point.x, t.ports[p].plus, t.ports[p].minus) *
                       solution.converter_out_A[at(t.ports[p].element.index)];
    for (std::size_t p = 1; p < t.ports.size(); ++p) {
        if (!t.ports[p].output || !contains(t.rings, t.ports[p].element)) continue;
        const double watts = circulating_W(t, out_W, p);
        if (watts < noticed_W) continue;
        Verdict verdict;
        verdict.code = VerdictCode::circulates;
        verdict.subject = t.ports[p].element;
        verdict.reached_V = system.across(point.x, t.ports[p].plus, t.ports[p].minus);
        verdict.greatest_W = watts;
        solution.verdicts.push_back(verdict);
    }
}

/// What feeds starved loads at most, and what limits that. Each takes some fifty solutions: where a whole
/// part of the network starves, they are made for those that get least, and the others are told which
/// conductor costs them most voltage, to first order.
void say_what_limits(const System& system, const Point& point, const Options& options, Solution& solution) {
    constexpr std::size_t few = 8, of_many = 2, to_first_order = 32;
    std::vector<Verdict*> starved;
    for (Verdict& v : solution.verdicts)
        if (v.code == VerdictCode::starved) starved.push_back(&v);
    if (starved.empty()) return;
    std::vector<std::size_t> port_of(system.circuit().loads.size(), 0);
    const Topology& t = system.topology();
    for (std::size_t p = 0; p < t.ports.size(); ++p)
        if (t.ports[p].element.kind == ElementKind::load) port_of[at(t.ports[p].element.index)] = p;
    if (starved.size() > few)
        std::stable_sort(starved.begin(), starved.end(),
                         [](const Verdict* a, const Verdict* b) { return a->reached_V < b->reached_V; });
    const std::size_t worked_out = starved.size() > few ? of_many : starved.size();
    for (std::size_t k = 0; k < worked_out; ++k) {
        Verdict& v = *starved[k];
        const Port& port = t.ports[port_of[at(v.subject.index)]];
        const double rest_V = system.across(point.rest, port.plus, port.minus);
        if (const auto g = greatest_power(system, point.x, v.subject.index, rest_V, options)) {
            v.greatest_W = g->watts;
            v.limiting = g->limiting;
        }
    }
    if (worked_out == starved.size()) return;
    System again(system.circuit(), t);
    again.load_knee_V = system.load_knee_V;
    again.converter_knee_V = system.converter_knee_V;
    std::vector<std::pair<int, int>> ends;
    for (std::size_t k = worked_out; k < std::min(starved.size(), worked_out + to_first_order); ++k) {
        const Port& port = t.ports[port_of[at(starved[k]->subject.index)]];
        ends.emplace_back(t.voltage[at(port.plus)], t.voltage[at(port.minus)]);
    }
    const std::vector<int> dearest = Newton(again, options).dearest(point.x, ends);
    for (std::size_t k = 0; k < dearest.size(); ++k)
        if (dearest[k] >= 0) starved[worked_out + k]->limiting = {ElementKind::resistor, dearest[k]};
}

} // namespace

void say_of_topology(const Circuit& c, const Topology& t, Solution& solution) {
    auto say = [&solution](VerdictCode code, Element subject) {
        Verdict verdict;
        verdict.code = code;
        verdict.subject = subject;
        solution.verdicts.push_back(verdict);
    };
    for (const Element& e : t.opposed) say(VerdictCode::opposed_sources, e);
    std::vector<char> fed_load(c.loads.size(), 0), fed_converter(c.converters.size(), 0);
    for (std::size_t p = 0; p < t.ports.size(); ++p) {
        const Port& port = t.ports[p];
        if (!t.live[p]) continue;
        if (t.spare[p] && !contains(t.opposed, port.element)) say(VerdictCode::opposed_sources, port.element);
        if (port.element.kind == ElementKind::load) fed_load[at(port.element.index)] = 1;
        if (port.element.kind == ElementKind::converter && !port.output)
            fed_converter[at(port.element.index)] = 1;
    }
    for (std::size_t k = 0; k < c.loads.size(); ++k)
        if (c.loads[k].on && !fed_load[k] && (c.loads[k].value > 0 || c.loads[k].law == LoadLaw::resistance))
            say(VerdictCode::dead, {ElementKind::load, static_cast<int>(k)});
    for (std::size_t k = 0; k < c.converters.size(); ++k) {
        if (!c.converters[k].on || fed_converter[k]) continue;
        const Element element{ElementKind::converter, static_cast<int>(k)};
        const bool ring = contains(t.feed_selves, element);
        say(ring ? VerdictCode::feeds_itself : VerdictCode::converter_starved, element);
    }
}

void say_of_point(const System& system, const Point& point, const Options& options, Solution& solution) {
    const Circuit& c = system.circuit();
    const Topology& t = system.topology();
    say_of_rings(system, point, solution);
    for (std::size_t p = 0; p < t.ports.size(); ++p) {
        if (!t.live[p]) continue;
        const Port& port = t.ports[p];
        const std::size_t k = at(port.element.index);
        Verdict verdict;
        verdict.subject = port.element;
        verdict.reached_V = system.across(point.x, port.plus, port.minus);
        if (port.element.kind == ElementKind::load) {
            const Load& load = c.loads[k];
            if (below(verdict.reached_V, load.lowest_V) ||
                (load.law != LoadLaw::resistance && below(verdict.reached_V, system.load_knee_V[k]))) {
                verdict.code = VerdictCode::starved;
                solution.verdicts.push_back(verdict);
            } else if (below(load.highest_V, verdict.reached_V)) {
                verdict.code = VerdictCode::over_voltage;
                solution.verdicts.push_back(verdict);
            }
        } else if (port.element.kind == ElementKind::converter && !port.output && c.converters[k].on) {
            if (!below(verdict.reached_V, system.converter_knee_V[k])) continue;
            verdict.code = VerdictCode::converter_starved;
            solution.verdicts.push_back(verdict);
        } else if (port.element.kind == ElementKind::resistor && c.resistors[k].thermal) {
            if (!warm(*c.resistors[k].thermal, solution.resistor_A[k]).beyond) continue;
            verdict.code = VerdictCode::too_hot;
            solution.verdicts.push_back(verdict);
        }
    }
    say_what_limits(system, point, options, solution);
}

} // namespace fl::solve
