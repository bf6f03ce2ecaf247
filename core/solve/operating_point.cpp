#include "core/solve/index.h"
#include "core/solve/laws.h"
#include "core/solve/point.h"
#include "core/solve/points.h"
#include "core/solve/solution.h"
#include "core/solve/verdicts.h"

#include <cmath>

namespace fl::solve {

namespace {

/// Vectors of the right lengths, nothing flowing.
Solution nothing(const Circuit& c) {
    Solution s;
    s.node_V.assign(at(c.nodes), 0);
    s.node_island.assign(at(c.nodes), -1);
    s.resistor_A.assign(c.resistors.size(), 0);
    s.resistor_C.assign(c.resistors.size(), 0);
    s.battery_A.assign(c.batteries.size(), 0);
    s.regulator_A.assign(c.regulators.size(), 0);
    s.regulator_mode.assign(c.regulators.size(), RegulatorMode::off);
    s.converter_in_A.assign(c.converters.size(), 0);
    s.converter_out_A.assign(c.converters.size(), 0);
    s.converter_mode.assign(c.converters.size(), ConverterMode::off);
    s.load_A.assign(c.loads.size(), 0);
    s.load_mode.assign(c.loads.size(), LoadMode::off);
    s.diode_A.assign(c.diodes.size(), 0);
    s.load_knee_V.assign(c.loads.size(), least_knee_V);
    s.converter_knee_V.assign(c.converters.size(), least_knee_V);
    return s;
}

/// The voltage across asks for a current in the direction that is blocked.
bool blocked(const Battery& battery, double volts) {
    return (!battery.may_charge && volts >= battery.emf_V) ||
           (!battery.may_discharge && volts <= battery.emf_V);
}

/// Currents, temperatures and modes at `x`; what is dead keeps its zeros.
void read_off(const System& system, const std::vector<double>& x, Solution& s) {
    const Circuit& c = system.circuit();
    const Topology& t = system.topology();
    for (int n = 0; n < c.nodes; ++n) s.node_V[at(n)] = system.node_V(x, n);
    s.load_knee_V = system.load_knee_V;
    s.converter_knee_V = system.converter_knee_V;
    for (std::size_t k = 0; k < c.resistors.size(); ++k) {
        const Resistor& r = c.resistors[k];
        s.resistor_C[k] = r.thermal ? warm(*r.thermal, 0).copper_C : r.at_C;
    }
    for (std::size_t k = 0; k < c.loads.size(); ++k)
        if (c.loads[k].on) s.load_mode[k] = LoadMode::as_rated;
    for (std::size_t k = 0; k < c.converters.size(); ++k)
        if (c.converters[k].on) s.converter_mode[k] = ConverterMode::input_limited;
    for (std::size_t p = 0; p < t.ports.size(); ++p) {
        if (t.spare[p]) continue;
        const Port& port = t.ports[p];
        const std::size_t k = at(port.element.index);
        const double v = system.across(x, port.plus, port.minus);
        const double unknown_A = t.live[p] ? system.current(x, p).value_or(0) : 0;
        switch (port.element.kind) {
        case ElementKind::resistor: {
            if (!t.live[p]) break;
            const Resistor& r = c.resistors[k];
            s.resistor_A[k] =
                system.current(x, p).value_or(v / (copper_ohm(r.r20_ohm, r.at_C) + r.fixed_ohm));
            if (r.thermal) s.resistor_C[k] = warm(*r.thermal, s.resistor_A[k]).copper_C;
            break;
        }
        case ElementKind::battery:
            // Blocked is 0 and not what rounding left of it.
            s.battery_A[k] = blocked(c.batteries[k], v) ? 0 : unknown_A;
            break;
        case ElementKind::diode:
            s.diode_A[k] = v <= c.diodes[k].drop_V ? 0 : unknown_A;
            break;
        case ElementKind::regulator:
            s.regulator_mode[k] = regulator_mode(c.regulators[k], v, system.left_A(x, p));
            // Idle is 0 and not what rounding left of it.
            s.regulator_A[k] = s.regulator_mode[k] == RegulatorMode::idle ? 0 : unknown_A;
            break;
        case ElementKind::converter: {
            const Converter& converter = c.converters[k];
            const double knee = s.converter_knee_V[k];
            if (!converter.on) {
                if (t.live[p]) s.converter_in_A[k] = standby_current(converter, knee, v).amps;
            } else if (port.output) {
                const double in_V = system.across(x, t.ports[p - 1].plus, t.ports[p - 1].minus);
                s.converter_mode[k] = converter_mode(converter, knee, in_V, v, system.left_A(x, p));
                const double out_A = s.converter_mode[k] == ConverterMode::idle ? 0 : unknown_A;
                s.converter_out_A[k] = out_A;
                if (t.live[p - 1]) s.converter_in_A[k] = converter_law(converter, knee, in_V, v, out_A).in_A;
            } else if (t.live[p]) { // overwritten by the output, where there is one
                s.converter_in_A[k] = converter_law(converter, knee, v, converter.set_V, 0).in_A;
                s.converter_mode[k] = ConverterMode::idle;
            }
            break;
        }
        case ElementKind::load: {
            const Load& load = c.loads[k];
            if (t.live[p])
                s.load_A[k] = system.current(x, p).value_or(load_current(load, s.load_knee_V[k], v).amps);
            if (load.law != LoadLaw::resistance && v < s.load_knee_V[k])
                s.load_mode[k] = LoadMode::below_knee;
            break;
        }
        case ElementKind::none:
            break;
        }
    }
}

Solution not_known(const Circuit& circuit, std::vector<std::string> laws, Solution so_far) {
    Solution s = nothing(circuit);
    s.node_island = std::move(so_far.node_island);
    s.verdicts = std::move(so_far.verdicts);
    s.counts = so_far.counts;
    s.not_met = std::move(laws);
    Verdict verdict;
    verdict.code = VerdictCode::not_known;
    s.verdicts.push_back(verdict);
    return s;
}

Solution work_out(const Circuit& circuit, const Options& options) {
    Solution solution = nothing(circuit);
    if (auto refused = numbers_refused(circuit); !refused.empty())
        return not_known(circuit, std::move(refused), std::move(solution));
    const Topology topology = topology_of(circuit);
    solution.node_island = topology.island;
    say_of_topology(circuit, topology, solution);
    if (!topology.opposed.empty()) return solution;

    System system(circuit, topology);
    Newton newton(system, options);
    const Point point = find_point(system, newton, options);
    read_off(system, point.x, solution);
    solution.counts = newton.counts;
    solution.usable = true;
    if (auto laws = laws_not_met(circuit, solution, options.tolerance); !point.found || !laws.empty())
        return not_known(circuit, std::move(laws), std::move(solution));
    say_of_point(system, point, options, solution);
    return solution;
}

} // namespace

Solution operating_point(const Circuit& circuit, const Options& options) {
    Points* points = options == Options{} ? Points::in_use() : nullptr;
    if (!points) return work_out(circuit, options);
    if (const Solution* known = points->find(circuit)) return *known;
    Solution solution = work_out(circuit, options);
    points->add(circuit, solution);
    return solution;
}

} // namespace fl::solve
