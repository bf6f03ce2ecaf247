#pragma once

#include "core/solve/circuit.h"
#include "core/solve/heat.h"
#include "core/solve/laws.h"
#include "core/solve/matrix.h"
#include "core/solve/topology.h"

#include <optional>
#include <vector>

namespace fl::solve {

/// The equations of one circuit. Unknowns: the voltage of each node against its island's reference, then the
/// current of each branch that enters with its current (sources, conductors that warm up, and everything of
/// no or tiny resistance: node voltages alone would lose a standby current beside a bar of 20 micro-ohm).
/// Rows in the same order: sum of the currents leaving a node, A; a branch's law, V.
class System {
public:
    System(const Circuit& circuit, const Topology& topology);

    /// Which of the ports have a current of their own among the unknowns; decides, with the topology, the
    /// pattern of the matrix.
    struct Unknowns {
        std::vector<int> branch; ///< per port: number of its unknown current, or -1
        /// Per port: unknown currents of those of its unit that are served before it.
        std::vector<std::vector<int>> before;
        bool operator==(const Unknowns&) const = default;
    };
    const Unknowns& unknowns() const { return unknowns_; }
    /// Takes over the pattern of a matrix made for the same unknowns. Before the first evaluation only.
    void adopt(const Matrix& jacobian) { matrix_ = jacobian; }
    /// Some output's limit depends on another's current.
    bool outputs_share() const;

    /// A load whose voltage is held, for asking what could reach it.
    struct Probe {
        int load = -1;
        double volts = 0;
    };

    // What may change between two evaluations; none of it changes the pattern of the matrix.
    double demand = 1; ///< 0: nothing is drawn; 1: all of it; between: the load ramp
    std::vector<double> load_knee_V, converter_knee_V;
    bool slow_sources = false;    ///< pseudo-transient steps slow down sources too
    double margin = usual_margin; ///< of the sources' rows: any states the same laws
    bool freeze_heat = false;     ///< conductors as warm as they are: no derivative by temperature

    int size() const { return size_; }
    int voltages() const { return topology_->voltages; }
    const Circuit& circuit() const { return *circuit_; }
    const Topology& topology() const { return *topology_; }

    /// Adds the unknown current of one load, which `probe.volts` then rules. Before the first evaluation
    /// only.
    void probe_load(int load);
    /// Number of that current among the unknowns.
    int probe_unknown() const { return probe_unknown_; }
    Probe probe;
    /// A resistor that counts as next to 0 ohm, for asking what it costs.
    void shorten(int resistor);

    /// Residual at `x`, and the scale each row is judged by: the largest current at the node, the largest
    /// voltage in the branch's law.
    void residual(const std::vector<double>& x, std::vector<double>& rows, std::vector<double>& scale);
    /// The same, with the Jacobian of the pieces active at `x`; for pseudo-transient steps
    /// `capacity_S` is added to every node's own entry.
    void linearise(const std::vector<double>& x, std::vector<double>& rows, std::vector<double>& scale,
                   double capacity_S = 0);
    const Matrix& jacobian() const { return matrix_; }

    double node_V(const std::vector<double>& x, int node) const {
        const int v = topology_->voltage[static_cast<std::size_t>(node)];
        return v < 0 ? 0 : x[static_cast<std::size_t>(v)];
    }
    /// Voltage from plus to minus of a load or of a converter's input.
    double across(const std::vector<double>& x, int plus, int minus) const {
        return node_V(x, plus) - node_V(x, minus);
    }
    /// What the others of its unit leave for a port's output.
    double left_A(const std::vector<double>& x, std::size_t port) const;
    /// Branch current of a port, where it is an unknown.
    std::optional<double> current(const std::vector<double>& x, std::size_t port) const;

    /// With the adjoint of one unknown (J transposed, solved for its unit vector): what setting each
    /// resistor's resistance to 0 adds to that unknown, to first order.
    std::vector<double> row_changes(const std::vector<double>& x, const std::vector<double>& adjoint) const;

    /// The unknowns at a solution.
    std::vector<double> unknowns_of(const Solution& solution) const;

    /// Voltages of the first guess, no currents; with `charging` a breath of current into every battery, so
    /// that its resistance is taken for that.
    std::vector<double> first_guess(bool charging = false) const;

private:
    struct Work; // one evaluation

    const Circuit* circuit_;
    const Topology* topology_;
    Unknowns unknowns_;
    int size_ = 0;
    int shortened_ = -1, probe_unknown_ = -1;
    Matrix matrix_;

    int give_branch(Element element);
    void evaluate(const std::vector<double>& x, std::vector<double>& rows, std::vector<double>& scale,
                  Matrix* matrix, double capacity_S);
};

} // namespace fl::solve
