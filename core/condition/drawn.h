#pragma once

#include "core/catalogue/lie.h"
#include "core/condition/condition.h"
#include "core/network/part.h"

#include <string_view>

// Shared inside this room only.
namespace fl::condition {

template <class V>
decltype(auto) item(V& v, int i) {
    return v[static_cast<std::size_t>(i)];
}
template <class V>
int count(const V& v) {
    return static_cast<int>(v.size());
}

/// Source that feeds a node: the nearest through parts that are closed or can close.
struct Feed {
    int port = -1, converter = -1;
};

struct Drawn {
    Drawn(const plan::Installation& installation, const network::Network& network);

    const plan::Installation& in;
    const network::Network& network;
    std::vector<solve::Resistor> resistors; ///< per branch, in its normal position, for a lasting current
    std::vector<int> islands;               ///< per node: joined by what is closed in its normal position
    std::vector<Feed> feeds;                ///< per node
    std::vector<Reference> references;      ///< per port

    /// Nominal voltage of the part of the network a node is in.
    Voltage nominal_at(int node) const;
    /// The battery that feeds a node (through whatever), or null.
    const plan::Battery* battery_at(int node) const;
};

/// How a bank's strings share its current, and what the bank is from outside.
struct Ladder {
    double ohm = 0;            ///< from outside, for a string of the resistance it was asked with
    std::vector<double> share; ///< per string, sum 1
};
/// `strings` equal strings of `string_ohm` side by side, neighbours joined on both poles by `link_ohm`; the
/// leads leave by `take_off`. Exact: with equal EMFs the bank is a linear network.
Ladder ladder(int strings, double string_ohm, double link_ohm, plan::BankTakeOff take_off);

/// The battery's electronics: it has any, entered or by its chemistry.
bool has_electronics(const plan::Battery& battery);

/// One state of the world, being set up.
struct State {
    const Drawn& drawn;
    const plan::Condition& condition;

    /// The position this component is forced to, if it is.
    std::optional<bool> forced(plan::ComponentId id) const;
    /// For seconds or minutes: short loads run too, and nothing has time to warm up.
    bool brief() const { return condition.duration.value.has_value(); }
    bool engine_on() const { return condition.engine != plan::Engine::off; }
};

/// How many times 12 V this is, by the class of the system: 12.8 V and 14.4 V are one, 28 V two, 6 V a half.
/// The catalogue's voltages are for 12 V.
double blocks(Voltage v);
/// A voltage of the catalogue's defaults, for a system of this nominal voltage.
double default_volts(std::string_view id, Voltage nominal);
/// The entered value in SI units, else this one.
template <class Q>
double or_else(const plan::Entered<Q>& entered, double otherwise) {
    return entered ? (*entered).si() : otherwise;
}

/// Nominal voltage of a source by itself: entered, else by its role and the job rules.
Voltage nominal_of_source(const plan::Installation& in, const network::Network& network,
                          const network::Port& port);

/// The resistance behind a branch, in the position it has when nothing else is said.
solve::Resistor resistor_of(const plan::Installation& in, const network::Network& network,
                            const network::Branch& branch);
/// One way of an isolator.
solve::Diode diode_of(const Drawn& drawn, const network::Branch& branch);
/// The branch is closed in this state; a relay's contact only when forced, its latch closes it otherwise. A
/// way of an isolator never is: it is no resistance.
bool is_closed(const State& state, const network::Branch& branch);

solve::Battery battery_of(const State& state, const network::Port& port);
/// Alternator, take-off point, mains charger or solar controller.
solve::Regulator regulator_of(const State& state, const network::Port& port);
solve::Converter converter_of(const State& state, const network::TwoPort& port);
/// Load, inverter, starter motor or relay coil.
solve::Load load_of(const State& state, int port);

/// Resistance of one of a bank's strings, discharging and charging in this state.
struct StringOhms {
    double discharge = 0, charge = 0;
};
StringOhms string_ohms(const State& state, const network::Port& port, const plan::Battery& battery);
/// Its protection keeps it from being charged at this condition's temperature.
bool too_cold_to_charge(const State& state, const plan::Battery& battery);

/// The voltage an alternator (or, for a take-off point, the vehicle) holds in this state.
double vehicle_set_voltage(const State& state, const network::Port& port);

/// A two-port with an on/off latch, or a converter that is simply on.
bool has_latch(const Drawn& drawn, const network::TwoPort& port);

/// All elements, converters and relay contacts as told (per two-port, per branch).
Setup assemble(const State& state, const std::vector<bool>& converter_on,
               const std::vector<bool>& contact_closed);
/// The operating point with alternators that have a sense lead holding their voltage where it ends: their
/// set voltage in the circuit becomes what that asks of their own terminals, at most so much more as the
/// catalogue's default says. Bounded.
solve::Solution operating_point(const State& state, Setup& setup);
/// Marks branches left out in the map, as its description says.
void leave_out_open(Setup& setup);

/// Something on the run wire or coil is live by a vehicle's signal: a signal point, an alternator's D+, or a
/// conductor that says when it is supplied. Empty when no such signal reaches the node.
std::optional<bool> signal_at(const State& state, const std::vector<int>& islands, int node);

} // namespace fl::condition
