#include "core/solve/point.h"

#include "core/solve/index.h"
#include "core/solve/laws.h"
#include "core/solve/ramp.h"

#include <algorithm>
#include <initializer_list>
#include <optional>

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

void set_knees(System& system, const std::vector<double>& rest) {
    const Circuit& c = system.circuit();
    for (const Port& port : system.topology().ports) {
        const double half = system.across(rest, port.plus, port.minus) / 2;
        if (port.element.kind == ElementKind::load) {
            const double given = c.loads[at(port.element.index)].knee_V;
            system.load_knee_V[at(port.element.index)] = std::max({given, half, least_knee_V});
        } else if (port.element.kind == ElementKind::converter && !port.output) {
            const double given = c.converters[at(port.element.index)].in_knee_V;
            system.converter_knee_V[at(port.element.index)] = std::max({given, half, least_knee_V});
        }
    }
}

} // namespace

Point find_point(System& system, Newton& newton, const Options& options) {
    Point point;
    const std::vector<double> nominal = system.first_guess();
    system.demand = 0;
    point.rest = nominal;
    if (!newton.solve(point.rest, options.newton_most)) {
        point.rest = nominal;
        if (!newton.settle(point.rest)) {
            point.x = point.rest;
            return point;
        }
    }
    const int sign = newton.determinant_sign(point.rest);
    set_knees(system, point.rest);
    const std::vector<double> rest_V = drawn_at(system, point.rest);

    system.demand = 1;
    auto near_rest = [&](const std::vector<double>& x) {
        const std::vector<double> now = drawn_at(system, x);
        for (std::size_t k = 0; k < now.size(); ++k)
            if (now[k] < rest_V[k] / 2 * (1 - 1e-9)) return false;
        return true;
    };
    auto accepted = [&](const std::vector<double>& x) {
        return near_rest(x) && (sign == 0 || newton.determinant_sign(x) == sign);
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

} // namespace fl::solve
