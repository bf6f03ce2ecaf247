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
    if (in_V <= 0) return {0, 0};
    const double full_A = std::min(v.out_limit_A, v.set_V / v.droop_ohm);
    const double full_W = (1 + v.k1) * v.set_V * full_A + v.k2_ohm * full_A * full_A + v.p0_W;
    const double at_knee = std::min(v.in_limit_A, full_W / knee_V);
    if (in_V < knee_V) return {at_knee * in_V / knee_V, at_knee / knee_V};
    return {v.in_limit_A, 0};
}

struct Output {
    double amps = unlimited, per_in = 0, per_out = 0;
};

/// The output at which the input limit is just reached: (1 + k1)·vo·io + k2·io² = vi·ii - p0, solved for io
/// without loss of digits.
Output output_at_limit(const Converter& v, const CurrentLaw& limit, double in_V, double out_V) {
    if (std::isinf(limit.amps)) return {};
    const double spare_W = std::max(0.0, in_V) * limit.amps - v.p0_W;
    if (spare_W <= 0) return {0, 0, 0};
    const double a = (1 + v.k1) * std::max(0.0, out_V);
    const double root = std::sqrt(a * a + 4 * v.k2_ohm * spare_W);
    if (a + root <= 0) return {};
    const double amps = 2 * spare_W / (a + root);
    const double slope = a + 2 * v.k2_ohm * amps; // d(power)/d(io), equals root
    return {amps, (limit.amps + in_V * limit.per_V) / slope, out_V > 0 ? -(1 + v.k1) * amps / slope : 0};
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

RegulatorLaw regulator_drop(const Regulator& r, double volts) {
    const double below = r.set_V - volts;
    if (r.holds) return {below, -1, RegulatorMode::regulating};
    if (below < -hair(r.set_V)) return {0, 0, RegulatorMode::idle};
    const bool by_power = volts > 0 && r.limit_W < r.limit_A * volts;
    const double limit = by_power ? r.limit_W / volts : r.limit_A;
    if (below <= r.droop_ohm * limit) return {std::max(0.0, below), -1, RegulatorMode::regulating};
    return {r.droop_ohm * limit, by_power ? -r.droop_ohm * limit / volts : 0, RegulatorMode::limited};
}

ConverterLaw converter_law(const Converter& v, double knee_V, double in_V, double out_V, double out_A) {
    ConverterLaw law;
    const CurrentLaw limit = input_limit(v, knee_V, in_V);
    const Output by_input = output_at_limit(v, limit, in_V, out_V);
    const double below = v.set_V - out_V;
    const double least = std::min(v.out_limit_A, by_input.amps);
    if (below < -hair(v.set_V)) {
        law.mode = ConverterMode::idle;
    } else if (below <= v.droop_ohm * least) {
        law.mode = ConverterMode::regulating;
        law.drop_V = std::max(0.0, below);
        law.drop_per_out = -1;
    } else if (v.out_limit_A <= by_input.amps) {
        law.mode = ConverterMode::output_limited;
        law.drop_V = v.droop_ohm * v.out_limit_A;
    } else {
        law.mode = ConverterMode::input_limited;
        law.drop_V = v.droop_ohm * by_input.amps;
        law.drop_per_in = v.droop_ohm * by_input.per_in;
        law.drop_per_out = v.droop_ohm * by_input.per_out;
    }

    if (in_V <= 0) {
        law.in_per_in = limit.per_V; // 0 at and below 0 V; the corner gives no grip and needs none
        return law;
    }
    const double out = std::max(0.0, out_A), v_out = std::max(0.0, out_V);
    const double watts = (1 + v.k1) * v_out * out + v.k2_ohm * out * out + v.p0_W;
    if (watts > in_V * limit.amps) {
        law.in_A = limit.amps;
        law.in_per_in = limit.per_V;
        return law;
    }
    law.in_A = watts / in_V;
    law.in_per_in = -law.in_A / in_V;
    if (out_V > 0) law.in_per_out = (1 + v.k1) * out / in_V;
    if (out_A >= 0) law.in_per_out_A = ((1 + v.k1) * v_out + 2 * v.k2_ohm * out) / in_V;
    return law;
}

} // namespace fl::solve
