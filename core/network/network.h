#pragma once

#include "core/plan/installation.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

/// The installation as an electrical graph, in plain vectors. Made from what is drawn, whatever the
/// condition.
namespace fl::network {

/// One electrical node: terminals that are one piece of metal (studs of a bar, a fuse box's feed, a joint) or
/// that share a name. `body` marks the vehicle's body, to which earth points connect.
struct Node {
    std::vector<plan::TerminalRef> terminals; ///< sorted
    bool body = false;
    bool operator==(const Node&) const = default;
};

enum class BranchKind : std::uint8_t {
    conductor,
    fuse,
    breaker,
    way,
    switch_,
    relay,
    shunt,
    earth,
    isolator
};

/// A connection between two nodes that is, or can be, a resistance; a way of an isolator passes current from
/// a to b only.
struct Branch {
    BranchKind kind = BranchKind::conductor;
    int a = -1, b = -1;          ///< in the direction of the conductor's from/to or of the terminals' order
    plan::ConductorId conductor; ///< of a conductor
    plan::ComponentId component; ///< of everything else
    int part = -1;    ///< index of the way of a fuse box or isolator, else of the element of a unit
    int element = -1; ///< of a unit; also for a way of a fuse box in a unit
    bool operator==(const Branch&) const = default;
};

enum class PortKind : std::uint8_t {
    battery,
    alternator,
    take_off_point,
    mains_charger,
    solar_controller,
    starter_motor,
    inverter,
    load,
    relay_coil
};

/// A source or a load between two nodes.
struct Port {
    PortKind kind = PortKind::load;
    plan::ComponentId component;
    int element = -1; ///< of a unit
    int plus = -1, minus = -1;
    int sense = -1; ///< node of an alternator's sense terminal
    bool operator==(const Port&) const = default;
};

/// A drive charger or converter: two ports.
struct TwoPort {
    plan::ComponentId component;
    int element = -1;
    int in_plus = -1, in_minus = -1, out_plus = -1, out_minus = -1;
    int run = -1; ///< node of the run signal; -1 = none
    bool operator==(const TwoPort&) const = default;
};

struct Network {
    std::vector<Node> nodes;
    std::vector<Branch> branches; ///< conductors first, in id order; signal conductors are among them
    std::vector<Port> ports;
    std::vector<TwoPort> converters;
    bool operator==(const Network&) const = default;

    /// The node of a terminal, or -1 when it does not exist.
    int node_of(const plan::TerminalRef&) const;
    /// The branch of a conductor, or -1.
    int branch_of(plan::ConductorId) const;
};

/// Builds the graph. Every valid installation has one; parts marked as removed are left out.
Network build(const plan::Installation& installation);

/// Nodes that are return: minus terminals of sources and what is joined to them by conductors, bars, shunts,
/// closed or open switches, fuses and body without passing a source or load. True per node.
std::vector<bool> return_nodes(const Network& network);

/// Island of each node when only branches for which `closed` says true (and no ports) connect; numbered from
/// 0.
std::vector<int> islands(const Network& network, const std::vector<bool>& closed);

/// Branches on any way between two nodes that meets no node twice, over branches for which `usable` says
/// true.
std::vector<bool> on_ways_between(const Network& network, int node_a, int node_b,
                                  const std::vector<bool>& usable);

/// One row of the circuit list: the way (or device) it starts from, its conductors there and back, its loads.
struct Circuit {
    plan::ComponentId box;                     ///< fuse box or fuse it starts from; 0 = none
    int way = -1;                              ///< of the fuse box
    std::vector<plan::ConductorId> conductors; ///< plus first, then returns
    std::vector<plan::ComponentId> loads;
    bool operator==(const Circuit&) const = default;
};
/// Found from each final way to its loads; loads fed by no device form circuits with no box.
std::vector<Circuit> circuits(const plan::Installation& installation, const Network& network);

/// The shortest way in metres (unknown lengths count as unknown: empty result) over branches for which
/// `usable` says true, from any of `from` to `to`; the branches on it in order.
struct Way {
    std::optional<Length> length; ///< empty = some conductor's length is not known
    Length at_least;              ///< the lengths that are known
    std::vector<int> branches;
};
std::optional<Way> shortest_way(const plan::Installation& installation, const Network& network,
                                const std::vector<int>& from, int to, const std::vector<bool>& usable);
/// The same to every node; empty where no way leads.
std::vector<std::optional<Way>> shortest_ways(const plan::Installation& installation, const Network& network,
                                              const std::vector<int>& from, const std::vector<bool>& usable);

} // namespace fl::network
