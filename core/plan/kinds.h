#pragma once

#include "core/plan/entered.h"
#include "core/plan/ids.h"
#include "core/quantity/quantity.h"

#include <cstdint>
#include <string>
#include <vector>

/// The parameters of every kind of component. Each struct is plain values; core/plan/fields.h names its
/// fields once for files, edits, fixtures and lists. What is absent is "not known"; defaults are filled in by
/// the catalogue, as assumed values, never here.
namespace fl::plan {

enum class Chemistry : std::uint8_t { lead_flooded, lead_agm, lead_gel, lifepo4 };
enum class BatteryRole : std::uint8_t { starter, service };
/// How the main leads leave a bank of parallel strings.
enum class BankTakeOff : std::uint8_t { bar, diagonal, end };
enum class Regulation : std::uint8_t { conventional, computer_controlled };
/// When a vehicle's own conductor is live.
enum class Supplied : std::uint8_t { unknown, live_always, with_key, engine_running };
enum class LoadLaw : std::uint8_t { current, power, resistance };
enum class Duty : std::uint8_t { continuous, short_time, momentary };
enum class RunsWhen : std::uint8_t { any, driving, parked, night, mains };
/// What a load is for: chooses its drop limit and the rules that look at it.
enum class Purpose : std::uint8_t {
    other,
    lamp,
    navigation_lamp,
    electronics,
    fridge,
    heater,
    motor,
    pump,
    bilge_pump,
    blower,
    fan,
    socket,
    charger,
    vehicle ///< what the vehicle itself takes: lamps, fan, engine electronics
};
enum class SwitchRole : std::uint8_t { plain, master, emergency_link };
/// What closes a circuit-breaker again; `electronic`: an output of a distribution box that opens at a set
/// limit, its rating here.
enum class BreakerReset : std::uint8_t { hand, automatic, held_open, electronic };
enum class RelayControl : std::uint8_t { coil, voltage_sensing };
enum class AtLimit : std::uint8_t { constant_current, fold_back, hiccup, latch };
enum class Polarity : std::uint8_t { plus, minus };

/// A battery or a bank of equal batteries. Terminals + and -.
struct Battery {
    Chemistry chemistry = Chemistry::lead_flooded;
    BatteryRole role = BatteryRole::service;
    Entered<Voltage> nominal;
    Entered<Charge> capacity;       ///< of the whole bank, 20 h rate
    Entered<Resistance> resistance; ///< whole bank, discharging
    Entered<Current> cold_cranking; ///< of a starter battery
    Entered<Current> charge_limit;  ///< the most the battery may take
    int series = 1, parallel = 1;   ///< blocks of a bank
    BankTakeOff take_off = BankTakeOff::bar;
    Entered<Resistance> link;  ///< each link of a bank
    Entered<bool> electronics; ///< has protecting electronics (a lithium pack's own)
    Entered<Current> discharge_limit, pulse_limit, electronics_charge_limit;
    Entered<Time> pulse_time;
    Entered<Voltage> cut_off; ///< electronics or relay open below this
    Entered<bool>
        low_temperature_protection; ///< charging is stopped when cold, by the battery or every source
    bool operator==(const Battery&) const = default;
};

/// Terminals B+, B- (its case), D+ (live when turning); with `sense` also S.
struct Alternator {
    Regulation regulation = Regulation::conventional;
    Entered<Voltage> nominal;
    Entered<Current> rated;
    Entered<Ratio> hot_share, hot_idle_share; ///< of rated, lasting, at working temperature
    Entered<Voltage> set_voltage, lean_voltage, overrun_voltage, idle_voltage;
    bool sense = false; ///< has a terminal S, wired to where it holds its voltage
    bool operator==(const Alternator&) const = default;
};

/// Stands for the existing vehicle where we tap it. Terminals + and -.
struct TakeOffPoint {
    Entered<Voltage> nominal;
    Entered<Voltage> rest_voltage, running_voltage, lean_voltage;
    Entered<Current> permitted; ///< the vehicle maker's limit at this point
    Entered<Current> fuse;      ///< the vehicle's own fuse before it
    Entered<Resistance> resistance;
    Supplied supplied = Supplied::unknown;
    bool operator==(const TakeOffPoint&) const = default;
};

/// A vehicle's own signal that we tap: ignition, engine running, alternator lamp. Terminal 1.
struct SignalPoint {
    Supplied supplied = Supplied::unknown;
    Entered<Current> fuse;
    bool operator==(const SignalPoint&) const = default;
};

/// Terminals + and -.
struct StarterMotor {
    Entered<Resistance> running, locked;
    bool operator==(const StarterMotor&) const = default;
};

/// DC-DC charger that charges while driving. Terminals in+, out+, run and, common, -; isolated: in-, out-.
struct DriveCharger {
    Entered<Voltage> nominal_in, nominal_out;
    Entered<Current> output_current, input_limit;
    Entered<Voltage> set_voltage, float_voltage;
    Entered<Ratio> efficiency;
    Entered<Current> standby;
    Entered<Voltage> start_voltage, stop_voltage, highest_input;
    Entered<Time> hold;
    Entered<bool> needs_run_signal;
    Entered<bool> temperature_sensor;
    bool isolated = false;
    bool operator==(const DriveCharger&) const = default;
};

/// Plain DC-DC converter. Terminals in+, out+ and, common, -; isolated: in-, out-.
struct Converter {
    Entered<Voltage> nominal_in, set_voltage;
    Entered<Current> output_current;
    Entered<Ratio> efficiency;
    Entered<Current> standby;
    Entered<Voltage> lowest_input, highest_input; ///< it runs between them
    AtLimit at_limit = AtLimit::hiccup;
    bool isolated = false;
    bool operator==(const Converter&) const = default;
};

/// Charger from mains; the mains side is one boundary. Terminals + and -.
struct MainsCharger {
    Entered<Current> output_current;
    Entered<Voltage> set_voltage;
    Entered<Ratio> efficiency;
    Entered<bool> temperature_sensor;
    bool operator==(const MainsCharger&) const = default;
};

/// Sun controller with its panels, seen from the battery. Terminals + and -.
struct SolarController {
    Entered<Power> panel_power;
    Entered<Current> output_current;
    Entered<Voltage> set_voltage;
    Entered<Ratio> efficiency;
    Entered<bool> temperature_sensor;
    bool operator==(const SolarController&) const = default;
};

/// Terminals + and -; the mains side is one boundary.
struct Inverter {
    Entered<Voltage> nominal;
    Entered<Power> rated_power; ///< at its mains side, lasting
    Entered<Power> surge_power;
    Entered<Time> surge_time;
    Entered<Power> used_power; ///< what the customer runs on it; absent = rated
    Entered<Ratio> efficiency;
    Entered<Power> idle_power;
    Entered<Voltage> stop_voltage, highest_input;
    RunsWhen runs = RunsWhen::any;
    bool operator==(const Inverter&) const = default;
};

/// Terminals + and -.
struct Load {
    Purpose purpose = Purpose::other;
    LoadLaw law = LoadLaw::current;
    Entered<Current> current;
    Entered<Power> power;
    Entered<Resistance> resistance;
    int count = 1; ///< equal ones on one circuit: every figure is for one
    Duty duty = Duty::continuous;
    Entered<Time> on_time; ///< of a short or momentary duty
    Entered<Current> inrush;
    Entered<Voltage> lowest, highest; ///< working voltage
    Entered<Voltage> knee;
    Entered<Time> hours; ///< a day
    RunsWhen runs = RunsWhen::any;
    Entered<Ratio> drop_limit;
    bool stays_live = false; ///< must not go dark by a fault elsewhere
    bool operator==(const Load&) const = default;
};

/// One point of a device's own operating times, from its data sheet: at this current it opens not before
/// `least` and not after `greatest`.
struct CurvePoint {
    Entered<Current> current;
    Entered<Time> least, greatest; ///< absent = that edge has no point here
    bool operator==(const CurvePoint&) const = default;
};

/// A fuse-link with its holder. Terminals 1 and 2.
struct Fuse {
    std::string type; ///< of catalogue fuse_types; empty = not known
    Entered<Current> rating;
    Entered<Voltage> voltage;
    Entered<Current> breaking_capacity;
    Entered<Resistance> resistance;
    bool fitted = true;
    std::vector<CurvePoint> curve = {}; ///< its own, in place of its type's
    bool operator==(const Fuse&) const = default;
};

/// Thermal circuit-breaker. Terminals 1 and 2.
struct Breaker {
    Entered<Current> rating;
    Entered<Voltage> voltage;
    Entered<Current> breaking_capacity;
    Entered<Resistance> resistance;
    BreakerReset reset = BreakerReset::hand;
    std::vector<CurvePoint> curve = {};
    bool operator==(const Breaker&) const = default;
};

/// Terminals 1 and 2.
struct Switch {
    SwitchRole role = SwitchRole::plain;
    Entered<Current> rating;
    Entered<Resistance> resistance;
    bool closed = true; ///< its normal position
    bool operator==(const Switch&) const = default;
};

/// Make contact 30-87, coil 86-85. A voltage-sensing relay has its coil on 30 inside.
struct Relay {
    RelayControl control = RelayControl::coil;
    Entered<Current> rating;
    Entered<Resistance> resistance;
    Entered<Current> coil_current;
    Entered<Voltage> pull_in, drop_out;
    Entered<Voltage> coil_highest; ///< what its coil bears lastingly
    bool operator==(const Relay&) const = default;
};

/// Split charge diode: feeds two batteries from one alternator and joins them to nothing. Terminals in, 1 and
/// 2.
struct Isolator {
    Entered<Current> rating;        ///< of each way
    Entered<Voltage> drop;          ///< at the rating
    Entered<Resistance> resistance; ///< beyond the drop
    bool operator==(const Isolator&) const = default;
};

/// Terminals 1 to `studs`.
struct Busbar {
    Polarity polarity = Polarity::plus;
    int studs = 4;
    Entered<Current> rating;
    bool operator==(const Busbar&) const = default;
};

/// One way of a fuse box.
struct Way {
    std::string label;
    std::string type; ///< fuse-link type
    Entered<Current> rating;
    Entered<Resistance> resistance;
    bool fitted = true;
    std::vector<CurvePoint> curve = {}; ///< its own, in place of its type's
    bool operator==(const Way&) const = default;
};

/// Terminals in, 1 to n (one a way), and - (its own minus bar) where it has one.
struct FuseBox {
    std::vector<Way> ways;
    Entered<Current> rating;
    bool minus_bar = true;
    bool operator==(const FuseBox&) const = default;
};

/// Where a conductor meets body, frame or hull. Terminal 1.
struct EarthPoint {
    Entered<Resistance> joint; ///< to the body at this point
    Entered<Resistance> body;  ///< of the body from here to the vehicle's own battery earth
    bool operator==(const EarthPoint&) const = default;
};

/// Measuring shunt in the minus. Terminals battery and load.
struct Shunt {
    Entered<Current> rating;
    Entered<Resistance> resistance;
    bool operator==(const Shunt&) const = default;
};

/// Conductors joined in the run. Terminal 1.
struct Joint {
    Entered<Resistance> resistance;
    bool operator==(const Joint&) const = default;
};

/// The mains side of something: drawn, never calculated. No terminal.
struct MainsBoundary {
    bool operator==(const MainsBoundary&) const = default;
};

} // namespace fl::plan
