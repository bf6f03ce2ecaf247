#include "core/solve/factor.h"
#include "core/solve/index.h"
#include "core/solve/solution.h"
#include "core/solve/system.h"

#include <cmath>

namespace fl::solve {

std::optional<double> resistance_between(const Circuit& circuit, const Solution& at_point, int node_a,
                                         int node_b) {
    if (!at_point.usable || node_a < 0 || node_b < 0 || node_a >= circuit.nodes || node_b >= circuit.nodes)
        return std::nullopt;
    if (at_point.node_V.size() != at(circuit.nodes)) return std::nullopt;
    Topology topology = whole_topology_of(circuit);
    if (topology.island[at(node_a)] != topology.island[at(node_b)]) return std::nullopt;

    System system(circuit, topology);
    system.load_knee_V = at_point.load_knee_V;
    system.converter_knee_V = at_point.converter_knee_V;
    system.freeze_heat = true;
    const std::vector<double> x = system.unknowns_of(at_point);
    std::vector<double> rows, scale;
    system.linearise(x, rows, scale);
    Factor factor;
    if (!factor.factor(system.jacobian())) return std::nullopt;
    std::vector<double> right_side(at(system.size()), 0);
    // 1 A put in at a and taken out at b.
    if (const int a = topology.voltage[at(node_a)]; a >= 0) right_side[at(a)] += 1;
    if (const int b = topology.voltage[at(node_b)]; b >= 0) right_side[at(b)] -= 1;
    if (!factor.solve(right_side)) return std::nullopt;
    return system.node_V(right_side, node_a) - system.node_V(right_side, node_b);
}

} // namespace fl::solve
