#include "core/arrange/chains.h"

#include <algorithm>
#include <array>
#include <set>

namespace fl::arrange {
namespace {

using plan::TerminalRef;

/// The two terminals by which a kind stands in series; empty for every other kind.
std::array<std::string, 2> through_terminals(const plan::Component& c) {
    switch (c.kind()) {
    case plan::Kind::fuse:
    case plan::Kind::breaker:
    case plan::Kind::switch_:
        return {"1", "2"};
    case plan::Kind::shunt:
        return {"battery", "load"};
    case plan::Kind::relay:
        return {"30", "87"};
    default:
        return {};
    }
}

class Finder {
public:
    Finder(const plan::Installation& in, const network::Network& network)
        : in_(in)
        , network_(network)
        , returns_(network::return_nodes(network)) {
        for (const auto& w : in.conductors) {
            at_[w.from].push_back(w.id);
            at_[w.to].push_back(w.id);
        }
    }

    Chains find() {
        for (const auto& w : in_.conductors)
            if (!seen_.contains(w.id)) out_.all.push_back(follow(w));
        for (std::size_t i = 0; i < out_.all.size(); ++i) {
            const Chain& c = out_.all[i];
            out_.at[c.from.component].push_back(static_cast<int>(i));
            if (c.to.component != c.from.component) out_.at[c.to.component].push_back(static_cast<int>(i));
            for (const Hop& hop : c.hops) out_.through[hop.device] = static_cast<int>(i);
        }
        return std::move(out_);
    }

private:
    /// Walks from one conductor both ways.
    Chain follow(const plan::Conductor& first) {
        Chain c;
        c.from = first.from;
        c.to = first.to;
        c.conductors = {first.id};
        seen_.insert(first.id);
        grow(c);
        c = c.reversed();
        grow(c);
        c = c.reversed();
        c.side = side(c);
        return c;
    }

    void grow(Chain& c) {
        while (true) {
            const plan::Component* device = in_.components.find(c.to.component);
            if (!device || devices_.contains(device->id)) return;
            const auto ends = through_terminals(*device);
            const bool one = c.to.terminal == ends[0], other = c.to.terminal == ends[1];
            if (!one && !other) return;
            const TerminalRef in = c.to, out{device->id, ends[one ? 1 : 0]};
            const auto &before = at_[in], &after = at_[out];
            if (before.size() != 1 || after.size() != 1 || seen_.contains(after.front())) return;
            const auto& next = *in_.conductors.find(after.front());
            devices_.insert(device->id);
            seen_.insert(next.id);
            c.hops.push_back({device->id, in.terminal, out.terminal});
            c.conductors.push_back(next.id);
            c.to = next.from == out ? next.to : next.from;
        }
    }

    Side side(const Chain& c) const {
        bool minus = true;
        for (const auto id : c.conductors) {
            const auto& w = *in_.conductors.find(id);
            if (w.role == plan::Role::signal) return Side::signal;
            const int node = network_.node_of(w.from);
            // what is marked as removed has no node: its terminals' names tell
            minus = minus && (node >= 0 ? returns_[static_cast<std::size_t>(node)]
                                        : w.from.terminal.ends_with('-') || w.to.terminal.ends_with('-'));
        }
        return minus ? Side::minus : Side::plus;
    }

    const plan::Installation& in_;
    const network::Network& network_;
    std::vector<bool> returns_;
    std::map<TerminalRef, std::vector<plan::ConductorId>> at_;
    std::set<plan::ConductorId> seen_;
    std::set<plan::ComponentId> devices_;
    Chains out_;
};

} // namespace

Chain Chain::reversed() const {
    Chain c;
    c.from = to;
    c.to = from;
    c.conductors.assign(conductors.rbegin(), conductors.rend());
    for (auto hop = hops.rbegin(); hop != hops.rend(); ++hop)
        c.hops.push_back({hop->device, hop->out, hop->in});
    c.side = side;
    return c;
}

Chains chains(const plan::Installation& installation, const network::Network& network) {
    return Finder(installation, network).find();
}

} // namespace fl::arrange
