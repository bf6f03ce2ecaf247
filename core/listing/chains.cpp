#include "core/listing/chains.h"

#include "core/listing/tables.h"

#include <algorithm>

namespace fl::listing {
namespace {

using network::BranchKind;

bool shorter(const network::Way& one, const network::Way& other) {
    if (one.at_least != other.at_least) return one.at_least < other.at_least;
    return one.branches.size() < other.branches.size();
}

bool leads_over(const network::Way& way, int branch) {
    return std::find(way.branches.begin(), way.branches.end(), branch) != way.branches.end();
}

} // namespace

std::string branch_name(const assess::Assessment& a, int branch) {
    const network::Branch& b = a.network.branches[at(branch)];
    if (b.kind == BranchKind::conductor) {
        const plan::Conductor* w = a.installation.conductors.find(b.conductor);
        return w ? w->designation : std::string();
    }
    const std::string name = part_name(a.installation, b.component, b.element);
    return b.kind == BranchKind::way ? name + "." + fixed(b.part + 1, 0) : name;
}

plan::Subject subject_of(const network::Branch& b) {
    if (b.kind == BranchKind::conductor) return plan::Subject::of(b.conductor);
    return plan::Subject::of(b.component, b.kind == BranchKind::way ? fixed(b.part + 1, 0) : std::string());
}

Ways::Ways(const assess::Assessment& assessment)
    : a_(assessment)
    , returns_(network::return_nodes(a_.network))
    , live_(a_.network.branches.size())
    , at_node_(a_.network.nodes.size())
    , sources_(protect::sources(a_.installation, a_.network)) {
    for (std::size_t i = 0; i < live_.size(); ++i) {
        const network::Branch& b = a_.network.branches[i];
        live_[i] = !is_return(b.a) && !is_return(b.b) && protect::is_fitted(a_.installation, b);
        if (live_[i])
            for (const int node : {b.a, b.b}) at_node_[at(node)].push_back(static_cast<int>(i));
    }
}

const network::Way* Ways::way(int source, int node) {
    const auto [known, fresh] = known_.try_emplace(source);
    if (fresh)
        known->second =
            network::shortest_ways(a_.installation, a_.network, {sources_[at(source)].node}, live_);
    const auto& found = known->second[at(node)];
    return found ? &*found : nullptr;
}

std::vector<Chain> Ways::to(const plan::Subject& chosen) {
    const bool part = chosen.kind == plan::Subject::Kind::component;
    return chains(target(chosen), part ? plan::ComponentId{chosen.id} : plan::ComponentId{});
}

std::vector<Chain> Ways::to_branch(int branch) {
    return chains({branch, -1}, {});
}

Ways::Target Ways::target(const plan::Subject& chosen) const {
    using Kind = plan::Subject::Kind;
    if (chosen.kind == Kind::component) return target(plan::ComponentId{chosen.id}, chosen.part);
    if (chosen.kind != Kind::conductor) return {};
    return {a_.network.branch_of({chosen.id}), -1};
}

Ways::Target Ways::target(plan::ComponentId component, const std::string& part) const {
    const network::Network& net = a_.network;
    for (std::size_t i = 0; i < live_.size(); ++i) {
        const network::Branch& b = net.branches[i];
        if (b.component != component || b.kind == BranchKind::conductor) continue;
        if (b.kind == BranchKind::way && subject_of(b).part != part) continue; // the whole box is its feed
        return {static_cast<int>(i), -1};
    }
    for (const auto& port : net.ports)
        if (port.component == component && !is_return(port.plus)) return {-1, port.plus};
    for (const auto& port : net.converters)
        if (port.component == component && !is_return(port.in_plus)) return {-1, port.in_plus};
    for (std::size_t n = 0; n < net.nodes.size(); ++n)
        for (const plan::TerminalRef& terminal : net.nodes[n].terminals)
            if (terminal.component == component && !returns_[n] &&
                (part.empty() || terminal.terminal == part))
                return {-1, static_cast<int>(n)};
    return {};
}

std::vector<Chain> Ways::chains(const Target& target, plan::ComponentId but) {
    std::vector<Chain> all;
    if (target.branch < 0 && target.node < 0) return all;
    if (target.branch >= 0 && !is_live(target.branch)) return all;
    for (std::size_t s = 0; s < sources_.size(); ++s) {
        const protect::Source& source = sources_[s];
        if (source.component == but && target.branch < 0) continue;
        Chain chain{source.component, {}, target.node, source.limit, {}};
        const network::Way* found = nullptr;
        if (target.branch < 0) {
            found = way(static_cast<int>(s), target.node);
        } else {
            const network::Branch& b = a_.network.branches[at(target.branch)];
            const network::Way *to_a = way(static_cast<int>(s), b.a), *to_b = way(static_cast<int>(s), b.b);
            // The way to the nearer end never needs the branch itself.
            const bool by_b = to_b && (!to_a || shorter(*to_b, *to_a));
            found = by_b ? to_b : to_a;
            chain.end = by_b ? b.a : b.b;
        }
        if (!found) continue;
        chain.branches = found->branches;
        if (target.branch >= 0 && !leads_over(*found, target.branch)) chain.branches.push_back(target.branch);
        if (chain.branches.empty()) continue;
        if (protect::is_device(a_.network.branches[at(chain.branches.back())])) go_on(chain);
        if (const auto& fault = a_.faults[at(chain.end)].largest)
            for (const fault::Share& share : fault->shares)
                if (share.source == source.component) chain.largest = share.current;
        all.push_back(std::move(chain));
    }
    std::stable_sort(all.begin(), all.end(), [](const Chain& x, const Chain& y) {
        return x.largest.value_or(Current{}) > y.largest.value_or(Current{});
    });
    return all;
}

/// Along conductors, switches and the like, as long as there is one way only and no device.
void Ways::go_on(Chain& chain) const {
    while (at_node_[at(chain.end)].size() == 2) {
        const auto& here = at_node_[at(chain.end)];
        const int next = here.front() == chain.branches.back() ? here.back() : here.front();
        const network::Branch& b = a_.network.branches[at(next)];
        if (protect::is_device(b) || leads_over({{}, {}, chain.branches}, next)) return;
        chain.branches.push_back(next);
        chain.end = b.a == chain.end ? b.b : b.a;
    }
}

std::optional<Current> Ways::through(int branch, const fault::Fault& fault) {
    auto without = live_;
    without[at(branch)] = false;
    const std::vector<int> island = network::islands(a_.network, without);
    Current sum;
    for (const fault::Share& share : fault.shares)
        for (const protect::Source& source : sources_) {
            if (source.component != share.source) continue;
            if (source.node == fault.node) break;
            if (island[at(source.node)] != island[at(fault.node)])
                sum += share.current;
            else if (network::on_ways_between(a_.network, source.node, fault.node, live_)[at(branch)])
                return {};
            break;
        }
    return sum;
}

std::vector<Chain> chains(const assess::Assessment& assessment, const plan::Subject& chosen) {
    return Ways(assessment).to(chosen);
}

} // namespace fl::listing
