#include "core/solve/solution.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <limits>
#include <string>

// Nothing here may be shared with the solver: this is what the solver is checked by. Laws are stated as what
// must hold between the numbers of the answer (balances and inequalities), not as functions to be evaluated.
namespace fl::solve {

namespace {

std::string digits(double value) {
    char text[32];
    const auto end = std::to_chars(text, text + sizeof text, value, std::chars_format::general, 6);
    return {text, end.ptr};
}

class Check {
public:
    Check(const Circuit& circuit, const Solution& solution, double relative)
        : c_(circuit)
        , s_(solution)
        , relative_(relative)
        , sum_A_(solution.node_V.size(), 0)
        , most_A_(solution.node_V.size(), 0) {
        double most_V = 1;
        for (const double v : solution.node_V) most_V = std::max(most_V, std::abs(v));
        // A dead short pulls a node to 0 V, but not nearer than EMF less I·R rounds to.
        for (const Battery& b : circuit.batteries) most_V = std::max(most_V, std::abs(b.emf_V));
        for (const Regulator& r : circuit.regulators) most_V = std::max(most_V, r.set_V);
        rounding_V_ = 16 * std::numeric_limits<double>::epsilon() * most_V;
    }

    std::vector<std::string> run() {
        if (!s_.usable) return {"no operating point"};
        if (!sizes_and_finite()) return lines_;
        resistors();
        batteries();
        regulators();
        converters();
        loads();
        diodes();
        balance();
        power();
        return lines_;
    }

private:
    const Circuit& c_;
    const Solution& s_;
    double relative_;
    double rounding_V_ = 0;
    std::vector<double> sum_A_, most_A_; // per node: what leaves it, the largest of it
    double supplied_W_ = 0, used_W_ = 0, lost_W_ = 0;
    std::vector<std::string> lines_;

    void miss(const char* kind, std::size_t k, const char* law, double have, double want) {
        lines_.push_back(std::string(kind) + " " + std::to_string(k) + ": " + law + ": " + digits(have) +
                         " instead of " + digits(want));
    }
    /// Equal to `relative` of the larger one, and what rounding of the node voltages allows.
    bool same_V(double a, double b) const {
        return std::abs(a - b) <= relative_ * std::max(std::abs(a), std::abs(b)) + rounding_V_;
    }
    bool same(double a, double b) const {
        return std::abs(a - b) <= relative_ * std::max({std::abs(a), std::abs(b), 1.0});
    }
    /// a <= b, with the same in hand.
    bool at_most(double a, double b) const {
        return a <= b + relative_ * std::max({std::abs(a), std::isinf(b) ? 0 : std::abs(b), 1.0});
    }
    static bool joined(int a, int b) { return a >= 0 && b >= 0; }
    double volts(int plus, int minus) const {
        return s_.node_V[static_cast<std::size_t>(plus)] - s_.node_V[static_cast<std::size_t>(minus)];
    }
    /// Current `amps` leaves node `from` and arrives at `to`.
    void flow(int from, int to, double amps) {
        auto book = [&](int node, double leaving) {
            const auto n = static_cast<std::size_t>(node);
            sum_A_[n] += leaving;
            most_A_[n] = std::max(most_A_[n], std::abs(leaving));
        };
        book(from, amps);
        book(to, -amps);
    }
    /// An element without a branch carries nothing.
    void idle(const char* kind, std::size_t k, double amps) {
        if (amps != 0) miss(kind, k, "carries no current", amps, 0);
    }

    bool sizes_and_finite() {
        const auto finite = [](const std::vector<double>& all) {
            return std::all_of(all.begin(), all.end(), [](double v) { return std::isfinite(v); });
        };
        const bool sizes =
            s_.node_V.size() == static_cast<std::size_t>(c_.nodes) &&
            s_.resistor_A.size() == c_.resistors.size() && s_.resistor_C.size() == c_.resistors.size() &&
            s_.battery_A.size() == c_.batteries.size() && s_.regulator_A.size() == c_.regulators.size() &&
            s_.converter_in_A.size() == c_.converters.size() &&
            s_.converter_out_A.size() == c_.converters.size() &&
            s_.converter_knee_V.size() == c_.converters.size() && s_.load_A.size() == c_.loads.size() &&
            s_.load_knee_V.size() == c_.loads.size() && s_.diode_A.size() == c_.diodes.size();
        if (!sizes) {
            lines_.emplace_back("the solution is of another circuit");
            return false;
        }
        for (const auto* all : {&s_.node_V, &s_.resistor_A, &s_.resistor_C, &s_.battery_A, &s_.regulator_A,
                                &s_.converter_in_A, &s_.converter_out_A, &s_.load_A, &s_.diode_A})
            if (!finite(*all)) {
                lines_.emplace_back("a value is not a number");
                return false;
            }
        return true;
    }

    void resistors() {
        for (std::size_t k = 0; k < c_.resistors.size(); ++k) {
            const Resistor& r = c_.resistors[k];
            const double i = s_.resistor_A[k];
            if (!r.closed || !joined(r.a, r.b)) {
                idle("resistor", k, i);
                continue;
            }
            const double warmed_C = s_.resistor_C[k];
            const double ohm = r.r20_ohm * (234.5 + warmed_C) / 254.5 + r.fixed_ohm;
            flow(r.a, r.b, i);
            lost_W_ += i * i * ohm;
            if (!same_V(volts(r.a, r.b), i * ohm))
                miss("resistor", k, "voltage = resistance times current", volts(r.a, r.b), i * ohm);
            if (r.thermal)
                heat(k, *r.thermal, i, warmed_C);
            else if (!same(warmed_C, r.at_C))
                miss("resistor", k, "temperature as given", warmed_C, r.at_C);
        }
    }

    /// Heat made at `T` over heat made at the limit by the rated current = rise over rated rise.
    void heat(std::size_t k, const Thermal& t, double i, double T) {
        if (t.rated_A <= 0 || t.limit_C <= t.reference_C) {
            if (!same(T, t.ambient_C)) miss("resistor", k, "temperature of the ambient", T, t.ambient_C);
            return;
        }
        const double top = std::max(t.limit_C, t.ambient_C);
        const double made = (i / t.rated_A) * (i / t.rated_A) * (234.5 + T) / (234.5 + t.limit_C);
        const double shed = (T - t.ambient_C) / (t.limit_C - t.reference_C);
        const bool capped = same(T, top) && at_most(shed, made);
        if (!capped && !same(made, shed)) miss("resistor", k, "heat made = heat shed", made, shed);
        if (!at_most(T, top)) miss("resistor", k, "no hotter than its limit", T, top);
    }

    void batteries() {
        for (std::size_t k = 0; k < c_.batteries.size(); ++k) {
            const Battery& b = c_.batteries[k];
            const double i = s_.battery_A[k];
            if (!b.connected || !joined(b.plus, b.minus) || (!b.may_charge && !b.may_discharge)) {
                idle("battery", k, i);
                continue;
            }
            const double ohm = i > 0 ? b.charge_ohm : b.discharge_ohm;
            flow(b.plus, b.minus, i);
            supplied_W_ -= b.emf_V * i;
            lost_W_ += i * i * ohm;
            const double v = volts(b.plus, b.minus);
            if (!b.may_discharge && !at_most(-i, 0)) miss("battery", k, "does not discharge", i, 0);
            if (!b.may_charge && !at_most(i, 0)) miss("battery", k, "is not charged", i, 0);
            const bool blocks = (!b.may_discharge && v < b.emf_V) || (!b.may_charge && v > b.emf_V);
            if (blocks && same(i, 0)) continue;
            if (!same_V(v - b.emf_V, i * ohm) && !same_V(v, b.emf_V + i * ohm))
                miss("battery", k, "voltage = EMF + resistance times current", v, b.emf_V + i * ohm);
        }
    }

    /// A source holds its line or stands at one of its bounds, never beyond.
    void held(const char* kind, std::size_t k, double below, double droop, double i, double limit) {
        if (!at_most(-i, 0)) miss(kind, k, "never absorbs", i, 0);
        if (!at_most(i, limit)) miss(kind, k, "stays within its limit", i, limit);
        const bool none = same(i, 0), full = !std::isinf(limit) && same(i, limit);
        // On its line, or at nothing with the voltage above it, or at the limit with the voltage below it.
        if (same_V(below, droop * i)) return;
        if (none && below <= droop * i) return;
        if (full && below >= droop * i) return;
        miss(kind, k, "holds its voltage by its droop", below, droop * i);
    }

    /// What is left of a unit's shared limit by those that are served before this one: the regulators in
    /// order, then the converters in order.
    double given_before(Element one) const {
        const auto last = static_cast<std::size_t>(one.index);
        const bool converter = one.kind == ElementKind::converter;
        const int unit = converter ? c_.converters[last].shared : c_.regulators[last].shared;
        if (unit < 0) return unlimited;
        double sum = 0;
        for (std::size_t k = 0; k < (converter ? c_.regulators.size() : last); ++k)
            if (c_.regulators[k].shared == unit) sum += s_.regulator_A[k];
        for (std::size_t k = 0; converter && k < last; ++k)
            if (c_.converters[k].shared == unit) sum += s_.converter_out_A[k];
        return std::max(0.0, c_.shared_limit_A[static_cast<std::size_t>(unit)] - sum);
    }

    void regulators() {
        for (std::size_t k = 0; k < c_.regulators.size(); ++k) {
            const Regulator& r = c_.regulators[k];
            const double i = s_.regulator_A[k];
            if (!r.on || !joined(r.plus, r.minus)) {
                idle("regulator", k, i);
                continue;
            }
            const double v = volts(r.plus, r.minus);
            flow(r.minus, r.plus, i);
            supplied_W_ += v * i;
            if (r.holds) {
                if (!same_V(r.set_V - v, r.droop_ohm * i))
                    miss("regulator", k, "holds its voltage", r.set_V - v, r.droop_ohm * i);
                continue;
            }
            const double own = v > 0 ? std::min(r.limit_A, r.limit_W / v) : r.limit_A;
            const double limit = std::min(own, given_before({ElementKind::regulator, static_cast<int>(k)}));
            held("regulator", k, r.set_V - v, r.droop_ohm, i, limit);
        }
    }

    /// What the input of a converter may take at most, from the data alone.
    double input_bound(const Converter& v, double knee_V, double in_V) const {
        if (in_V <= 0) return 0;
        if (in_V >= knee_V) return v.in_limit_A;
        const double most_A = std::min(v.out_limit_A, v.set_V / v.droop_ohm);
        const double most_W = v.p0_W + most_A * (v.set_V * (1 + v.k1) + v.k2_ohm * most_A);
        return in_V / knee_V * std::min(v.in_limit_A, most_W / knee_V);
    }

    void converters() {
        for (std::size_t k = 0; k < c_.converters.size(); ++k) {
            const Converter& v = c_.converters[k];
            const double ii = s_.converter_in_A[k], io = s_.converter_out_A[k], knee = s_.converter_knee_V[k];
            if (!joined(v.in_plus, v.in_minus)) {
                idle("converter", k, ii);
                idle("converter", k, io);
                continue;
            }
            const double in_V = volts(v.in_plus, v.in_minus);
            flow(v.in_plus, v.in_minus, ii);
            used_W_ += in_V * ii;
            if (knee < v.in_knee_V) miss("converter", k, "knee at least its own", knee, v.in_knee_V);
            if (!v.on) {
                idle("converter", k, io);
                const double want = v.standby_A * std::clamp(in_V / knee, 0.0, 1.0);
                if (!same(ii, want)) miss("converter", k, "standby current", ii, want);
                continue;
            }
            const bool has_output = joined(v.out_plus, v.out_minus);
            const double out_V = has_output ? volts(v.out_plus, v.out_minus) : v.set_V;
            const double bound = input_bound(v, knee, in_V);
            if (!at_most(ii, bound)) miss("converter", k, "input within its limit", ii, bound);
            const double need_W = std::max(0.0, out_V) * io * (1 + v.k1) + v.k2_ohm * io * io + v.p0_W;
            // All that the input may take is used; less than its idle draw means: no output, all taken.
            const bool exhausted = std::isfinite(bound) && at_most(std::max(0.0, in_V) * bound, need_W);
            if (!same(in_V * ii, need_W) && !(exhausted && same(io, 0) && same(ii, bound)))
                miss("converter", k, "input = output + loss", in_V * ii, need_W);
            if (!has_output) {
                idle("converter", k, io);
                continue;
            }
            flow(v.out_minus, v.out_plus, io);
            supplied_W_ += out_V * io;
            // At the input's limit the output may be anything its line allows at most.
            // Folded back: a straight line from fold_share of the limit at 0 V to all of it at the set
            // voltage.
            const double part = v.set_V > 0 ? std::clamp(out_V / v.set_V, 0.0, 1.0) : 1;
            const double own = v.fold_share < 1 && std::isfinite(v.out_limit_A)
                                   ? v.out_limit_A * (v.fold_share + part * (1 - v.fold_share))
                                   : v.out_limit_A;
            const double most = std::min(own, given_before({ElementKind::converter, static_cast<int>(k)}));
            if (!at_most(io, most)) miss("converter", k, "stays within its limit", io, most);
            held("converter", k, v.set_V - out_V, v.droop_ohm, io, exhausted ? io : most);
        }
    }

    void loads() {
        for (std::size_t k = 0; k < c_.loads.size(); ++k) {
            const Load& l = c_.loads[k];
            const double i = s_.load_A[k], knee = s_.load_knee_V[k];
            if (!l.on || !joined(l.plus, l.minus)) {
                idle("load", k, i);
                continue;
            }
            const double v = volts(l.plus, l.minus);
            flow(l.plus, l.minus, i);
            used_W_ += v * i;
            if (knee < l.knee_V) miss("load", k, "knee at least its own", knee, l.knee_V);
            double have = 0, want = 0; // in volts, amperes or watts, as the law is stated
            if (l.law == LoadLaw::resistance) {
                if (!same_V(v, l.value * i)) miss("load", k, "resistance", v, l.value * i);
                continue;
            }
            if (v < knee) {
                const double at_knee_A = l.law == LoadLaw::current ? l.value : l.value / knee;
                have = i * knee;
                want = at_knee_A * v;
            } else {
                have = l.law == LoadLaw::current ? i : i * v;
                want = l.value;
            }
            if (!same(have, want)) miss("load", k, "current or power", have, want);
        }
    }

    void diodes() {
        for (std::size_t k = 0; k < c_.diodes.size(); ++k) {
            const Diode& d = c_.diodes[k];
            const double i = s_.diode_A[k];
            if (!joined(d.a, d.b)) {
                idle("diode", k, i);
                continue;
            }
            const double v = volts(d.a, d.b);
            flow(d.a, d.b, i);
            used_W_ += v * i;
            if (!at_most(-i, 0)) miss("diode", k, "passes one way only", i, 0);
            if (v < d.drop_V && same(i, 0)) continue;
            if (!same_V(v - d.drop_V, d.ohm * i) && !same_V(v, d.drop_V + d.ohm * i))
                miss("diode", k, "voltage = drop + resistance times current", v, d.drop_V + d.ohm * i);
        }
    }

    void balance() {
        for (std::size_t n = 0; n < sum_A_.size(); ++n) {
            // The base is the largest current at the node, 1 A at least.
            if (std::abs(sum_A_[n]) > relative_ * std::max(most_A_[n], 1.0))
                miss("node", n, "currents balance", sum_A_[n], 0);
        }
    }

    void power() {
        // The base is all the power that is handled.
        const double base = std::max({supplied_W_, used_W_, lost_W_, 1.0});
        if (std::abs(supplied_W_ - used_W_ - lost_W_) > relative_ * base * 10)
            lines_.push_back("power supplied " + digits(supplied_W_) + " W, used " + digits(used_W_) +
                             " W, lost in conductors " + digits(lost_W_) + " W");
    }
};

} // namespace

std::vector<std::string> laws_not_met(const Circuit& circuit, const Solution& solution, double relative) {
    return Check(circuit, solution, relative).run();
}

} // namespace fl::solve
