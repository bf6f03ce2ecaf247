#include "tests/oracle/spice_netlist.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <utility>

namespace fl::test {

using namespace fl::solve;

namespace {

std::string text(double value) {
    char digits[40];
    return {digits, std::to_chars(digits, digits + sizeof digits, value, std::chars_format::scientific).ptr};
}

std::string node(int n) {
    return "n" + std::to_string(n);
}

std::string across(int plus, int minus) {
    return "v(" + node(plus) + "," + node(minus) + ")";
}

class Netlist {
public:
    Netlist(const Circuit& c, const Solution& s, const Writing& writing)
        : c_(c)
        , s_(s)
        , writing_(writing) {}

    Written make() {
        line("operating point");
        line(".options reltol=1e-9 abstol=" + text(writing_.abstol_A) +
             " vntol=1e-10 rshunt=1e12 itl1=300 itl2=200");
        // Swept beyond 1 and held there: two more solutions from the one that is there already, down to
        // rounding.
        line("vdemand sweep 0 0");
        line("bdemand demand 0 v = min(v(sweep),1)");
        references();
        for (std::size_t k = 0; k < c_.resistors.size(); ++k) resistor(k);
        for (std::size_t k = 0; k < c_.batteries.size(); ++k) battery(k);
        for (std::size_t k = 0; k < c_.regulators.size(); ++k) regulator(k);
        for (std::size_t k = 0; k < c_.converters.size(); ++k) converter(k);
        for (std::size_t k = 0; k < c_.loads.size(); ++k) load(k);
        for (std::size_t k = 0; k < c_.diodes.size(); ++k) diode(k);
        line(".dc vdemand " + text(writing_.from) + " 1.04 0.02");
        line(".end");
        return std::move(out_);
    }

private:
    const Circuit& c_;
    const Solution& s_;
    Writing writing_;
    Written out_;

    void line(const std::string& one) { out_.text += one + "\n"; }
    void ammeter(const std::string& name, double ours_A) {
        out_.ammeters.push_back(name);
        out_.ours_A.push_back(ours_A);
    }
    static bool joined(int a, int b) { return a >= 0 && b >= 0 && a != b; }

    void references() {
        std::vector<char> done;
        for (int n = 0; n < c_.nodes; ++n) {
            const auto k = static_cast<std::size_t>(n);
            const auto island = static_cast<std::size_t>(s_.node_island[k]);
            done.resize(std::max(done.size(), island + 1), 0);
            if (done[island] || s_.node_V[k] != 0) continue;
            done[island] = 1;
            line("vref" + std::to_string(island) + " " + node(n) + " 0 0");
        }
    }

    /// From `a` through an ammeter called vNAME to a voltage that is a law of its current, and to b.
    void by_current(const std::string& name, int a, int b, const std::string& volts, double ours_A) {
        ammeter("v" + name, ours_A);
        line("v" + name + " " + node(a) + " x" + name + " 0");
        line("b" + name + " x" + name + " " + node(b) + " v = " + volts);
    }

    void resistor(std::size_t k) {
        const Resistor& r = c_.resistors[k];
        if (!r.closed || !joined(r.a, r.b)) return;
        const std::string name = "r" + std::to_string(k);
        const double per_C = r.r20_ohm / 254.5;
        if (!r.thermal || !writing_.heat) {
            const double at_C = r.thermal ? s_.resistor_C[k] : r.at_C;
            const double ohm = per_C * (234.5 + at_C) + r.fixed_ohm;
            ammeter("v" + name, s_.resistor_A[k]);
            line("v" + name + " " + node(r.a) + " " + (ohm == 0 ? node(r.b) : "x" + name) + " 0");
            if (ohm > 0) line(name + " x" + name + " " + node(r.b) + " " + text(ohm));
            return;
        }
        const Thermal& t = *r.thermal;
        const double top = std::max(t.limit_C, t.ambient_C), full = 234.5 + t.limit_C;
        // Long before heat reaches `full`, where there is no steady temperature, the limit holds: beyond that
        // the current need not count further.
        const std::string i = "i(v" + name + ")";
        const std::string most = text(t.rated_A * std::sqrt(0.95 * full / (t.limit_C - t.reference_C)));
        const std::string part = "(max(min(" + i + "," + most + "),-" + most + ")/" + text(t.rated_A) + ")";
        const std::string heat = "(" + text(t.limit_C - t.reference_C) + "*" + part + "*" + part + ")";
        const std::string settled = "(" + text(t.ambient_C) + "+" + heat + "*" + text(234.5 + t.ambient_C) +
                                    "/(" + text(full) + "-" + heat + "))";
        by_current(name, r.a, r.b,
                   i + "*(" + text(r.fixed_ohm) + "+" + text(per_C) + "*(234.5+min(" + text(top) + "," +
                       settled + ")))",
                   s_.resistor_A[k]);
    }

    void battery(std::size_t k) {
        const Battery& b = c_.batteries[k];
        if (!b.connected || !joined(b.plus, b.minus) || !(b.may_charge || b.may_discharge)) return;
        const std::string off = "(" + across(b.plus, b.minus) + "-" + text(b.emf_V) + ")";
        const std::string name = "bat" + std::to_string(k);
        ammeter("v" + name, s_.battery_A[k]);
        line("v" + name + " " + node(b.plus) + " x" + name + " 0");
        line("b" + name + " x" + name + " " + node(b.minus) + " i = " + off + "*(" + off + ">0?" +
             text(b.may_charge ? 1 / b.charge_ohm : 0) + ":" +
             text(b.may_discharge ? 1 / b.discharge_ohm : 0) + ")");
    }

    void diode(std::size_t k) {
        const Diode& d = c_.diodes[k];
        if (!joined(d.a, d.b)) return;
        const std::string name = "dio" + std::to_string(k);
        ammeter("v" + name, s_.diode_A[k]);
        line("v" + name + " " + node(d.a) + " x" + name + " 0");
        line("b" + name + " x" + name + " " + node(d.b) + " i = max(0," + across(d.a, d.b) + "-" +
             text(d.drop_V) + ")*" + text(1 / d.ohm));
    }

    /// A limit, and what those of its unit that are served before it leave of the shared one.
    std::string shared(std::string limit, int unit, bool converter, std::size_t last) const {
        if (unit < 0) return limit;
        std::string left = text(c_.shared_limit_A[static_cast<std::size_t>(unit)]);
        for (std::size_t k = 0; k < (converter ? c_.regulators.size() : last); ++k) {
            const Regulator& r = c_.regulators[k];
            if (r.shared == unit && r.on && joined(r.plus, r.minus))
                left += "-i(vreg" + std::to_string(k) + ")";
        }
        for (std::size_t k = 0; converter && k < last; ++k) {
            const Converter& v = c_.converters[k];
            if (v.shared == unit && v.on && joined(v.in_plus, v.in_minus))
                left += "-i(vcon" + std::to_string(k) + ")";
        }
        return "min(" + limit + ",max(0," + left + "))";
    }

    void regulator(std::size_t k) {
        const Regulator& r = c_.regulators[k];
        if (!r.on || !joined(r.plus, r.minus)) return;
        const std::string name = "reg" + std::to_string(k), v = across(r.plus, r.minus);
        ammeter("v" + name, s_.regulator_A[k]);
        if (r.holds) {
            line("v" + name + " " + node(r.minus) + " x" + name + " 0");
            line("b" + name + " x" + name + " " + node(r.plus) + " v = " + text(r.droop_ohm) + "*i(v" + name +
                 ")-" + text(r.set_V));
            return;
        }
        std::string limit = std::isfinite(r.limit_A) ? text(r.limit_A) : "1e6";
        if (std::isfinite(r.limit_W))
            limit = "min(" + limit + "," + text(r.limit_W) + "/max(" + v + ",1e-3))";
        limit = shared(limit, r.shared, false, k);
        source(name, r.plus, r.minus, r.set_V, r.droop_ohm, limit, std::min(r.limit_A, 1e6));
    }

    /// A source between 0 and a limit. Written for the current, i = max(0, min((set - v)/droop, limit)),
    /// ngspice swings between the bounds for ever; the same law stated as m·i = max(0, min(m·i + set - v -
    /// droop·i, m·limit)) holds.
    void source(const std::string& name, int plus, int minus, double set_V, double droop_ohm,
                const std::string& limit, double typical_A) {
        const double m = std::max(droop_ohm, writing_.margin * set_V / typical_A);
        const std::string v = across(plus, minus), i = "i(v" + name + ")";
        line("v" + name + " " + node(minus) + " x" + name + " 0");
        line("b" + name + " x" + name + " " + node(plus) + " v = " + text(m) + "*" + i + "-" + v +
             "-max(0,min(" + text(m - droop_ohm) + "*" + i + "+" + text(set_V) + "-" + v + "," + text(m) +
             "*v(demand)*" + limit + "))");
    }

    void converter(std::size_t k) {
        const Converter& v = c_.converters[k];
        if (!joined(v.in_plus, v.in_minus)) return;
        const std::string name = "con" + std::to_string(k), in = across(v.in_plus, v.in_minus);
        const double knee = s_.converter_knee_V[k];
        const std::string from = " " + node(v.in_plus) + " " + node(v.in_minus);
        if (!v.on) {
            line("b" + name + from + " i = v(demand)*" + text(v.standby_A / knee) + "*min(max(" + in +
                 ",0)," + text(knee) + ")");
            return;
        }
        const double full_A = std::min(v.out_limit_A, v.set_V / v.droop_ohm);
        const double full_W = (1 + v.k1) * v.set_V * full_A + v.k2_ohm * full_A * full_A + v.p0_W;
        const double most_A = std::min(v.in_limit_A, full_W / knee);
        // Below the knee the limit falls to 0; above it an unlimited input is as good as never met.
        const double above_A = std::isfinite(v.in_limit_A) ? v.in_limit_A : 1e6;
        const std::string limit = "(" + in + "<" + text(knee) + "?" + text(most_A / knee) + "*max(" + in +
                                  ",0):" + text(above_A) + ")";
        const std::string out = "max(" + across(v.out_plus, v.out_minus) + ",0)";
        const std::string spare = "max(max(" + in + ",0)*" + limit + "-" + text(v.p0_W) + ",0)";
        const std::string a = "(" + text(1 + v.k1) + "*" + out + ")";
        const std::string by_input = "(2*" + spare + "/max(" + a + "+sqrt(" + a + "*" + a + "+" +
                                     text(4 * v.k2_ohm) + "*" + spare + "+1e-12),1e-6))";
        ammeter("v" + name, s_.converter_out_A[k]);
        std::string own = text(std::min(v.out_limit_A, 1e6));
        if (v.fold_share < 1)
            own = "(" + own + "*(" + text(v.fold_share) + "+" + text(1 - v.fold_share) + "*min(1," + out +
                  "/" + text(v.set_V) + ")))";
        source(name, v.out_plus, v.out_minus, v.set_V, v.droop_ohm,
               "min(" + shared(own, v.shared, true, k) + "," + by_input + ")", full_A);
        const std::string io = "i(v" + name + ")";
        const std::string watts = "(" + text(1 + v.k1) + "*" + out + "*" + io + "+" + text(v.k2_ohm) + "*" +
                                  io + "*" + io + "+" + text(v.p0_W) + ")";
        line("bin" + name + from + " i = v(demand)*min(" + limit + "," + watts + "/max(" + in + ",1e-3))");
    }

    void load(std::size_t k) {
        const Load& l = c_.loads[k];
        if (!l.on || !joined(l.plus, l.minus)) return;
        const std::string name = "load" + std::to_string(k), v = across(l.plus, l.minus);
        const std::string between = " " + node(l.plus) + " " + node(l.minus);
        const double knee = s_.load_knee_V[k];
        if (l.law == LoadLaw::resistance)
            line("b" + name + between + " i = v(demand)*" + v + "/" + text(l.value));
        else if (l.law == LoadLaw::current)
            line("b" + name + between + " i = v(demand)*" + text(l.value / knee) + "*min(" + v + "," +
                 text(knee) + ")");
        else
            line("b" + name + between + " i = v(demand)*(" + v + "<" + text(knee) + "?" +
                 text(l.value / (knee * knee)) + "*" + v + ":" + text(l.value) + "/max(" + v + ",1e-3))");
    }
};

} // namespace

Written spice_netlist(const Circuit& circuit, const Solution& solution, const Writing& writing) {
    return Netlist(circuit, solution, writing).make();
}

} // namespace fl::test
