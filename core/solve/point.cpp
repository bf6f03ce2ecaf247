#include "core/solve/point.h"

#include "core/solve/index.h"
#include "core/solve/laws.h"
#include "core/solve/ramp.h"

#include <algorithm>
#include <initializer_list>
#include <optional>
#include <utility>

namespace fl::solve {

namespace {

/// Voltages of what draws power, in the order of the ports.
std::vector<double> drawn_at(const System& system, const std::vector<double>& x) {
    std::vector<double> volts;
    const Circuit& c = system.circuit();
    for (const Port& port : system.topology().ports) {
        const ElementKind kind = port.element.kind;
        const bool power_load =
            kind == ElementKind::load && c.loads[at(port.element.index)].law == LoadLaw::power;
        const bool input =
            kind == ElementKind::converter && !port.output && c.converters[at(port.element.index)].on;
        if (power_load || input) volts.push_back(system.across(x, port.plus, port.minus));
    }
    return volts;
}

struct Knees {
    std::vector<double> load_V, converter_V;
};

Knees knees_at(const System& system, const std::vector<double>& rest) {
    const Circuit& c = system.circuit();
    Knees knees{system.load_knee_V, system.converter_knee_V};
    for (const Port& port : system.topology().ports) {
        const ElementKind kind = port.element.kind;
        if (kind != ElementKind::load && (kind != ElementKind::converter || port.output)) continue;
        const double half = system.across(rest, port.plus, port.minus) / 2;
        const auto k = at(port.element.index);
        if (kind == ElementKind::load)
            knees.load_V[k] = std::max({c.loads[k].knee_V, half, least_knee_V});
        else
            knees.converter_V[k] = std::max({c.converters[k].in_knee_V, half, least_knee_V});
    }
    return knees;
}

void bend(System& system, Knees knees) {
    system.load_knee_V = std::move(knees.load_V);
    system.converter_knee_V = std::move(knees.converter_V);
}

/// The network with nothing drawn. A full lead battery takes current behind ohms and gives it behind
/// milliohms: Newton's method then goes round between the bounds of its alternator, whose row takes the
/// resistance outside for far less. Begun with the batteries charging, and with a margin that sees the line
/// between the bounds, it gets there; what it finds is polished with the usual one.
bool find_rest(System& system, Newton& newton, const std::vector<double>& nominal, int most,
               std::vector<double>& rest) {
    constexpr double wide = 100;
    rest = nominal;
    if (newton.solve(rest, most)) return true;
    rest = system.first_guess(true);
    system.margin = wide;
    const bool found = newton.solve(rest, most);
    system.margin = usual_margin;
    if (found && newton.solve(rest, most)) return true;
    rest = nominal;
    return newton.settle(rest);
}

} // namespace

Point find_point(System& system, Newton& newton, const Options& options, const Forest& forest) {
    Point point;
    const std::vector<double> nominal = system.first_guess();
    system.demand = 0;
    if (!find_rest(system, newton, nominal, options.newton_most, point.rest)) {
        point.x = point.rest;
        return point;
    }
    Knees knees = knees_at(system, point.rest);
    const bool only_one = only_one_point(system, forest, knees.load_V);
    const int sign = only_one ? 0 : newton.determinant_sign(point.rest);
    bend(system, std::move(knees));
    const std::vector<double> rest_V = drawn_at(system, point.rest);

    system.demand = 1;
    auto near_rest = [&](const std::vector<double>& x) {
        const std::vector<double> now = drawn_at(system, x);
        for (std::size_t k = 0; k < now.size(); ++k)
            if (now[k] < rest_V[k] / 2 * (1 - 1e-9)) return false;
        return true;
    };
    auto accepted = [&](const std::vector<double>& x) {
        return only_one || (near_rest(x) && (sign == 0 || newton.determinant_sign(x) == sign));
    };
    // Converters in a ring can have several states that last, all well above half: there only the ramp
    // decides, and what else there is matters only where it meets a fold.
    using Starts = std::initializer_list<const std::vector<double>*>;
    const bool rings = !system.topology().rings.empty();
    std::optional<Ramp> ramp;
    const auto try_ramp = [&] {
        ramp = ramp_demand(system, newton, point.rest, sign, options);
        if (!ramp->reached) return false;
        point.x = ramp->x;
        return point.found = true;
    };
    if (rings && try_ramp()) return point;
    system.demand = 1;
    point.x = point.rest;
    point.found = newton.solve(point.x, options.newton_most) && accepted(point.x);
    for (const std::vector<double>* start : Starts{&point.rest, &nominal}) {
        if (point.found) break;
        point.x = *start;
        point.found = newton.settle(point.x) && accepted(point.x);
    }
    if (!rings && (point.found || try_ramp())) return point;
    std::vector<double> x;
    for (const std::vector<double>* start : Starts{&ramp->x, &point.rest, &nominal}) {
        for (const bool slow_sources : {false, true}) {
            x = *start;
            // What a network falls to is stable; a root of the other sign could not last.
            if (!newton.settle(x, slow_sources) || newton.determinant_sign(x) * sign < 0) continue;
            point.x = std::move(x);
            point.found = point.folded = true;
            return point;
        }
    }
    if (!point.found) point.x = std::move(x);
    return point;
}

std::optional<Point> follow_point(System& system, Newton& newton, const Options& options,
                                  const Forest& forest, const Point& from) {
    Point point;
    system.demand = 0;
    point.rest = from.rest;
    const bool rested = newton.follow(point.rest, options.newton_most);
    system.demand = 1;
    if (!rested) return {};
    Knees knees = knees_at(system, point.rest);
    if (!only_one_point(system, forest, knees.load_V)) return {};
    Knees straight{system.load_knee_V, system.converter_knee_V};
    bend(system, std::move(knees));
    point.x = from.x;
    point.found = newton.follow(point.x, options.newton_most);
    if (point.found) return point;
    bend(system, std::move(straight));
    return {};
}

} // namespace fl::solve
