#include "core/solve/ports.h"

#include <cmath>
#include <string>

namespace fl::solve {

namespace {

bool both(int a, int b) {
    return a >= 0 && b >= 0;
}

/// Draws at all when it is on.
bool draws(const Load& load) {
    return load.on && (load.law == LoadLaw::resistance || load.value > 0);
}

class Refusals {
public:
    explicit Refusals(int nodes)
        : nodes_(nodes) {}

    void next(const char* kind, std::size_t index) {
        kind_ = kind;
        index_ = index;
    }
    void nodes(int a, int b) {
        if (a < -1 || b < -1 || a >= nodes_ || b >= nodes_) say("node out of range");
    }
    void finite(double value, const char* name) {
        if (!std::isfinite(value)) say(std::string(name) + " is not a number");
    }
    void not_negative(double value, const char* name) {
        if (!(value >= 0) || std::isinf(value)) say(std::string(name) + " must be 0 or more");
    }
    void limit(double value, const char* name) {
        if (!(value >= 0)) say(std::string(name) + " must be 0 or more");
    }
    void positive(double value, const char* name) {
        if (!(value > 0) || std::isinf(value)) say(std::string(name) + " must be above 0");
    }
    void shared(int group, std::size_t groups) {
        if (group < -1 || group >= static_cast<int>(groups)) say("shared limit out of range");
    }
    std::vector<std::string> lines;

private:
    void say(const std::string& what) {
        lines.push_back(std::string(kind_) + " " + std::to_string(index_) + ": " + what);
    }
    int nodes_;
    const char* kind_ = "";
    std::size_t index_ = 0;
};

} // namespace

std::vector<Port> ports_of(const Circuit& c) {
    std::vector<Port> ports;
    auto add = [&ports](Element element, int plus, int minus, bool supply, bool ideal, double volts,
                        bool output = false) {
        if (both(plus, minus)) ports.push_back({element, output, plus, minus, supply, ideal, volts});
    };
    int k = 0;
    for (const Resistor& r : c.resistors) {
        if (r.closed) add({ElementKind::resistor, k}, r.a, r.b, false, r.r20_ohm == 0 && r.fixed_ohm == 0, 0);
        ++k;
    }
    k = 0;
    for (const Battery& b : c.batteries) {
        if (b.connected && (b.may_discharge || b.may_charge))
            add({ElementKind::battery, k}, b.plus, b.minus, b.may_discharge,
                b.may_discharge && (b.discharge_ohm == 0 || b.charge_ohm == 0), b.emf_V);
        ++k;
    }
    k = 0;
    for (const Regulator& r : c.regulators) {
        if (r.on)
            add({ElementKind::regulator, k}, r.plus, r.minus, true, r.holds && r.droop_ohm == 0, r.set_V);
        ++k;
    }
    k = 0;
    for (const Converter& v : c.converters) {
        const Element element{ElementKind::converter, k++};
        if (v.on || v.standby_A > 0) add(element, v.in_plus, v.in_minus, false, false, 0);
        if (v.on && both(v.in_plus, v.in_minus))
            add(element, v.out_plus, v.out_minus, true, false, v.set_V, true);
    }
    k = 0;
    for (const Load& l : c.loads) {
        if (draws(l))
            add({ElementKind::load, k}, l.plus, l.minus, false, l.law == LoadLaw::resistance && l.value == 0,
                0);
        ++k;
    }
    k = 0;
    for (const Diode& d : c.diodes) add({ElementKind::diode, k++}, d.a, d.b, false, false, 0);
    return ports;
}

std::vector<std::string> numbers_refused(const Circuit& c) {
    Refusals check(c.nodes);
    for (std::size_t k = 0; k < c.resistors.size(); ++k) {
        const Resistor& r = c.resistors[k];
        check.next("resistor", k);
        check.nodes(r.a, r.b);
        check.not_negative(r.r20_ohm, "r20_ohm");
        check.not_negative(r.fixed_ohm, "fixed_ohm");
        check.finite(r.at_C, "at_C");
        if (!r.thermal) continue;
        check.finite(r.thermal->ambient_C, "ambient_C");
        check.not_negative(r.thermal->rated_A, "rated_A");
        check.finite(r.thermal->reference_C, "reference_C");
        check.finite(r.thermal->limit_C, "limit_C");
    }
    for (std::size_t k = 0; k < c.batteries.size(); ++k) {
        const Battery& b = c.batteries[k];
        check.next("battery", k);
        check.nodes(b.plus, b.minus);
        check.finite(b.emf_V, "emf_V");
        check.not_negative(b.discharge_ohm, "discharge_ohm");
        check.not_negative(b.charge_ohm, "charge_ohm");
        if (b.may_discharge != b.may_charge)
            check.positive(b.may_charge ? b.charge_ohm : b.discharge_ohm, "resistance");
    }
    for (std::size_t k = 0; k < c.regulators.size(); ++k) {
        const Regulator& r = c.regulators[k];
        check.next("regulator", k);
        check.nodes(r.plus, r.minus);
        check.not_negative(r.set_V, "set_V");
        if (r.holds)
            check.not_negative(r.droop_ohm, "droop_ohm");
        else
            check.positive(r.droop_ohm, "droop_ohm");
        check.limit(r.limit_A, "limit_A");
        check.limit(r.limit_W, "limit_W");
        check.shared(r.shared, c.shared_limit_A.size());
    }
    for (std::size_t k = 0; k < c.converters.size(); ++k) {
        const Converter& v = c.converters[k];
        check.next("converter", k);
        check.nodes(v.in_plus, v.in_minus);
        check.nodes(v.out_plus, v.out_minus);
        check.not_negative(v.standby_A, "standby_A");
        if (!v.on) continue;
        check.not_negative(v.set_V, "set_V");
        check.positive(v.droop_ohm, "droop_ohm");
        check.limit(v.out_limit_A, "out_limit_A");
        check.limit(v.in_limit_A, "in_limit_A");
        check.not_negative(v.p0_W, "p0_W");
        check.not_negative(v.k1, "k1");
        check.not_negative(v.k2_ohm, "k2_ohm");
        check.not_negative(v.in_knee_V, "in_knee_V");
        check.not_negative(v.fold_share, "fold_share");
        check.shared(v.shared, c.shared_limit_A.size());
    }
    for (std::size_t k = 0; k < c.loads.size(); ++k) {
        const Load& l = c.loads[k];
        check.next("load", k);
        check.nodes(l.plus, l.minus);
        check.not_negative(l.value, "value");
        check.not_negative(l.knee_V, "knee_V");
        check.finite(l.lowest_V, "lowest_V");
        if (std::isnan(l.highest_V)) check.finite(l.highest_V, "highest_V");
    }
    for (std::size_t k = 0; k < c.diodes.size(); ++k) {
        const Diode& d = c.diodes[k];
        check.next("diode", k);
        check.nodes(d.a, d.b);
        check.not_negative(d.drop_V, "drop_V");
        check.positive(d.ohm, "ohm");
    }
    for (std::size_t k = 0; k < c.shared_limit_A.size(); ++k) {
        check.next("shared limit", k);
        check.not_negative(c.shared_limit_A[k], "limit_A");
    }
    return check.lines;
}

} // namespace fl::solve
