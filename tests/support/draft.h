#pragma once

#include "core/solve/solution.h"

#include <algorithm>
#include <optional>
#include <string>

namespace fl::test {

/// A circuit put together by hand, node by node. Every function gives the index of what it added.
struct Draft {
    solve::Circuit c;

    int node() { return c.nodes++; }

    int resistor(int a, int b, double ohm) {
        solve::Resistor r;
        r.a = a, r.b = b, r.fixed_ohm = ohm;
        c.resistors.push_back(r);
        return static_cast<int>(c.resistors.size()) - 1;
    }
    /// Copper that warms up with its current.
    int warming(int a, int b, double r20_ohm, solve::Thermal thermal, double joints_ohm = 0) {
        const int k = resistor(a, b, joints_ohm);
        c.resistors.back().r20_ohm = r20_ohm;
        c.resistors.back().thermal = thermal;
        return k;
    }
    int battery(int plus, int minus, double emf_V, double ohm) {
        return battery(plus, minus, emf_V, ohm, ohm);
    }
    int battery(int plus, int minus, double emf_V, double discharge_ohm, double charge_ohm) {
        c.batteries.push_back({plus, minus, emf_V, discharge_ohm, charge_ohm, true});
        return static_cast<int>(c.batteries.size()) - 1;
    }
    int diode(int a, int b, double drop_V, double ohm) {
        c.diodes.push_back({a, b, drop_V, ohm});
        return static_cast<int>(c.diodes.size()) - 1;
    }
    int regulator(int plus, int minus, double set_V, double droop_ohm, double limit_A = solve::unlimited) {
        solve::Regulator r;
        r.plus = plus, r.minus = minus, r.set_V = set_V, r.droop_ohm = droop_ohm, r.limit_A = limit_A;
        c.regulators.push_back(r);
        return static_cast<int>(c.regulators.size()) - 1;
    }
    int held(int plus, int minus, double volts) {
        const int k = regulator(plus, minus, volts, 0);
        c.regulators.back().holds = true;
        return k;
    }
    solve::Converter& converter(int in_plus, int in_minus, int out_plus, int out_minus, double set_V,
                                double droop_ohm, double out_limit_A) {
        solve::Converter v;
        v.in_plus = in_plus, v.in_minus = in_minus, v.out_plus = out_plus, v.out_minus = out_minus;
        v.set_V = set_V, v.droop_ohm = droop_ohm, v.out_limit_A = out_limit_A;
        c.converters.push_back(v);
        return c.converters.back();
    }
    int load(solve::LoadLaw law, int plus, int minus, double value, double knee_V = 0, double lowest_V = 0) {
        solve::Load l;
        l.plus = plus, l.minus = minus, l.law = law, l.value = value, l.knee_V = knee_V,
        l.lowest_V = lowest_V;
        c.loads.push_back(l);
        return static_cast<int>(c.loads.size()) - 1;
    }
    int watts(int plus, int minus, double value, double knee_V = 0, double lowest_V = 0) {
        return load(solve::LoadLaw::power, plus, minus, value, knee_V, lowest_V);
    }
    int amps(int plus, int minus, double value, double knee_V = 0, double lowest_V = 0) {
        return load(solve::LoadLaw::current, plus, minus, value, knee_V, lowest_V);
    }
    int ohms(int plus, int minus, double value, double lowest_V = 0) {
        return load(solve::LoadLaw::resistance, plus, minus, value, 0, lowest_V);
    }
};

/// Voltage between two nodes of a solution.
inline double between(const solve::Solution& s, int plus, int minus) {
    return s.node_V[static_cast<std::size_t>(plus)] - s.node_V[static_cast<std::size_t>(minus)];
}

/// The first verdict with this code, if any.
inline std::optional<solve::Verdict> verdict(const solve::Solution& s, solve::VerdictCode code) {
    const auto found = std::find_if(s.verdicts.begin(), s.verdicts.end(),
                                    [code](const solve::Verdict& v) { return v.code == code; });
    if (found == s.verdicts.end()) return std::nullopt;
    return *found;
}

/// All lines of a check as one text for a failure message.
inline std::string lines(const std::vector<std::string>& all) {
    std::string text;
    for (const std::string& one : all) text += one + "\n";
    return text;
}

} // namespace fl::test
