#include "core/fault/fault.h"

#include "core/fault/back.h"
#include "core/fault/shorts.h"

#include <algorithm>
#include <map>

namespace fl::fault {
namespace {

std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

Fault fault_of(const Snapshot& snapshot, const Short& s, int node, int back) {
    Fault out;
    out.node = node;
    out.back = back;
    out.total = Current::si(s.total_A);
    std::map<plan::ComponentId, double> by_source;
    const int here = snapshot.live_part[at(node)];
    for (std::size_t i = 0; i < snapshot.feeders.size(); ++i)
        if (snapshot.live_part[at(snapshot.feeders[i].plus)] == here)
            by_source[snapshot.feeders[i].component] += s.feeder_A[i];
    for (const auto& [source, current_A] : by_source)
        if (std::abs(current_A) > 1e-6 * s.total_A) out.shares.push_back({source, Current::si(current_A)});
    std::stable_sort(out.shares.begin(), out.shares.end(),
                     [](const Share& x, const Share& y) { return x.current > y.current; });
    return out;
}

std::optional<Fault> at_node(const Shorts& shorts, int node, const std::vector<int>& backs, bool most) {
    std::optional<Fault> out;
    for (const int back : backs) {
        const auto s = shorts.between(node, back);
        if (!s || (out && (s->total_A > out->total.si()) != most)) continue;
        out = fault_of(shorts.snapshot(), *s, node, back);
    }
    return out;
}

/// The least fault: batteries and what stands for them; where none reaches, the smallest limited source.
class Least {
public:
    using Backs = std::vector<std::vector<int>>; ///< per node

    Least(const plan::Installation& in, const network::Network& net, const Backs& backs)
        : Least(weakest(in, net), backs) {}

    std::optional<Fault> at(int node, const std::vector<int>& backs) const {
        auto out = at_node(batteries_, node, backs, false);
        if (out) return out;
        for (const auto& one : limited_) {
            auto fault = at_node(one, node, backs, false);
            if (fault && (!out || fault->total < out->total)) out = std::move(fault);
        }
        return out;
    }

private:
    Least(const Snapshot& all, const Backs& backs)
        : batteries_(only(all, [](const Feeder& f) { return !f.limited(); }), backs) {
        for (std::size_t i = 0; i < all.feeders.size(); ++i)
            if (all.feeders[i].limited()) {
                Snapshot one = all;
                one.feeders = {all.feeders[i]};
                limited_.emplace_back(std::move(one), backs);
            }
    }

    template <class Keep>
    static Snapshot only(Snapshot snapshot, Keep keep) {
        std::erase_if(snapshot.feeders, [&](const Feeder& f) { return !keep(f); });
        return snapshot;
    }

    Shorts batteries_;
    std::vector<Shorts> limited_;
};

std::optional<Fault> greatest(const plan::Installation& in, const network::Network& net, int node,
                              Moment moment) {
    const auto back = backs(in, net);
    return at_node(Shorts(strongest(in, net, moment), back), node, back[at(node)], true);
}

} // namespace

std::optional<Fault> largest(const plan::Installation& installation, const network::Network& network,
                             int node) {
    return greatest(installation, network, node, Moment::steady);
}

std::optional<Fault> peak(const plan::Installation& installation, const network::Network& network, int node) {
    return greatest(installation, network, node, Moment::peak);
}

std::optional<Fault> plateau(const plan::Installation& installation, const network::Network& network,
                             int node) {
    return greatest(installation, network, node, Moment::plateau);
}

std::optional<Fault> least(const plan::Installation& installation, const network::Network& network,
                           int node) {
    const auto back = backs(installation, network);
    return Least(installation, network, back).at(node, back[at(node)]);
}

std::vector<AtNode> everywhere(const plan::Installation& installation, const network::Network& network) {
    std::vector<AtNode> out(network.nodes.size());
    const auto back = backs(installation, network);
    const Shorts strong(strongest(installation, network), back);
    const Least weak(installation, network, back);
    for (std::size_t n = 0; n < out.size(); ++n) {
        out[n].largest = at_node(strong, static_cast<int>(n), back[n], true);
        out[n].least = weak.at(static_cast<int>(n), back[n]);
    }
    return out;
}

} // namespace fl::fault
