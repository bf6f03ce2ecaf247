#include "core/rules/chains.h"

#include "core/quantity/limit.h"

#include <algorithm>
#include <cmath>
#include <queue>

namespace fl::rules {
namespace {

using network::BranchKind;

bool is_passive(BranchKind kind) {
    return kind == BranchKind::switch_ || kind == BranchKind::relay || kind == BranchKind::shunt;
}

/// A conductor without suitable protection, and the worst source it lacks it from.
struct Open {
    int source = -1;
    bool unlimited = false;
    const protect::FromSource* from = nullptr;
};

class Finder {
public:
    explicit Finder(const Facts& facts)
        : facts_(facts)
        , net_(facts.network)
        , sources_(protect::sources(facts.installation, net_))
        , at_(branches_at(net_))
        , live_(live_branches(facts))
        , open_(net_.branches.size())
        , seen_(net_.branches.size()) {
        for (std::size_t b = 0; b < net_.branches.size(); ++b)
            if (net_.branches[b].kind == BranchKind::conductor) open_[b] = lacking(static_cast<int>(b));
    }

    std::vector<Judged> run() {
        // From the sources outwards, so that a chain begins where it is fed.
        std::vector<std::pair<int, int>> order; // components passed from its source, branch
        for (std::size_t b = 0; b < open_.size(); ++b)
            if (open_[b]) {
                const auto& hops = hops_from(open_[b]->source);
                const auto& branch = net_.branches[b];
                order.emplace_back(std::min(hops[at(branch.a)], hops[at(branch.b)]), static_cast<int>(b));
            }
        std::sort(order.begin(), order.end());
        for (const auto& [hop, b] : order) {
            if (seen_[at(b)]) continue;
            grow_from(fed_end(b), *open_[at(b)]);
        }
        return std::move(out_);
    }

private:
    /// A tree of open conductors, grown from where they are fed.
    struct Tree {
        int branch = -1; ///< by which it was reached
        int node = -1;
        std::vector<Tree> children;
        std::vector<int> devices;              ///< at the node
        std::vector<plan::ComponentId> takers; ///< at the node: what takes current
        std::vector<int> sources;              ///< at the node
        std::vector<int> others;               ///< live conductors that are not open
    };

    std::optional<Open> lacking(int b) const {
        const auto* p = placement_of(facts_, b);
        const auto* c = conductor_of(facts_, b);
        if (!p || !c || p->return_side || !p->reachable || p->is_protected || p->only_by_adding ||
            p->hinges_on_unknown)
            return {};
        if (p->starting && facts_.rule_set.starting_exempt) return {};
        std::optional<Open> worst;
        Current most;
        for (const auto& from : p->from) {
            const bool unlimited = !std::isfinite(from.greatest.si());
            if (from.is_protected || (!unlimited && p->allowed.si() <= 0)) continue;
            // As found: judged only where something new can feed it.
            if (c->origin == plan::Origin::as_found && as_found(facts_, sources_[at(from.source)].component))
                continue;
            if (worst && (worst->unlimited || (!unlimited && from.greatest <= most))) continue;
            worst = Open{from.source, unlimited, &from};
            most = from.greatest;
        }
        return worst;
    }

    /// Live branches from the source to each node.
    const std::vector<int>& hops_from(int source) {
        auto& hops = hops_[source];
        if (!hops.empty()) return hops;
        hops.assign(net_.nodes.size(), 1 << 20);
        std::queue<int> next;
        hops[at(sources_[at(source)].node)] = 0;
        for (next.push(sources_[at(source)].node); !next.empty(); next.pop())
            for (const int b : at_[at(next.front())]) {
                const int to = far_end(b, next.front());
                if (!live_[at(b)] || hops[at(to)] <= hops[at(next.front())] + 1) continue;
                hops[at(to)] = hops[at(next.front())] + 1;
                next.push(to);
            }
        return hops;
    }
    /// Its point of supply, or the end nearer to the source.
    int fed_end(int b) {
        const auto& branch = net_.branches[at(b)];
        const int supply = open_[at(b)]->from->supply;
        if (supply == branch.a || supply == branch.b) return supply;
        const auto& hops = hops_from(open_[at(b)]->source);
        return hops[at(branch.a)] <= hops[at(branch.b)] ? branch.a : branch.b;
    }
    int far_end(int branch, int node) const {
        const auto& b = net_.branches[at(branch)];
        return b.a == node ? b.b : b.a;
    }

    void grow_from(int root, const Open& open) {
        open_here_ = open;
        root_ = root;
        std::vector<Tree> trees;
        for (const int b : at_[at(root)])
            if (open_[at(b)] && !seen_[at(b)]) trees.push_back(grow(b, far_end(b, root)));
        int before = -1;
        bool tap = false;
        for (const int b : at_[at(root)]) {
            const auto& devices = open.from->devices;
            if (std::find(devices.begin(), devices.end(), b) != devices.end()) before = b;
            // Something that this device does protect hangs here too, so it is right for that.
            if (live_[at(b)] && net_.branches[at(b)].kind == BranchKind::conductor && !open_[at(b)])
                tap = true;
        }
        for (const Tree& tree : trees) walk(tree, tap ? -1 : before, false);
    }

    Tree grow(int branch, int node) {
        Tree tree{branch, node, {}, {}, {}, {}, {}};
        seen_[at(branch)] = true;
        for (std::size_t s = 0; s < sources_.size(); ++s)
            if (sources_[s].node == node && node != root_) tree.sources.push_back(static_cast<int>(s));
        for (const auto& p : net_.ports) {
            const bool coil = p.kind == network::PortKind::relay_coil && p.minus == node;
            const bool source = std::any_of(sources_.begin(), sources_.end(), [&](const protect::Source& s) {
                return s.port >= 0 && net_.ports[at(s.port)].component == p.component;
            });
            if ((p.plus == node || coil) && !source) tree.takers.push_back(p.component);
        }
        for (const auto& c : net_.converters)
            if (c.in_plus == node || c.run == node) tree.takers.push_back(c.component);
        const bool at_source = !tree.sources.empty();
        for (const int b : at_[at(node)]) {
            const auto& next = net_.branches[at(b)];
            if (seen_[at(b)] || b == branch) continue;
            if (protect::is_device(next)) {
                tree.devices.push_back(b);
            } else if (at_source) {
                continue; // what hangs on the other source is that one's affair
            } else if (open_[at(b)] || is_passive(next.kind)) {
                tree.children.push_back(grow(b, far_end(b, node)));
            } else if (live_[at(b)]) {
                tree.others.push_back(b);
            }
        }
        return tree;
    }

    static bool has_device(const Tree& t) {
        return !t.devices.empty() || std::any_of(t.children.begin(), t.children.end(), has_device);
    }
    static bool bare_here(const Tree& t) {
        return !t.takers.empty() || !t.sources.empty() || !t.others.empty();
    }

    void gather(const Tree& t, Chain& chain) const {
        if (open_[at(t.branch)]) chain.beyond.push_back(t.branch);
        collect_ends(t, chain);
        for (const Tree& child : t.children) gather(child, chain);
    }
    void collect_ends(const Tree& t, Chain& chain) const {
        chain.leads_to.insert(chain.leads_to.end(), t.takers.begin(), t.takers.end());
        if (!t.sources.empty() && chain.other_source < 0) chain.other_source = t.sources.front();
        if (!t.others.empty() && chain.other_source < 0) chain.other_source = source_behind(t.node, -1);
        chain.bare = chain.bare || bare_here(t);
    }

    /// Another source that reaches this node without passing a device.
    int source_behind(int node, int not_over) const {
        std::vector<bool> usable = live_;
        for (std::size_t b = 0; b < usable.size(); ++b)
            if (protect::is_device(net_.branches[b]) || static_cast<int>(b) == not_over) usable[b] = false;
        const auto there = reached(net_, {node}, usable);
        for (std::size_t s = 0; s < sources_.size(); ++s)
            if (static_cast<int>(s) != open_here_.source && there[at(sources_[s].node)])
                return static_cast<int>(s);
        return -1;
    }

    /// Follows a tree to where it ends, parts or meets something, and goes on with what lies beyond.
    void walk(const Tree& first, int before, bool reported) {
        Chain chain;
        chain.source = open_here_.source;
        chain.unlimited = open_here_.unlimited;
        chain.device_before = before;
        const Tree* t = &first;
        while (true) {
            if (open_[at(t->branch)]) chain.conductors.push_back(t->branch);
            if (t->children.size() != 1 || !t->devices.empty() || bare_here(*t)) break;
            t = &t->children.front();
        }
        if (chain.conductors.empty()) { // a switch right at the bar: look on behind it
            for (const Tree& child : t->children) walk(child, before, reported);
            return;
        }
        const auto& branch = net_.branches[at(chain.conductors.front())];
        chain.fed_at =
            first.branch == chain.conductors.front() ? far_end(first.branch, first.node) : branch.a;
        chain.allowed = placement_of(facts_, chain.conductors.front())->allowed;
        for (const int b : chain.conductors)
            chain.allowed = std::min(chain.allowed, placement_of(facts_, b)->allowed);
        const auto* last = open_[at(chain.conductors.back())]->from;
        chain.exposure = last->exposure;
        chain.exposure_at_least = last->exposure_at_least;
        if (!has_device(*t)) {
            collect_ends(*t, chain);
            for (const Tree& child : t->children) gather(child, chain);
            if (chain.bare) judge(std::move(chain), reported);
            return;
        }
        if (t->children.empty() && t->devices.size() == 1 && !bare_here(*t)) {
            chain.device_after = t->devices.front();
            other_end(chain, t->node);
            judge(std::move(chain), reported);
            return;
        }
        collect_ends(*t, chain);
        chain.trunk = !chain.bare;
        const bool lacks = judge(std::move(chain), reported);
        for (const Tree& child : t->children) walk(child, -1, reported || lacks);
    }

    /// Does the device at the chain's end belong to another source, nearer to it?
    void other_end(Chain& chain, int node) const {
        const int beyond = far_end(chain.device_after, node);
        const int other = source_behind(beyond, chain.device_after);
        if (other < 0) return;
        std::vector<bool> usable = live_;
        usable[at(chain.device_after)] = false;
        const auto way =
            network::shortest_way(facts_.installation, net_, {sources_[at(other)].node}, beyond, usable);
        if (!way) return;
        const bool known = way->length && chain.exposure;
        if (known ? *way->length < *chain.exposure : way->branches.size() < chain.conductors.size())
            chain.other_source = other;
    }

    /// Keeps the chain with what it lacks; true when something.
    bool judge(Chain chain, bool reported) {
        Judged j;
        j.limit = limit(chain);
        // Not known in all, but what is known may be too much already.
        const bool too_long = j.limit && above(chain.exposure.value_or(chain.exposure_at_least), *j.limit);
        const Lack bare = chain.device_before >= 0 ? Lack::rating
                          : chain.other_source >= 0 && chain.unlimited && chain.leads_to.empty()
                              ? Lack::between
                              : Lack::device;
        if (chain.bare)
            j.lack = bare;
        else if (chain.trunk)
            j.lack = chain.device_before >= 0 ? Lack::rating : too_long ? Lack::device : Lack::nothing;
        else if (too_long && !reported)
            j.lack = chain.device_before >= 0  ? Lack::rating
                     : chain.other_source >= 0 ? Lack::between
                                               : Lack::distance;
        chain.small = is_small(chain);
        j.chain = std::move(chain);
        out_.push_back(std::move(j));
        return out_.back().lack != Lack::nothing;
    }

    std::optional<Length> limit(const Chain& chain) const {
        const auto& set = facts_.rule_set.unprotected;
        const auto& source = sources_[at(chain.source)];
        const bool battery =
            source.port >= 0 && net_.ports[at(source.port)].kind == network::PortKind::battery;
        auto limit = battery ? set.from_battery : set.from_other;
        const bool enclosed = std::all_of(chain.conductors.begin(), chain.conductors.end(), [&](int b) {
            return conductor_of(facts_, b)->cover != plan::Cover::open;
        });
        if (enclosed && set.enclosed && (!limit || *limit < *set.enclosed)) limit = set.enclosed;
        return limit;
    }

    /// A signal conductor, or a thin one (1.5 mm² at most) that carries little (2 A at most).
    bool is_small(const Chain& chain) const {
        return std::all_of(chain.conductors.begin(), chain.conductors.end(), [&](int b) {
            const auto* c = conductor_of(facts_, b);
            if (c->role == plan::Role::signal) return true;
            return c->size && !above(area_of(*c), 1.5_mm2) &&
                   !above(facts_.envelope.branch_current[at(b)].value, 2_A);
        });
    }

    const Facts& facts_;
    const network::Network& net_;
    std::vector<protect::Source> sources_;
    std::vector<std::vector<int>> at_;
    std::vector<bool> live_;
    std::vector<std::optional<Open>> open_;
    std::vector<bool> seen_;
    std::map<int, std::vector<int>> hops_;
    Open open_here_;
    int root_ = -1;
    std::vector<Judged> out_;
};

} // namespace

std::vector<Judged> chains(const Facts& facts) {
    return Finder(facts).run();
}

} // namespace fl::rules
