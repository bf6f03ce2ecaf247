#include "core/listing/figures.h"

#include "core/solve/reading.h"

namespace fl::listing {
namespace {

template <class T>
const T& item(const std::vector<T>& all, int index) {
    return all[static_cast<std::size_t>(index)];
}

class Reading {
public:
    Reading(const assess::Assessment& a, const condition::Solved& s)
        : a_(a)
        , s_(s) {}

    Figures all() const {
        Figures out;
        if (!s_.solution.usable) return out;
        for (int b = 0; b < static_cast<int>(a_.network.branches.size()); ++b) add_conductor(out, b);
        for (int p = 0; p < static_cast<int>(a_.network.ports.size()); ++p) add_port(out, p);
        for (int c = 0; c < static_cast<int>(a_.network.converters.size()); ++c) add_charger(out, c);
        return out;
    }

private:
    std::optional<Voltage> voltage(int plus, int minus) const {
        const auto volts = solve::voltage(s_.solution, plus, minus);
        if (!volts) return {};
        return Voltage::si(*volts);
    }

    void add_conductor(Figures& out, int branch) const {
        const plan::Conductor* w =
            a_.installation.conductors.find(item(a_.network.branches, branch).conductor);
        const int r = item(s_.setup.map.resistor_of_branch, branch);
        if (!w || w->role == plan::Role::signal || r < 0) return;
        const solve::Resistor& resistor = item(s_.setup.circuit.resistors, r);
        const auto lost = voltage(resistor.a, resistor.b);
        if (!lost) return;
        out.conductors.push_back({w->id, Current::si(item(s_.solution.resistor_A, r)), *lost,
                                  Temperature::celsius(item(s_.solution.resistor_C, r))});
    }

    void add_port(Figures& out, int p) const {
        const network::Port& port = item(a_.network.ports, p);
        const auto across = voltage(port.plus, port.minus);
        if (const int b = item(s_.setup.map.battery_of_port, p); b >= 0) {
            const double charging_A = item(s_.solution.battery_A, b);
            out.sources.push_back({p, across, Current::si(-charging_A), battery_state(b, charging_A)});
        } else if (const int r = item(s_.setup.map.regulator_of_port, p); r >= 0) {
            out.sources.push_back({p, across, Current::si(item(s_.solution.regulator_A, r)),
                                   regulator_state(item(s_.solution.regulator_mode, r))});
        } else if (const int l = item(s_.setup.map.load_of_port, p); l >= 0) {
            const auto source = reference_voltage(p);
            std::optional<Voltage> drop;
            if (across && source && item(s_.setup.circuit.loads, l).on) drop = *source - *across;
            out.loads.push_back({p, across, drop, Current::si(item(s_.solution.load_A, l)), load_state(l)});
        }
    }

    void add_charger(Figures& out, int c) const {
        const int k = item(s_.setup.map.converter_of, c);
        if (k < 0) return;
        const network::TwoPort& port = item(a_.network.converters, c);
        out.chargers.push_back({c, voltage(port.in_plus, port.in_minus),
                                voltage(port.out_plus, port.out_minus),
                                Current::si(item(s_.solution.converter_in_A, k)),
                                Current::si(item(s_.solution.converter_out_A, k)), charger_state(c, k)});
    }

    // At the terminals of what feeds the load.
    std::optional<Voltage> reference_voltage(int load_port) const {
        const auto source = condition::terminals_of(a_.network, item(s_.setup.references, load_port));
        return source.plus < 0 ? std::nullopt : voltage(source.plus, source.minus);
    }

    bool said(solve::VerdictCode code, solve::ElementKind kind, int index) const {
        for (const solve::Verdict& v : s_.solution.verdicts)
            if (v.code == code && v.subject == solve::Element{kind, index}) return true;
        return false;
    }

    State battery_state(int battery, double charging_A) const {
        // Less than a battery loses by itself.
        constexpr double nothing_A = 0.5e-3;
        if (!item(s_.setup.circuit.batteries, battery).connected) return {"disconnected", "disconnected"};
        if (charging_A > nothing_A) return {"charging", "charging"};
        if (charging_A < -nothing_A) return {"discharging", "discharging"};
        return {"resting", "resting"};
    }

    static State regulator_state(solve::RegulatorMode mode) {
        switch (mode) {
        case solve::RegulatorMode::off:
            return {"off", "off"};
        case solve::RegulatorMode::idle:
            return {"idle", "on, delivers nothing"};
        case solve::RegulatorMode::regulating:
            return {"regulating", "holds its voltage"};
        case solve::RegulatorMode::limited:
            return {"limited", "at its limit"};
        }
        return {};
    }

    State load_state(int l) const {
        using enum solve::VerdictCode;
        constexpr auto load = solve::ElementKind::load;
        if (!item(s_.setup.circuit.loads, l).on) return {"off", "off"};
        if (said(dead, load, l)) return {"no_supply", "no supply"};
        if (said(starved, load, l)) return {"too_little_voltage", "too little voltage"};
        if (said(over_voltage, load, l)) return {"too_much_voltage", "too much voltage"};
        if (item(s_.solution.load_mode, l) == solve::LoadMode::below_knee)
            return {"too_little_voltage", "too little voltage"};
        return {"on", "on"};
    }

    State charger_state(int c, int k) const {
        if (item(s_.runs, c) == condition::Runs::hunts) return {"hunts", "starts and stops by turns"};
        if (said(solve::VerdictCode::converter_starved, solve::ElementKind::converter, k))
            return {"starved", "input can't feed it"};
        const bool both = item(s_.runs, c) == condition::Runs::both;
        switch (item(s_.solution.converter_mode, k)) {
        case solve::ConverterMode::off:
            if (both) return {"off_or_on", "off, or on if it was on"};
            return {"off", "off"};
        case solve::ConverterMode::idle:
            return {"idle", "on, delivers nothing"};
        case solve::ConverterMode::regulating:
            return {"regulating", "holds its voltage"};
        case solve::ConverterMode::output_limited:
            return {"output_limited", "at its output limit"};
        case solve::ConverterMode::input_limited:
            return {"input_limited", "at its input limit"};
        }
        return {};
    }

    const assess::Assessment& a_;
    const condition::Solved& s_;
};

} // namespace

Figures figures(const assess::Assessment& assessment, const condition::Solved& solved) {
    return Reading(assessment, solved).all();
}

} // namespace fl::listing
