#pragma once

#include <cstdint>
#include <limits>
#include <optional>
#include <vector>

/// The electrical problem as plain numbers, made from an installation in one state of the world. This is a
/// numeric kernel: raw doubles, each named with its unit. A node is an index; -1 is no node. Every element
/// keeps its place in its vector, so results are vectors of the same lengths. Laws: docs/method.md,
/// section 2.
namespace fl::solve {

inline constexpr double unlimited = std::numeric_limits<double>::infinity();

/// How a conductor warms up: heat balance with R(T). Absent data means "at `fixed_C`".
struct Thermal {
    double ambient_C = 20;
    double rated_A = 0;      ///< tabulated current times the grouping factor, at `reference_C`; 0 = not known
    double reference_C = 30; ///< ambient for which the table holds
    double limit_C = 70;     ///< insulation's highest temperature
    bool operator==(const Thermal&) const = default;
};

/// Anything that is a resistance: conductor core, closed switch, fuse, shunt, joint, piece of bar. 0 ohm is
/// allowed. Current counts positive from a to b.
struct Resistor {
    int a = -1, b = -1;
    double r20_ohm = 0;             ///< copper at 20 °C, follows temperature
    double fixed_ohm = 0;           ///< joints and contacts, in series, do not
    std::optional<Thermal> thermal; ///< solved with the current
    double at_C = 20;               ///< temperature of the copper where `thermal` is absent
    bool closed = true;
    bool operator==(const Resistor&) const = default;
};

/// EMF behind a resistance, one when discharging, another when charging; they meet at zero current.
/// Current counts positive when charging (into plus).
struct Battery {
    int plus = -1, minus = -1;
    double emf_V = 0;
    double discharge_ohm = 0, charge_ohm = 0;
    bool connected = true; ///< false: its electronics or switch are open; nothing flows
    bool may_discharge = true, may_charge = true; ///< false: its electronics block that direction
    bool operator==(const Battery&) const = default;
};

/// A source that holds its set voltage with droop up to a limit, and never absorbs: alternator, take-off
/// point, mains charger, solar controller. i = clamp((set - v)/droop, 0, min(limit_A, limit_W/v)), delivered
/// out of plus.
struct Regulator {
    int plus = -1, minus = -1;
    double set_V = 0;
    double droop_ohm = 0; ///< > 0
    double limit_A = unlimited;
    double limit_W = unlimited;
    bool on = true;
    bool holds =
        false;       ///< a held voltage: an ideal source behind droop that may also absorb (limits ignored)
    int shared = -1; ///< place in `Circuit::shared_limit_A`, -1 = none
    bool operator==(const Regulator&) const = default;
};

/// DC-DC charger or converter. On: io = max(0, min(a, b, c)), a = (set - vs)/droop, b = output limit,
/// c = output at which the input limit is just reached; vi*ii = vo*io + p0 + k1*vo*io + k2*io^2.
/// Off: takes `standby_A` from its input (while the input is above 0). Ports may share their minus.
/// Below the knee of its input (the greater of `in_knee_V` and half of what the input has with nothing drawn)
/// the current it may take falls to 0 in a straight line, from the lesser of the input limit and what it
/// takes at full output there; so does the standby current. Where that is less than `p0_W` needs, its output
/// is 0.
struct Converter {
    int in_plus = -1, in_minus = -1, out_plus = -1, out_minus = -1;
    double set_V = 0, droop_ohm = 0;
    double out_limit_A = unlimited, in_limit_A = unlimited;
    double in_knee_V = 0; ///< its stop voltage, where known
    double p0_W = 0, k1 = 0, k2_ohm = 0;
    double standby_A = 0;
    bool on = true;
    /// Fold-back: the share of the output limit that is left at 0 V; between 0 V and `set_V` it grows in a
    /// straight line. 1 = constant current.
    double fold_share = 1;
    int shared = -1; ///< place in `Circuit::shared_limit_A`, -1 = none
    bool operator==(const Converter&) const = default;
};

/// Passes current from a to b only: i = max(0, (v - drop)/ohm).
struct Diode {
    int a = -1, b = -1;
    double drop_V = 0, ohm = 0; ///< ohm > 0
    bool operator==(const Diode&) const = default;
};

enum class LoadLaw : std::uint8_t { resistance, current, power };

/// A consumer. Current and power laws hold down to the knee voltage; below it the load is the resistance that
/// meets its law at the knee. The knee is never taken below half of the voltage the load has with nothing
/// drawn. An inverter is a power load with P_ac/eta + own draw. Current positive from
/// plus to minus.
struct Load {
    int plus = -1, minus = -1;
    LoadLaw law = LoadLaw::resistance;
    double value = 0;    ///< ohm, A or W
    double knee_V = 0;   ///< where the law bends; 0 for a resistance
    double lowest_V = 0; ///< below this it does not work (a finding, not a change of law)
    double highest_V = unlimited;
    bool on = true;
    bool operator==(const Load&) const = default;
};

/// The whole problem. Islands (parts with no connection between them) are legitimate.
struct Circuit {
    int nodes = 0;
    std::vector<Resistor> resistors;
    std::vector<Battery> batteries;
    std::vector<Regulator> regulators;
    std::vector<Converter> converters;
    std::vector<Load> loads;
    std::vector<Diode> diodes;
    /// What several outputs of one unit may give together. Those first in order (regulators, then converters)
    /// are served first, the next get what is left.
    std::vector<double> shared_limit_A;
    bool operator==(const Circuit&) const = default;
};

} // namespace fl::solve
