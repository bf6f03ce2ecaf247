#include "core/solve/laws.h"

#include <algorithm>
#include <cmath>

namespace fl::solve {

namespace {

/// So close to its set voltage a source counts as holding it: the side of the corner that keeps a grip.
double hair(double set_V) {
    return 1e-9 * std::max(1.0, set_V);
}

/// The greatest current a converter's input may take.
CurrentLaw input_limit(const Converter& v, double knee_V, double in_V) {
    if (in_V < -hair(v.set_V)) return {0, 0};
    const double full_A = std::min(v.out_limit_A, v.set_V / v.droop_ohm);
    const double full_W = (1 + v.k1) * v.set_V * full_A + v.k2_ohm * full_A * full_A + v.p0_W;
    const double at_knee = std::min(v.in_limit_A, full_W / knee_V);
    if (in_V < knee_V) return {std::max(0.0, at_knee * in_V / knee_V), at_knee / knee_V};
    return {v.in_limit_A, 0};
}

struct Output {
    double amps = unlimited, per_in = 0, per_out = 0, per_left = 0;
    bool by_input = false;
};

/// The output at which the input limit is just reached: (1 + k1)·vo·io + k2·io² = vi·ii - p0, solved for io
/// without loss of digits.
Output output_at_limit(const Converter& v, const CurrentLaw& limit, double in_V, double out_V) {
    if (std::isinf(limit.amps)) return {};
    const double spare_W = std::max(0.0, in_V) * limit.amps - v.p0_W;
    if (spare_W <= 0) return {0, 0, 0, 0, true};
    const double a = (1 + v.k1) * std::max(0.0, out_V);
    const double root = std::sqrt(a * a + 4 * v.k2_ohm * spare_W);
    if (a + root <= 0) return {};
    const double amps = 2 * spare_W / (a + root);
    const double slope = a + 2 * v.k2_ohm * amps; // d(power)/d(io), equals root
    return {amps, (limit.amps + in_V * limit.per_V) / slope, out_V > 0 ? -(1 + v.k1) * amps / slope : 0, 0,
            true};
}

/// The output's own limit, which folds back with its voltage where it does.
Output own_limit(const Converter& v, double out_V) {
    if (v.fold_share >= 1 || out_V >= v.set_V || std::isinf(v.out_limit_A))
        return {v.out_limit_A, 0, 0, 0, false};
    const double folded = v.out_limit_A * (1 - v.fold_share);
    if (out_V <= 0) return {v.out_limit_A - folded, 0, 0, 0, false};
    return {v.out_limit_A - folded * (1 - out_V / v.set_V), 0, folded / v.set_V, 0, false};
}

/// The output a converter may give at most.
Output output_limit(const Converter& v, double knee_V, double in_V, double out_V, double left_A) {
    Output least = own_limit(v, out_V);
    if (left_A < least.amps) least = {std::max(0.0, left_A), 0, 0, left_A > 0 ? 1.0 : 0.0, false};
    const Output by_input = output_at_limit(v, input_limit(v, knee_V, in_V), in_V, out_V);
    return least.amps <= by_input.amps ? least : by_input;
}

/// A limit and how it moves with the voltage and with what the others of the unit leave.
struct Limit {
    CurrentLaw own;
    double per_left = 0;
};

Limit regulator_limit(const Regulator& r, double volts, double left_A) {
    CurrentLaw own{r.limit_A, 0};
    if (volts > 0 && r.limit_W < r.limit_A * volts) own = {r.limit_W / volts, -r.limit_W / (volts * volts)};
    if (left_A < own.amps) return {{std::max(0.0, left_A), 0}, left_A > 0 ? 1.0 : 0.0};
    return {own, 0};
}

// A source above its set voltage has no grip at all, and a part with idle sources only would have any
// voltage. Newton's method is told that they give way this much, so that such a part stays where it is (at
// the highest of their set voltages); the law itself knows nothing of it.
constexpr double stay_S = 1e-6;
// What a blocked battery or a diode is taken to carry when it carries: only for the steps of Newton's method.
constexpr double one_way_A = 100;

enum class Piece { none, line, limit };

struct Source {
    double set_V, droop_ohm, typical_A, margin;
};

SourceRow source_row(const Source& s, double volts, double amps, const CurrentLaw& limit, Piece& piece) {
    // Usually a tenth of the voltage over the whole range of current: what a network outside is like.
    const double m = std::isinf(s.typical_A) || s.typical_A <= 0
                         ? s.droop_ohm
                         : std::max(s.droop_ohm, s.margin * std::abs(s.set_V) / s.typical_A);
    const double line = m * amps + s.set_V - volts - s.droop_ohm * amps;
    const double top = m * limit.amps;
    const double scale = std::max(std::abs(s.set_V - volts), s.droop_ohm * std::abs(amps));
    if (line < -hair(s.set_V)) {
        piece = Piece::none;
        return {m * amps, m * std::abs(amps), m * stay_S, m, m};
    }
    if (line <= top) {
        piece = Piece::line;
        return {m * amps - std::max(0.0, line), scale, 1, s.droop_ohm, m};
    }
    piece = Piece::limit;
    return {m * amps - top, m * std::abs(amps), -m * limit.per_V, m, m};
}

} // namespace

CurrentLaw load_current(const Load& load, double knee_V, double volts) {
    switch (load.law) {
    case LoadLaw::resistance:
        return {volts / load.value, 1 / load.value};
    case LoadLaw::current:
        if (volts < knee_V) return {load.value * volts / knee_V, load.value / knee_V};
        return {load.value, 0};
    case LoadLaw::power:
        if (volts < knee_V) {
            const double siemens = load.value / (knee_V * knee_V);
            return {siemens * volts, siemens};
        }
        return {load.value / volts, -load.value / (volts * volts)};
    }
    return {};
}

CurrentLaw standby_current(const Converter& v, double knee_V, double volts) {
    if (volts <= 0) return {0, volts < 0 ? 0 : v.standby_A / knee_V};
    if (volts < knee_V) return {v.standby_A * volts / knee_V, v.standby_A / knee_V};
    return {v.standby_A, 0};
}

BatteryLaw battery_voltage(const Battery& battery, double amps) {
    const double ohm = amps > 0 ? battery.charge_ohm : battery.discharge_ohm;
    return {battery.emf_V + ohm * amps, ohm};
}

SourceRow one_way_row(const Battery& b, double volts, double amps, double margin) {
    // As a source that never absorbs: of the EMF, or, seen from the other end, of what is above it.
    const double sign = b.may_discharge ? 1 : -1;
    Piece piece{};
    SourceRow row =
        source_row({sign * b.emf_V, b.may_discharge ? b.discharge_ohm : b.charge_ohm, one_way_A, margin},
                   sign * volts, -sign * amps, {unlimited, 0}, piece);
    row.volts *= sign;
    row.per_A *= -1;
    return row;
}

SourceRow diode_row(const Diode& d, double volts, double amps, double margin) {
    Battery as_battery;
    as_battery.emf_V = d.drop_V;
    as_battery.charge_ohm = d.ohm;
    as_battery.may_discharge = false;
    return one_way_row(as_battery, volts, amps, margin);
}

SourceRow regulator_row(const Regulator& r, double volts, double amps, double left_A, double margin) {
    if (r.holds) {
        const double below = r.set_V - volts, drop = r.droop_ohm * amps;
        return {drop - below, std::max(std::abs(below), std::abs(drop)), 1, r.droop_ohm, r.droop_ohm};
    }
    Piece piece{};
    const Limit limit = regulator_limit(r, volts, left_A);
    SourceRow row =
        source_row({r.set_V, r.droop_ohm, std::min(r.limit_A, r.limit_W / std::max(1.0, r.set_V)), margin},
                   volts, amps, limit.own, piece);
    if (piece == Piece::limit) row.per_left_A = -row.m_ohm * limit.per_left;
    return row;
}

RegulatorMode regulator_mode(const Regulator& r, double volts, double left_A) {
    const double below = r.set_V - volts;
    if (r.holds) return RegulatorMode::regulating;
    if (below < -hair(r.set_V)) return RegulatorMode::idle;
    return below <= r.droop_ohm * regulator_limit(r, volts, left_A).own.amps ? RegulatorMode::regulating
                                                                             : RegulatorMode::limited;
}

ConverterMode converter_mode(const Converter& v, double knee_V, double in_V, double out_V, double left_A) {
    const double below = v.set_V - out_V;
    if (below < -hair(v.set_V)) return ConverterMode::idle;
    const Output limit = output_limit(v, knee_V, in_V, out_V, left_A);
    if (below <= v.droop_ohm * limit.amps) return ConverterMode::regulating;
    return limit.by_input ? ConverterMode::input_limited : ConverterMode::output_limited;
}

ConverterLaw converter_law(const Converter& v, double knee_V, double in_V, double out_V, double out_A,
                           double left_A, double margin) {
    ConverterLaw law;
    const Output limit = output_limit(v, knee_V, in_V, out_V, left_A);
    Piece piece{};
    const Source source{v.set_V, v.droop_ohm, std::min(v.out_limit_A, v.set_V / v.droop_ohm), margin};
    law.row = source_row(source, out_V, out_A, {limit.amps, limit.per_out}, piece);
    if (piece == Piece::limit && limit.amps > 0) { // m·limit by the input, as its row has it by the output
        law.row_per_in = -law.row.m_ohm * limit.per_in;
        law.row.per_left_A = -law.row.m_ohm * limit.per_left;
    }

    const CurrentLaw in_limit = input_limit(v, knee_V, in_V);
    if (in_V <= 0) {
        law.in_per_in = in_limit.per_V; // nothing at and below 0 V
        return law;
    }
    const double out = std::max(0.0, out_A), v_out = std::max(0.0, out_V);
    const double watts = (1 + v.k1) * v_out * out + v.k2_ohm * out * out + v.p0_W;
    if (watts > in_V * in_limit.amps) {
        law.in_A = in_limit.amps;
        law.in_per_in = in_limit.per_V;
        return law;
    }
    law.in_A = watts / in_V;
    law.in_per_in = -law.in_A / in_V;
    if (out_V > 0) law.in_per_out = (1 + v.k1) * out / in_V;
    if (out_A >= 0) law.in_per_out_A = ((1 + v.k1) * v_out + 2 * v.k2_ohm * out) / in_V;
    return law;
}

} // namespace fl::solve
