#pragma once

#include "core/protect/flow.h"
#include "core/protect/placement.h"
#include "core/quantity/limit.h"

/// The protection graph (docs/method.md 5). Private to this room.
namespace fl::protect {

/// The live side as capacities: devices carry their rating, everything else that is or can be closed without
/// limit; loads, coils and converters are not walked through. A battery whose minus is not return is a block
/// of a string and joins its two nodes.
struct Graph {
    std::vector<bool> returns; ///< per node
    std::vector<Source> sources;
    FlowNetwork flow;           ///< what has no rating yet counts as unlimited
    FlowNetwork lenient;        ///< the same, but counts as nothing
    bool has_unknown = false;   ///< the two differ
    std::vector<int> edge_of;   ///< per branch; -1 = on the return side, or without its link
    std::vector<int> branch_of; ///< per edge; -1 = a block
};
Graph make_graph(const plan::Installation& installation, const network::Network& network);

inline std::size_t at(int index) {
    return static_cast<std::size_t>(index);
}
Microampere whole(Current current);
Current current_of(Microampere flow);
inline bool above(Microampere flow, Current allowed) {
    return fl::above(current_of(flow).si(), allowed.si());
}

/// Fills in the exposure of every core that is not protected; needs all placements' `from`.
void add_exposures(const plan::Installation& installation, const network::Network& network,
                   const Graph& graph, std::vector<Placement>& all);
/// Fills in the placements of the return side.
void add_returns(const plan::Installation& installation, const network::Network& network, const Graph& graph,
                 std::vector<Placement>& all);
/// Per branch: part of the engine's starting circuit.
std::vector<bool> starting_circuit(const plan::Installation& installation, const network::Network& network,
                                   const Graph& graph);

} // namespace fl::protect
