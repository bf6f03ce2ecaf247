#include "core/network/network.h"

#include <algorithm>
#include <map>
#include <queue>
#include <set>
#include <tuple>

namespace fl::network {
namespace {

bool is_device(const Branch& b) {
    return b.kind == BranchKind::fuse || b.kind == BranchKind::breaker || b.kind == BranchKind::way;
}

/// What takes current, with both its nodes.
struct Taker {
    plan::ComponentId component;
    int plus, minus;
};

std::vector<Taker> takers(const Network& network) {
    std::vector<Taker> all;
    for (const auto& p : network.ports)
        if (p.kind == PortKind::load || p.kind == PortKind::inverter || p.kind == PortKind::starter_motor)
            all.push_back({p.component, p.plus, p.minus});
    for (const auto& c : network.converters) all.push_back({c.component, c.in_plus, c.in_minus});
    return all;
}

/// Nodes from which the live side is fed.
std::vector<int> fed_from(const Network& network) {
    std::vector<int> all;
    for (const auto& p : network.ports)
        if (p.kind == PortKind::battery || p.kind == PortKind::alternator ||
            p.kind == PortKind::take_off_point || p.kind == PortKind::mains_charger ||
            p.kind == PortKind::solar_controller)
            all.push_back(p.plus);
    for (const auto& c : network.converters) all.push_back(c.out_plus);
    return all;
}

/// The branches of `within` that lie on a way between two nodes of `ends`: dead ends are taken off until
/// none is left.
std::vector<int> between(const Network& network, std::vector<int> within, const std::set<int>& ends) {
    std::map<int, int> degree;
    for (const int i : within) {
        const Branch& b = network.branches[static_cast<std::size_t>(i)];
        ++degree[b.a], ++degree[b.b];
    }
    const auto dead = [&](int node) { return degree.at(node) == 1 && !ends.contains(node); };
    for (bool again = true; again;) {
        const auto gone = std::stable_partition(within.begin(), within.end(), [&](int i) {
            const Branch& b = network.branches[static_cast<std::size_t>(i)];
            return !dead(b.a) && !dead(b.b);
        });
        again = gone != within.end();
        for (auto i = gone; i != within.end(); ++i) {
            const Branch& b = network.branches[static_cast<std::size_t>(*i)];
            --degree.at(b.a), --degree.at(b.b);
        }
        within.erase(gone, within.end());
    }
    return within;
}

/// Branches at each node, in their order.
using AtNode = std::vector<std::vector<int>>;
AtNode branches_at(const Network& network) {
    AtNode all(network.nodes.size());
    for (std::size_t i = 0; i < network.branches.size(); ++i) {
        const Branch& b = network.branches[i];
        all[static_cast<std::size_t>(b.a)].push_back(static_cast<int>(i));
        if (b.b != b.a) all[static_cast<std::size_t>(b.b)].push_back(static_cast<int>(i));
    }
    return all;
}

std::vector<plan::ConductorId> conductors_of(const Network& network, const std::vector<int>& branches) {
    std::vector<plan::ConductorId> ids;
    for (const int i : branches)
        if (const auto& b = network.branches[static_cast<std::size_t>(i)]; b.conductor)
            ids.push_back(b.conductor);
    std::sort(ids.begin(), ids.end());
    return ids;
}

/// Where a return is everybody's: bars, the minus bar of a fuse box, the body, the minus of a source.
std::vector<bool> common_returns(const plan::Installation& in, const Network& network) {
    std::vector<bool> common(network.nodes.size());
    for (std::size_t i = 0; i < common.size(); ++i) {
        common[i] = network.nodes[i].body;
        for (const auto& t : network.nodes[i].terminals) {
            const auto* c = in.components.find(t.component);
            common[i] =
                common[i] || (c && (c->kind() == plan::Kind::busbar || c->kind() == plan::Kind::fuse_box));
        }
    }
    for (const auto& p : network.ports)
        if (p.kind == PortKind::battery || p.kind == PortKind::alternator ||
            p.kind == PortKind::take_off_point || p.kind == PortKind::mains_charger ||
            p.kind == PortKind::solar_controller)
            common[static_cast<std::size_t>(p.minus)] = true;
    return common;
}

/// The returns of one circuit: all between its loads and what is everybody's.
std::vector<plan::ConductorId> returns_of(const Network& network, const AtNode& at_node,
                                          const std::vector<bool>& returns, const std::vector<bool>& common,
                                          const std::vector<int>& minus) {
    std::set<int> seen(minus.begin(), minus.end()), ends = seen, taken;
    std::vector<int> open(minus);
    while (!open.empty()) {
        const int at = open.back();
        open.pop_back();
        const auto index = static_cast<std::size_t>(at);
        if (!returns[index]) continue;
        if (common[index]) {
            ends.insert(at);
            continue;
        }
        for (const int i : at_node[index]) {
            const Branch& b = network.branches[static_cast<std::size_t>(i)];
            taken.insert(i);
            const int next = b.a == at ? b.b : b.a;
            if (seen.insert(next).second) open.push_back(next);
        }
    }
    return conductors_of(network, between(network, {taken.begin(), taken.end()}, ends));
}

/// Live parts between devices, and the device through which each is fed: the one nearest to a source,
/// counted in devices.
struct Parts {
    std::vector<int> part;   ///< per node
    std::vector<int> feeder; ///< per part: branch of the device; -1 = none, or fed by nothing
};

Parts parts_of(const Network& network, const std::vector<bool>& returns) {
    std::vector<bool> within(network.branches.size());
    for (std::size_t i = 0; i < within.size(); ++i) {
        const Branch& b = network.branches[i];
        within[i] = !is_device(b) && !returns[static_cast<std::size_t>(b.a)];
    }
    Parts out{islands(network, within), {}};
    const auto part_of = [&](int node) { return out.part[static_cast<std::size_t>(node)]; };
    const auto count = network.nodes.empty() ? 0 : *std::max_element(out.part.begin(), out.part.end()) + 1;
    out.feeder.assign(static_cast<std::size_t>(count), -1);
    std::vector<bool> seen(static_cast<std::size_t>(count));
    std::queue<int> open;
    for (const int node : fed_from(network)) {
        if (seen[static_cast<std::size_t>(part_of(node))]) continue;
        seen[static_cast<std::size_t>(part_of(node))] = true;
        open.push(part_of(node));
    }
    std::vector<std::vector<int>> devices(static_cast<std::size_t>(count)); // at each part
    for (std::size_t i = 0; i < network.branches.size(); ++i) {
        const Branch& b = network.branches[i];
        if (!is_device(b) || returns[static_cast<std::size_t>(b.a)]) continue;
        for (const int node : {b.a, b.b})
            devices[static_cast<std::size_t>(part_of(node))].push_back(static_cast<int>(i));
    }
    for (; !open.empty(); open.pop())
        for (const int i : devices[static_cast<std::size_t>(open.front())]) {
            const Branch& b = network.branches[static_cast<std::size_t>(i)];
            const int next = part_of(part_of(b.a) == open.front() ? b.b : b.a);
            if (seen[static_cast<std::size_t>(next)]) continue;
            seen[static_cast<std::size_t>(next)] = true;
            out.feeder[static_cast<std::size_t>(next)] = i;
            open.push(next);
        }
    return out;
}

} // namespace

std::vector<Circuit> circuits(const plan::Installation& installation, const Network& network) {
    const auto returns = return_nodes(network);
    const auto parts = parts_of(network, returns);
    const auto common = common_returns(installation, network);
    const auto at_node = branches_at(network);
    const auto part_of = [&](int node) { return parts.part[static_cast<std::size_t>(node)]; };
    std::map<int, std::vector<Taker>> by_part;
    for (const auto& t : takers(network)) by_part[part_of(t.plus)].push_back(t);
    std::vector<std::vector<int>> within(parts.feeder.size()); // branches of each part
    for (std::size_t i = 0; i < network.branches.size(); ++i) {
        const Branch& b = network.branches[i];
        if (!is_device(b) && part_of(b.a) == part_of(b.b))
            within[static_cast<std::size_t>(part_of(b.a))].push_back(static_cast<int>(i));
    }
    std::vector<Circuit> out;
    for (const auto& [part, loads] : by_part) {
        Circuit circuit;
        std::set<int> ends;
        std::vector<int> minus;
        for (const auto& load : loads) {
            circuit.loads.push_back(load.component);
            ends.insert(load.plus);
            minus.push_back(load.minus);
        }
        std::sort(circuit.loads.begin(), circuit.loads.end());
        circuit.loads.erase(std::unique(circuit.loads.begin(), circuit.loads.end()), circuit.loads.end());
        if (const int feeder = parts.feeder[static_cast<std::size_t>(part)]; feeder >= 0) {
            const Branch& b = network.branches[static_cast<std::size_t>(feeder)];
            circuit.box = b.component;
            circuit.way = b.kind == BranchKind::way ? b.part : -1;
            ends.insert(part_of(b.a) == part ? b.a : b.b);
        } else {
            for (const int node : fed_from(network))
                if (part_of(node) == part) ends.insert(node);
        }
        circuit.conductors =
            conductors_of(network, between(network, within[static_cast<std::size_t>(part)], ends));
        for (const auto id : returns_of(network, at_node, returns, common, minus))
            circuit.conductors.push_back(id);
        out.push_back(std::move(circuit));
    }
    std::sort(out.begin(), out.end(), [](const Circuit& x, const Circuit& y) {
        return std::tuple(!x.box, x.box, x.way, x.loads.front()) <
               std::tuple(!y.box, y.box, y.way, y.loads.front());
    });
    return out;
}

} // namespace fl::network
