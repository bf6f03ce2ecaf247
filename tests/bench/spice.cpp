#include "tests/bench/spice.h"

#include "tests/bench/growth.h"

#include <ngspice/sharedspice.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstring>
#include <limits>
#include <vector>

namespace fl::bench {
namespace {

using namespace solve;

std::string said;

int hear(char* text, int, void*) {
    said += text;
    return 0;
}
int status(char*, int, void*) {
    return 0;
}
int leave(int, bool, bool, int, void*) {
    return 0;
}
int data(vecvaluesall*, int, int, void*) {
    return 0;
}
int init_data(vecinfoall*, int, void*) {
    return 0;
}
int thread_runs(bool, int, void*) {
    return 0;
}

double command(std::string text) {
    const double start = processor_s();
    ngSpice_Command(text.data());
    return processor_s() - start;
}

std::string text(double value) {
    char digits[40];
    return {digits, std::to_chars(digits, digits + sizeof digits, value, std::chars_format::scientific).ptr};
}
std::string node(int n) {
    return "n" + std::to_string(n);
}

class Netlist {
public:
    Netlist(const Circuit& c, const Solution& at)
        : c_(c)
        , at_(at) {}

    std::string make() {
        line("bench");
        line(".options reltol=1e-9 abstol=1e-9 vntol=1e-10 itl1=300");
        for (int n = 0; n < c_.nodes; ++n)
            if (at_.node_V[static_cast<std::size_t>(n)] == 0) {
                line("vreference " + node(n) + " 0 0");
                break;
            }
        for (std::size_t k = 0; k < c_.resistors.size(); ++k) resistor(k);
        for (const Battery& b : c_.batteries) { // one resistance, charging and discharging
            line("vbattery " + node(b.plus) + " inside " + text(b.emf_V));
            line("rbattery inside " + node(b.minus) + " " + text(b.discharge_ohm));
        }
        for (const Regulator& r : c_.regulators) {
            const std::string amps =
                "(" + text(r.set_V) + "-" + across(r.plus, r.minus) + ")/" + text(r.droop_ohm);
            line("bregulator " + node(r.minus) + " " + node(r.plus) + " i = max(0,min(" + amps + "," +
                 text(r.limit_A) + "))");
        }
        for (std::size_t k = 0; k < c_.loads.size(); ++k) load(k);
        line(".end");
        return std::move(out_);
    }

private:
    const Circuit& c_;
    const Solution& at_;
    std::string out_;

    void line(const std::string& one) { out_ += one + "\n"; }
    static std::string across(int a, int b) { return "v(" + node(a) + "," + node(b) + ")"; }

    void resistor(std::size_t k) {
        const Resistor& r = c_.resistors[k];
        const std::string name = "r" + std::to_string(k);
        if (!r.thermal) {
            line(name + " " + node(r.a) + " " + node(r.b) + " " + text(r.r20_ohm));
            return;
        }
        // Through an ammeter to a voltage by the heat balance (docs/method.md 1).
        const Thermal& t = *r.thermal;
        const std::string i = "i(v" + name + ")", full = text(234.5 + t.limit_C);
        const std::string part = "(" + i + "/" + text(t.rated_A) + ")";
        const std::string heat = "(" + text(t.limit_C - t.reference_C) + "*" + part + "*" + part + ")";
        const std::string settled =
            text(t.ambient_C) + "+" + heat + "*" + text(234.5 + t.ambient_C) + "/(" + full + "-" + heat + ")";
        line("v" + name + " " + node(r.a) + " x" + name + " 0");
        line("b" + name + " x" + name + " " + node(r.b) + " v = " + i + "*" + text(r.r20_ohm / 254.5) +
             "*(234.5+min(" + text(t.limit_C) + "," + settled + "))");
    }

    void load(std::size_t k) {
        const Load& l = c_.loads[k];
        const std::string number = std::to_string(k),
                          between = " " + node(l.plus) + " " + node(l.minus) + " ";
        const std::string v = across(l.plus, l.minus), knee = text(at_.load_knee_V[k]);
        if (l.law == LoadLaw::resistance)
            line("rload" + number + between + text(l.value));
        else if (l.law == LoadLaw::current)
            line("bload" + number + between + "i = " + text(l.value / at_.load_knee_V[k]) + "*min(" + v +
                 "," + knee + ")");
        else
            line("bload" + number + between + "i = (" + v + "<" + knee + "?" +
                 text(l.value / at_.load_knee_V[k] / at_.load_knee_V[k]) + "*" + v + ":" + text(l.value) +
                 "/max(" + v + ",1e-3))");
    }
};

} // namespace

Spice::Spice(const Circuit& circuit, const Solution& at) {
    static const bool ready = [] {
        ngSpice_Init(hear, status, leave, data, init_data, thread_runs, nullptr);
        command("optran 1 1 1 0 0 0"); // its last resort, a transient, is no operating point
        return true;
    }();
    static_cast<void>(ready);
    std::string netlist = Netlist(circuit, at).make();
    std::vector<char*> lines;
    for (char* from = netlist.data(); char* end = std::strchr(from, '\n'); from = end + 1) {
        *end = '\0';
        lines.push_back(from);
    }
    lines.push_back(nullptr);
    ngSpice_Circ(lines.data());
}

Spice::~Spice() {
    forget();
    command("remcirc");
}

void Spice::forget() {
    command("destroy all");
}

double Spice::op() {
    forget(); // else every point is kept
    said.clear();
    const double took_s = command("op");
    const bool failed = said.find("aborted") != std::string::npos || said.find("Error") != std::string::npos;
    return failed ? 0 : took_s;
}

double Spice::alter(std::size_t resistor, double ohm) {
    return command("alter r" + std::to_string(resistor) + " = " + text(ohm));
}

double Spice::off_by(const Solution& ours) const {
    double most = 0;
    for (std::size_t n = 0; n < ours.node_V.size(); ++n) {
        std::string name = node(static_cast<int>(n));
        const pvector_info info = ngGet_Vec_Info(name.data());
        if (!info || info->v_length < 1 || !info->v_realdata) return std::numeric_limits<double>::infinity();
        most = std::max(most, std::abs(info->v_realdata[info->v_length - 1] - ours.node_V[n]));
    }
    return most;
}

} // namespace fl::bench
