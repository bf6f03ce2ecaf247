#include "core/solve/system.h"

#include "core/solve/index.h"

#include <algorithm>
#include <cmath>

namespace fl::solve {

namespace {

// Resistors below this enter with their current as unknown.
constexpr double tiny_ohm = 1e-3;

bool by_current(const Circuit& c, const Port& port) {
    switch (port.element.kind) {
    case ElementKind::resistor: {
        const Resistor& r = c.resistors[at(port.element.index)];
        return r.thermal || r.r20_ohm + r.fixed_ohm < tiny_ohm;
    }
    case ElementKind::battery:
    case ElementKind::regulator:
    case ElementKind::diode:
        return true;
    case ElementKind::converter:
        return port.output;
    case ElementKind::load: {
        const Load& l = c.loads[at(port.element.index)];
        return l.law == LoadLaw::resistance && l.value < tiny_ohm;
    }
    case ElementKind::none:
        break;
    }
    return false;
}

/// The shared limit that rules a port's output, or -1.
int shared_of(const Circuit& c, const Port& port) {
    if (port.element.kind == ElementKind::regulator) return c.regulators[at(port.element.index)].shared;
    if (port.element.kind == ElementKind::converter && port.output)
        return c.converters[at(port.element.index)].shared;
    return -1;
}

} // namespace

System::System(const Circuit& circuit, const Topology& topology)
    : load_knee_V(circuit.loads.size(), 1)
    , converter_knee_V(circuit.converters.size(), 1)
    , circuit_(&circuit)
    , topology_(&topology)
    , size_(topology.voltages)
    , matrix_(0) {
    unknowns_.branch.assign(topology.ports.size(), -1);
    unknowns_.before.resize(topology.ports.size());
    for (std::size_t p = 0; p < topology.ports.size(); ++p)
        if (topology.live[p] && !topology.spare[p] && by_current(circuit, topology.ports[p]))
            unknowns_.branch[p] = size_++;
    std::vector<std::vector<int>> members(circuit.shared_limit_A.size());
    for (std::size_t p = 0; p < topology.ports.size(); ++p) {
        const int shared = shared_of(circuit, topology.ports[p]);
        if (shared < 0 || unknowns_.branch[p] < 0) continue;
        unknowns_.before[p] = members[at(shared)];
        members[at(shared)].push_back(unknowns_.branch[p]);
    }
    matrix_ = Matrix(size_);
}

bool System::outputs_share() const {
    return std::any_of(unknowns_.before.begin(), unknowns_.before.end(),
                       [](const std::vector<int>& others) { return !others.empty(); });
}

double System::left_A(const std::vector<double>& x, std::size_t port) const {
    const int shared = shared_of(*circuit_, topology_->ports[port]);
    if (shared < 0) return unlimited;
    double left = circuit_->shared_limit_A[at(shared)];
    for (const int other : unknowns_.before[port]) left -= x[at(other)];
    return left;
}

void System::probe_load(int load) {
    probe.load = load;
    probe_unknown_ = give_branch({ElementKind::load, load});
}

void System::shorten(int resistor) {
    shortened_ = resistor;
    give_branch({ElementKind::resistor, resistor});
}

int System::give_branch(Element element) {
    int branch = -1;
    for (std::size_t p = 0; p < topology_->ports.size(); ++p) {
        if (!(topology_->ports[p].element == element) || !topology_->live[p] || topology_->spare[p]) continue;
        if (unknowns_.branch[p] < 0) unknowns_.branch[p] = size_++;
        branch = unknowns_.branch[p];
    }
    matrix_ = Matrix(size_);
    return branch;
}

std::optional<double> System::current(const std::vector<double>& x, std::size_t port) const {
    if (unknowns_.branch[port] < 0) return std::nullopt;
    return x[at(unknowns_.branch[port])];
}

std::vector<double> System::row_changes(const std::vector<double>& x,
                                        const std::vector<double>& adjoint) const {
    std::vector<double> gain(circuit_->resistors.size(), 0);
    for (std::size_t p = 0; p < topology_->ports.size(); ++p) {
        const Port& port = topology_->ports[p];
        if (port.element.kind != ElementKind::resistor || !topology_->live[p] || topology_->spare[p])
            continue;
        const double v = across(x, port.plus, port.minus);
        double& mine = gain[at(port.element.index)];
        if (unknowns_.branch[p] >= 0) {
            // Row v - R·i: without R it rises by R·i = v, and x falls by the adjoint's share of that.
            mine = -adjoint[at(unknowns_.branch[p])] * v;
            continue;
        }
        // Rows of the nodes hold i = v/R; to first order a change of R by -R raises i by v/R.
        const Resistor& r = circuit_->resistors[at(port.element.index)];
        const double rise = v / (copper_ohm(r.r20_ohm, r.at_C) + r.fixed_ohm);
        const int a = topology_->voltage[at(port.plus)], b = topology_->voltage[at(port.minus)];
        mine = -((a < 0 ? 0 : adjoint[at(a)]) - (b < 0 ? 0 : adjoint[at(b)])) * rise;
    }
    return gain;
}

std::vector<double> System::unknowns_of(const Solution& s) const {
    std::vector<double> x(at(size_), 0);
    // Unknown voltages count from this topology's own references.
    std::vector<double> base;
    for (std::size_t n = 0; n < topology_->voltage.size(); ++n) {
        base.resize(std::max(base.size(), at(topology_->island[n]) + 1), 0);
        if (topology_->voltage[n] < 0) base[at(topology_->island[n])] = s.node_V[n];
    }
    for (std::size_t n = 0; n < topology_->voltage.size(); ++n)
        if (topology_->voltage[n] >= 0)
            x[at(topology_->voltage[n])] = s.node_V[n] - base[at(topology_->island[n])];
    for (std::size_t p = 0; p < topology_->ports.size(); ++p) {
        if (unknowns_.branch[p] < 0) continue;
        const Element& e = topology_->ports[p].element;
        double& j = x[at(unknowns_.branch[p])];
        switch (e.kind) {
        case ElementKind::resistor:
            j = s.resistor_A[at(e.index)];
            break;
        case ElementKind::battery:
            j = s.battery_A[at(e.index)];
            break;
        case ElementKind::regulator:
            j = s.regulator_A[at(e.index)];
            break;
        case ElementKind::converter:
            j = s.converter_out_A[at(e.index)];
            break;
        case ElementKind::load:
            j = s.load_A[at(e.index)];
            break;
        case ElementKind::diode:
            j = s.diode_A[at(e.index)];
            break;
        case ElementKind::none:
            break;
        }
    }
    return x;
}

std::vector<double> System::first_guess(bool charging) const {
    constexpr double breath_A = 1e-9;
    std::vector<double> x = topology_->first_V;
    x.resize(at(size_), 0);
    for (std::size_t p = 0; charging && p < unknowns_.branch.size(); ++p)
        if (unknowns_.branch[p] >= 0 && topology_->ports[p].element.kind == ElementKind::battery)
            x[at(unknowns_.branch[p])] = breath_A;
    return x;
}

} // namespace fl::solve
