#include "core/solve/index.h"
#include "core/solve/laws.h"
#include "core/solve/pattern.h"
#include "core/solve/point.h"
#include "core/solve/points.h"
#include "core/solve/solution.h"
#include "core/solve/start.h"
#include "core/solve/verdicts.h"

#include <algorithm>
#include <memory>
#include <optional>
#include <utility>

namespace fl::solve {

struct Start::Kept {
    Patterns patterns;
    bool warm = false;
    // The last point, and what it is a point of; null: none.
    std::shared_ptr<const Pattern> pattern;
    Point point;
    Factor factors;

    void forget() { pattern = nullptr; }
};

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

bool same_volts(const std::vector<Port>& a, const std::vector<Port>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](const Port& x, const Port& y) { return x.volts == y.volts; });
}

/// Both may be null: then nothing is known before, and nothing kept.
Solution work_out(const Circuit& circuit, const Options& options, Patterns* patterns, Start::Kept* start) {
    if (start) start->warm = false;
    Solution solution = nothing(circuit);
    if (auto refused = numbers_refused(circuit); !refused.empty())
        return not_known(circuit, std::move(refused), std::move(solution));
    std::vector<Port> ports = ports_of(circuit);
    const auto alike = patterns ? patterns->find(circuit.nodes, ports) : nullptr;
    Topology own;
    const bool as_known = alike && same_volts(alike->topology.ports, ports);
    if (!as_known) own = alike ? topology_of(alike->topology, std::move(ports)) : topology_of(circuit);
    const Topology& topology = as_known ? alike->topology : own;
    solution.node_island = topology.island;
    say_of_topology(circuit, topology, solution);
    if (!topology.opposed.empty()) return solution;

    System system(circuit, topology);
    auto pattern = alike && system.unknowns() == alike->unknowns ? alike : nullptr;
    if (pattern) system.adopt(pattern->jacobian);
    const bool grown = pattern && grows_alike(pattern->forest, circuit, topology);
    const Forest new_forest = grown ? Forest() : forest_of(circuit, topology);
    const Forest& forest = grown ? pattern->forest : new_forest;
    const auto analysis = pattern ? pattern->analysis : nullptr;
    std::optional<Point> followed;
    std::optional<Newton> newton;
    if (start && start->pattern && start->pattern == pattern) {
        newton.emplace(system, options, std::move(start->factors));
        followed = follow_point(system, *newton, options, forest, start->point);
    }
    if (!followed) newton.emplace(system, options, Factor(analysis));
    Point point = followed ? std::move(*followed) : find_point(system, *newton, options, forest);
    read_off(system, point.x, solution);
    solution.counts = newton->counts;
    solution.usable = true;
    if (start) start->forget();
    if (auto laws = laws_not_met(circuit, solution, options.tolerance); !point.found || !laws.empty())
        return not_known(circuit, std::move(laws), std::move(solution));
    say_of_point(system, point, options, solution);
    if (!patterns) return solution;
    if (!pattern && newton->factors().analysis()) {
        pattern = std::make_shared<Pattern>(
            Pattern{topology, system.unknowns(), system.jacobian(), forest, newton->factors().analysis()});
        if (start) patterns->next_round(); // those of circuits long gone
        patterns->keep(pattern);
    }
    if (start && pattern && !point.folded) {
        start->warm = followed.has_value();
        start->pattern = std::move(pattern);
        start->point = std::move(point);
        start->factors = newton->give_factors();
    }
    return solution;
}

} // namespace

Solution operating_point(const Circuit& circuit, const Options& options) {
    Points* points = options == Options{} ? Points::in_use() : nullptr;
    if (!points) return work_out(circuit, options, nullptr, nullptr);
    if (const Solution* known = points->find(circuit)) return *known;
    Solution solution = work_out(circuit, options, &points->patterns(), nullptr);
    points->add(circuit, solution);
    return solution;
}

Start::Start()
    : kept_(std::make_unique<Kept>()) {}
Start::~Start() = default;
Start::Start(Start&&) noexcept = default;
Start& Start::operator=(Start&&) noexcept = default;

void Start::forget_point() {
    kept_->forget();
}

bool Start::was_warm() const {
    return kept_->warm;
}

Solution operating_point(const Circuit& circuit, Start& start, const Options& options) {
    return work_out(circuit, options, &start.kept().patterns, &start.kept());
}

} // namespace fl::solve
