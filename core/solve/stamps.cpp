#include "core/base/check.h"
#include "core/solve/index.h"
#include "core/solve/laws.h"
#include "core/solve/system.h"

#include <algorithm>
#include <cmath>

namespace fl::solve {

namespace {

// What stands in for a load while it draws nothing, so that a node between two loads keeps a voltage.
constexpr double idle_S = 1e-4;
// A shortened resistor keeps this part of itself: between two stiff sources 0 ohm would have no solution.
constexpr double next_to_nothing = 1e-6;

} // namespace

/// One evaluation: rows, their scales and, if wanted, the matrix.
struct System::Work {
    const std::vector<double>& x;
    std::vector<double>& rows;
    std::vector<double>& scale;
    Matrix* matrix;

    void leave(int node, double amps) {
        if (node < 0) return;
        rows[at(node)] += amps;
        scale[at(node)] = std::max(scale[at(node)], std::abs(amps));
    }
    void entry(int row, int column, double value) {
        if (matrix) matrix->add(row, column, value);
    }
    /// A current from a to b that depends on the voltages of c and d.
    void slope(int a, int b, int c, int d, double per_V) {
        entry(a, c, per_V);
        entry(a, d, -per_V);
        entry(b, c, -per_V);
        entry(b, d, per_V);
    }
    /// A current from a to b as a law of the voltage between them.
    void current(int a, int b, const CurrentLaw& law) {
        leave(a, law.amps);
        leave(b, -law.amps);
        slope(a, b, a, b, law.per_V);
    }
    /// An unknown current j from a to b with the law: row = 0.
    void branch(int a, int b, int j, double row, double row_scale, double per_V, double per_A) {
        leave(a, x[at(j)]);
        leave(b, -x[at(j)]);
        entry(a, j, 1);
        entry(b, j, -1);
        rows[at(j)] = row;
        scale[at(j)] = row_scale;
        entry(j, a, per_V);
        entry(j, b, -per_V);
        entry(j, j, per_A);
    }
};

void System::residual(const std::vector<double>& x, std::vector<double>& rows, std::vector<double>& scale) {
    evaluate(x, rows, scale, nullptr, 0);
}

void System::linearise(const std::vector<double>& x, std::vector<double>& rows, std::vector<double>& scale,
                       double capacity_S) {
    evaluate(x, rows, scale, &matrix_, capacity_S);
}

void System::evaluate(const std::vector<double>& x, std::vector<double>& rows, std::vector<double>& scale,
                      Matrix* matrix, double capacity_S) {
    FL_CHECK(x.size() == at(size_));
    rows.assign(at(size_), 0);
    scale.assign(at(size_), 0);
    if (matrix) matrix->begin();
    Work work{x, rows, scale, matrix};
    const Circuit& c = *circuit_;
    const std::vector<Port>& ports = topology_->ports;
    // A source that sets its current in no time, behind whatever feeds it, may have no course to follow at
    // all; with a time constant of m ohm times 1 F, as a node has, it does.
    const double per_square = slow_sources ? capacity_S : 0;
    const auto slow = [per_square](double m_ohm) { return per_square * m_ohm * m_ohm; };
    for (std::size_t p = 0; p < ports.size(); ++p) {
        if (!topology_->live[p] || topology_->spare[p]) continue;
        const Port& port = ports[p];
        const int a = topology_->voltage[at(port.plus)], b = topology_->voltage[at(port.minus)];
        const int j = unknowns_.branch[p];
        const double v = across(x, port.plus, port.minus);
        const double volt_scale = std::max(std::abs(node_V(x, port.plus)), std::abs(node_V(x, port.minus)));
        const auto k = at(port.element.index);
        switch (port.element.kind) {
        case ElementKind::resistor: {
            const Resistor& r = c.resistors[k];
            if (j < 0) {
                const double siemens = 1 / (copper_ohm(r.r20_ohm, r.at_C) + r.fixed_ohm);
                work.current(a, b, {v * siemens, siemens});
                break;
            }
            const double i = x[at(j)];
            Warm heat{r.at_C};
            if (r.thermal) heat = warm(*r.thermal, i);
            double ohm = copper_ohm(r.r20_ohm, heat.copper_C) + r.fixed_ohm, per_A = 0;
            if (port.element.index == shortened_)
                ohm *= next_to_nothing;
            else if (!freeze_heat)
                per_A = i * heat.per_A * (copper_ohm(r.r20_ohm, 21) - copper_ohm(r.r20_ohm, 20));
            work.branch(a, b, j, v - ohm * i, std::max(std::abs(v), std::abs(ohm * i)), 1, -(ohm + per_A));
            break;
        }
        case ElementKind::battery: {
            if (c.batteries[k].may_discharge != c.batteries[k].may_charge) {
                const SourceRow row = one_way_row(c.batteries[k], v, x[at(j)], margin);
                work.branch(a, b, j, row.volts, row.scale_V, row.per_V, row.per_A);
                break;
            }
            const BatteryLaw law = battery_voltage(c.batteries[k], x[at(j)]);
            work.branch(a, b, j, v - law.volts, std::max(std::abs(v), std::abs(law.volts)), 1, -law.per_A);
            break;
        }
        case ElementKind::regulator: {
            const Regulator& r = c.regulators[k];
            const SourceRow row = regulator_row(r, v, x[at(j)], left_A(x, p), margin);
            // Delivered out of plus: the branch runs from minus to plus.
            work.branch(b, a, j, row.volts, row.scale_V, -row.per_V, row.per_A + slow(row.m_ohm));
            for (const int other : unknowns_.before[p]) work.entry(j, other, -row.per_left_A);
            break;
        }
        case ElementKind::converter: {
            const Converter& converter = c.converters[k];
            const double knee = converter_knee_V[k];
            if (!converter.on) {
                CurrentLaw law = standby_current(converter, knee, v);
                law.amps = demand * law.amps + (1 - demand) * idle_S * v;
                law.per_V = demand * law.per_V + (1 - demand) * idle_S;
                work.current(a, b, law);
                break;
            }
            if (!port.output) {
                // Done together with its output, which follows; one without keeps its idle draw.
                if (p + 1 < ports.size() && ports[p + 1].output) break;
                const ConverterLaw law = converter_law(converter, knee, v, converter.set_V, 0);
                const double idle = (1 - demand) * idle_S;
                work.current(a, b, {demand * law.in_A + idle * v, demand * law.in_per_in + idle});
                break;
            }
            const Port& in = ports[p - 1];
            const int ia = topology_->voltage[at(in.plus)], ib = topology_->voltage[at(in.minus)];
            const double in_V = across(x, in.plus, in.minus);
            const ConverterLaw law = converter_law(converter, knee, in_V, v, x[at(j)], left_A(x, p), margin);
            work.branch(b, a, j, law.row.volts, law.row.scale_V, -law.row.per_V,
                        law.row.per_A + slow(law.row.m_ohm));
            work.entry(j, ia, law.row_per_in);
            work.entry(j, ib, -law.row_per_in);
            for (const int other : unknowns_.before[p]) work.entry(j, other, -law.row.per_left_A);
            const double idle = (1 - demand) * idle_S;
            work.leave(ia, demand * law.in_A + idle * in_V);
            work.leave(ib, -(demand * law.in_A + idle * in_V));
            work.slope(ia, ib, ia, ib, demand * law.in_per_in + idle);
            work.slope(ia, ib, a, b, demand * law.in_per_out);
            work.entry(ia, j, demand * law.in_per_out_A);
            work.entry(ib, j, -demand * law.in_per_out_A);
            break;
        }
        case ElementKind::load: {
            const Load& l = c.loads[k];
            if (port.element.index == probe.load) {
                work.branch(a, b, j, v - probe.volts, std::max(std::abs(v), volt_scale), 1, 0);
                break;
            }
            if (j >= 0) { // a load of next to no resistance
                const double ohm = demand > 0 ? l.value / demand : 1 / idle_S;
                const double drop = ohm * x[at(j)];
                work.branch(a, b, j, v - drop, std::max(std::abs(v), std::abs(drop)), 1, -ohm);
                break;
            }
            CurrentLaw law = load_current(l, load_knee_V[k], v);
            law.amps = demand * law.amps + (1 - demand) * idle_S * v;
            law.per_V = demand * law.per_V + (1 - demand) * idle_S;
            work.current(a, b, law);
            break;
        }
        case ElementKind::diode: {
            const SourceRow row = diode_row(c.diodes[k], v, x[at(j)], margin);
            work.branch(a, b, j, row.volts, row.scale_V, row.per_V, row.per_A);
            break;
        }
        case ElementKind::none:
            break;
        }
    }
    if (!matrix) return;
    for (int n = 0; n < topology_->voltages; ++n) matrix->add(n, n, capacity_S);
    matrix->end();
}

} // namespace fl::solve
