#pragma once

#include "core/derive/derivation.h"
#include "core/network/network.h"
#include "core/solve/solution.h"

#include <memory>
#include <string>
#include <vector>

/// Conditions made from what is drawn, each solved, and the worst of all.
namespace fl::condition {

/// The conditions to solve: templates whose parts exist (docs/method.md 3), then the user's own; one of the
/// user's with a template's name replaces it. Names are unique.
std::vector<plan::Condition> conditions(const plan::Installation& installation,
                                        const network::Network& network);

/// Which plan object stands behind each vector entry of the circuit. A branch left out (open, unfitted) has
/// index -1.
struct Map {
    std::vector<int> resistor_of_branch; ///< per network branch
    std::vector<int> diode_of_branch;    ///< likewise; a branch is one or the other
    std::vector<int> battery_of_port, regulator_of_port,
        load_of_port;              ///< per network port, -1 = not of that sort
    std::vector<int> converter_of; ///< per network two-port
    bool operator==(const Map&) const = default;
};

/// What feeds a port when everything else is off: the nearest battery, take-off point or converter through
/// closed parts, else the nearest charging source; chosen once, whatever the condition. Index into ports or
/// two-ports; both -1 = nothing does.
struct Reference {
    int port = -1, converter = -1;
    int lowest = -1; ///< of batteries in series: the one whose minus is the other terminal; else `port`
    Voltage nominal; ///< of that part of the network
    bool operator==(const Reference&) const = default;
};
/// One per port; for sources only `nominal` means something.
std::vector<Reference> references(const plan::Installation& installation, const network::Network& network);
/// The nodes between which a reference is measured; both -1 where nothing feeds.
struct Terminals {
    int plus = -1, minus = -1;
};
Terminals terminals_of(const network::Network& network, const Reference& reference);

struct Setup {
    solve::Circuit circuit;
    Map map;
    std::vector<Reference> references; ///< per network port
    bool operator==(const Setup&) const = default;
};

/// The electrical problem of one condition: every value entered, else its default from the catalogue.
/// `converter_on` per two-port: the position of its on/off latch.
Setup setup(const plan::Installation& installation, const network::Network& network,
            const plan::Condition& condition, const std::vector<bool>& converter_on);

/// How a drive charger ended in a condition.
enum class Runs : std::uint8_t { no, yes, hunts, both };

/// What stops by itself in a condition: electronics that open, a load or inverter that drops out, a converter
/// that gives up at its limit. The state shown is the one that makes it stop; what then remains is in
/// `Solved::also`.
struct LetGo {
    enum class Of : std::uint8_t { load, battery_discharge, battery_charge, converter };
    enum class Why : std::uint8_t { voltage_low, voltage_high, current, cold };
    Of of{};
    Why why{};
    int port = -1, converter = -1; ///< of the network: one of them
    double reached = 0, limit = 0; ///< V, A or °C, by `why`
    bool again = false;            ///< comes back by itself, and goes again: hunts
    bool operator==(const LetGo&) const = default;
};

/// One condition, solved with its latches settled.
struct Solved {
    plan::Condition condition;
    Setup setup;
    solve::Solution solution;
    std::vector<Runs> runs; ///< per two-port
    /// Other positions the latches take here (hunting, or a second steady state); the envelope takes them
    /// too.
    std::vector<Solved> also;
    std::vector<LetGo> let_go;    ///< in the order in which they let go
    double hunting_s = 0;         ///< where chargers or relays hunt: the time of one round
    std::vector<double> share_on; ///< and which share of it each two-port is on; empty where none hunts
    bool operator==(const Solved&) const = default;
};

/// What does not depend on the condition, made once for all that are solved of one installation. Keeps
/// references to both.
struct Drawn;
struct DrawnDeleter {
    void operator()(const Drawn*) const;
};
using DrawnPointer = std::unique_ptr<const Drawn, DrawnDeleter>;
DrawnPointer draw(const plan::Installation& installation, const network::Network& network);
Solved solve(const Drawn& drawn, const plan::Condition& condition);

/// Solves one condition from cold: charger latches move by their thresholds and run signals until steady.
Solved solve(const plan::Installation& installation, const network::Network& network,
             const plan::Condition& condition);

/// An extreme, and the condition (index into the list solved) that set it; -1 = never set.
template <class Q>
struct Extreme {
    Q value{};
    int condition = -1;
    explicit operator bool() const { return condition >= 0; }
    bool operator==(const Extreme&) const = default;
};

/// Every position of the condition's latches that is consistent (none wants to change), by two-port and
/// branch: a list for idle time, one solve for each of 2^n positions. Empty list in `positions` and
/// `tried` = false where there are more than ten latches.
struct Position {
    std::vector<bool> converter_on, contact_closed;
    bool operator==(const Position&) const = default;
};
struct Positions {
    bool tried = false;
    std::vector<Position> consistent;
};
Positions consistent_positions(const Drawn& drawn, const plan::Condition& condition);

/// Currents of a bank's strings in a solved condition, in the order of their links from the end where the
/// plus lead sits; positive when charging. One entry for a battery without links. Empty when not known.
std::vector<Current> string_currents(const Drawn& drawn, const Solved& solved, int port);

/// Worst of all conditions, by what each may set. Vectors per network branch, port, two-port.
struct Envelope {
    std::vector<Extreme<Current>> branch_current; ///< greatest lasting, either direction
    std::vector<Extreme<Current>> branch_short_current;
    std::vector<Extreme<Temperature>> branch_temperature;
    std::vector<Extreme<Voltage>> port_lowest, port_highest;
    std::vector<Extreme<Voltage>> port_drop;      ///< of loads: reference source minus load, both poles
    std::vector<Extreme<Current>> port_current;   ///< greatest lasting: load drawn, source delivered
    std::vector<Extreme<Current>> battery_charge; ///< greatest charging current, per port
    std::vector<Extreme<Voltage>> converter_lowest_input;
    std::vector<Extreme<Current>> converter_input, converter_output;
    bool operator==(const Envelope&) const = default;
};
/// True when results of this use may be set by this condition.
bool may_set(const plan::Condition& condition, plan::Use use);
Envelope envelope(const network::Network& network, const std::vector<Solved>& all);

/// Voltage across a port in a solved condition; empty when not usable.
std::optional<Voltage> port_voltage(const network::Network& network, const Solved& solved, int port);
/// The same between two nodes; empty also where they are not given.
std::optional<Voltage> voltage_between(const Solved& solved, const Terminals& at);

/// The reference source of a load: the battery (or charger bar) that feeds it when everything else is off,
/// nearest through closed parts; an index into ports, or -1.
int reference_source(const network::Network& network, const plan::Installation& installation, int load_port);

} // namespace fl::condition
