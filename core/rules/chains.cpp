#include "core/rules/chains.h"

#include "core/quantity/limit.h"
#include "core/rules/open.h"

#include <algorithm>
#include <set>

namespace fl::rules {
namespace {

using network::BranchKind;

bool is_passive(BranchKind kind) {
    return kind == BranchKind::switch_ || kind == BranchKind::relay || kind == BranchKind::shunt;
}

class Finder {
public:
    explicit Finder(const Facts& facts)
        : facts_(facts)
        , net_(facts.network)
        , all_(facts)
        , seen_(net_.branches.size())
        , takers_(net_.nodes.size()) {
        std::set<plan::ComponentId> sources;
        for (const protect::Source& s : all_.sources)
            if (s.port >= 0) sources.insert(net_.ports[at(s.port)].component);
        for (const auto& p : net_.ports) {
            const auto* relay = network::parameters<plan::Relay>(facts_.installation, p);
            if (relay && relay->control == plan::RelayControl::voltage_sensing) continue; // within its case
            if (sources.contains(p.component)) continue;
            takers_[at(p.plus)].push_back(p.component);
            if (p.kind == network::PortKind::relay_coil && p.minus != p.plus)
                takers_[at(p.minus)].push_back(p.component);
        }
        for (const auto& c : net_.converters) {
            takers_[at(c.in_plus)].push_back(c.component);
            if (c.run >= 0 && c.run != c.in_plus) takers_[at(c.run)].push_back(c.component);
        }
    }

    std::vector<Judged> run() {
        for (const int b : all_.outwards())
            if (!seen_[at(b)]) grow_from(all_.fed_end(b), *all_.open[at(b)]);
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

    void grow_from(int root, const Open& open) {
        open_here_ = open;
        root_ = root;
        std::vector<Tree> trees;
        nodes_ = {root};
        for (const int b : all_.at_node[at(root)])
            if (all_.open[at(b)] && !seen_[at(b)]) trees.push_back(grow(b, all_.far_end(b, root)));
        for (Tree& tree : trees) forget_rings(tree);
        int before = -1;
        bool tap = false;
        for (const int b : all_.at_node[at(root)]) {
            const auto& devices = open.from->devices;
            if (std::find(devices.begin(), devices.end(), b) != devices.end()) before = b;
            // Something that this device does protect hangs here too, so it is right for that.
            if (all_.live[at(b)] && net_.branches[at(b)].kind == BranchKind::conductor && !all_.open[at(b)])
                tap = true;
        }
        for (const Tree& tree : trees) walk(tree, tap ? -1 : before, false);
    }

    Tree grow(int branch, int node) {
        Tree tree{branch, node, {}, {}, {}, {}, {}};
        seen_[at(branch)] = true;
        nodes_.insert(node);
        for (std::size_t s = 0; s < all_.sources.size(); ++s)
            if (all_.sources[s].node == node && node != root_) tree.sources.push_back(static_cast<int>(s));
        tree.takers = takers_[at(node)];
        const bool at_source = !tree.sources.empty();
        for (const int b : all_.at_node[at(node)]) {
            const auto& next = net_.branches[at(b)];
            if (seen_[at(b)] || b == branch) continue;
            if (protect::is_device(next)) {
                tree.devices.push_back(b);
            } else if (at_source) {
                continue; // what hangs on the other source is that one's affair
            } else if (all_.open[at(b)] || is_passive(next.kind)) {
                tree.children.push_back(grow(b, all_.far_end(b, node)));
            } else if (all_.live[at(b)]) {
                tree.others.push_back(b);
            }
        }
        return tree;
    }

    /// A device that only leads back to what hangs on the same source ends nothing.
    void forget_rings(Tree& t) const {
        std::erase_if(t.devices, [&](int d) { return nodes_.contains(all_.far_end(d, t.node)); });
        for (Tree& child : t.children) forget_rings(child);
    }

    static bool has_device(const Tree& t) {
        return !t.devices.empty() || std::any_of(t.children.begin(), t.children.end(), has_device);
    }
    static bool bare_here(const Tree& t) {
        return !t.takers.empty() || !t.sources.empty() || !t.others.empty();
    }

    void gather(const Tree& t, Chain& chain) const {
        if (all_.open[at(t.branch)]) chain.beyond.push_back(t.branch);
        collect_ends(t, chain);
        for (const Tree& child : t.children) gather(child, chain);
    }
    void collect_ends(const Tree& t, Chain& chain) const {
        chain.leads_to.insert(chain.leads_to.end(), t.takers.begin(), t.takers.end());
        if (!t.sources.empty() && chain.other_source < 0) chain.other_source = t.sources.front();
        if (!t.others.empty() && chain.other_source < 0)
            chain.other_source = all_.source_behind(t.node, open_here_.source);
        chain.bare = chain.bare || bare_here(t);
    }

    /// Follows a tree to where it ends, parts or meets something, and goes on with what lies beyond.
    void walk(const Tree& first, int before, bool reported) {
        Chain chain;
        chain.source = open_here_.source;
        chain.unlimited = open_here_.unlimited;
        chain.device_before = before;
        const Tree* t = &first;
        while (true) {
            if (all_.open[at(t->branch)]) chain.conductors.push_back(t->branch);
            if (t->children.size() != 1 || !t->devices.empty() || bare_here(*t)) break;
            t = &t->children.front();
        }
        if (chain.conductors.empty()) { // a switch right at the bar: look on behind it
            for (const Tree& child : t->children) walk(child, before, reported);
            return;
        }
        const auto& branch = net_.branches[at(chain.conductors.front())];
        chain.fed_at =
            first.branch == chain.conductors.front() ? all_.far_end(first.branch, first.node) : branch.a;
        chain.allowed = placement_of(facts_, chain.conductors.front())->allowed;
        for (const int b : chain.conductors)
            chain.allowed = std::min(chain.allowed, placement_of(facts_, b)->allowed);
        const auto* last = all_.open[at(chain.conductors.back())]->from;
        chain.exposure = last->exposure;
        chain.exposure_at_least = last->exposure_at_least;
        if (!has_device(*t)) {
            collect_ends(*t, chain);
            for (const Tree& child : t->children) gather(child, chain);
            chain.link = t->children.empty() && t->takers.empty() && t->others.empty();
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
        const int beyond = all_.far_end(chain.device_after, node);
        const int other = all_.source_behind(beyond, open_here_.source);
        if (other < 0) return;
        std::vector<bool> usable = all_.live;
        usable[at(chain.device_after)] = false;
        const auto way =
            network::shortest_way(facts_.installation, net_, {all_.sources[at(other)].node}, beyond, usable);
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
        const bool too_long = j.limit && j.limit->value &&
                              above(chain.exposure.value_or(chain.exposure_at_least).si(), *j.limit->value);
        const Lack bare = chain.device_before >= 0 ? Lack::rating
                          : chain.other_source >= 0 && chain.unlimited && chain.leads_to.empty()
                              ? Lack::between
                              : Lack::device;
        // From one battery's terminal to another's, as short as a lead may be before its device: no device
        // fits between, and none would open for it.
        const bool short_link = chain.link && j.limit && j.limit->value && chain.exposure && !too_long;
        if (chain.bare)
            j.lack = short_link ? Lack::nothing : bare;
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

    const catalogue::Limit* limit(const Chain& chain) const {
        const auto& source = all_.sources[at(chain.source)];
        const bool battery =
            source.port >= 0 && net_.ports[at(source.port)].kind == network::PortKind::battery;
        const std::string id = battery ? "unprotected.battery" : "unprotected.other";
        // All the way from the source, the stretch before our chain too.
        auto way = chain.conductors;
        const auto& before = all_.open[at(chain.conductors.front())]->from->path;
        way.insert(way.end(), before.begin(), before.end());
        const bool enclosed = std::all_of(way.begin(), way.end(), [&](int b) {
            const auto* c = conductor_of(facts_, b);
            return !c || c->cover != plan::Cover::open;
        });
        const auto* more = enclosed ? facts_.rule_set.limit(id + "_enclosed") : nullptr;
        return more ? more : facts_.rule_set.limit(id);
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
    Opens all_;
    std::vector<bool> seen_;                             // branches
    std::vector<std::vector<plan::ComponentId>> takers_; ///< per node: what takes current there
    Open open_here_;
    int root_ = -1;
    std::set<int> nodes_; ///< reached from it
    std::vector<Judged> out_;
};

} // namespace

std::vector<Judged> chains(const Facts& facts) {
    return Finder(facts).run();
}

} // namespace fl::rules
