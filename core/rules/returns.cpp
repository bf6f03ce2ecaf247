#include "core/protect/placement.h"
#include "core/rules/list.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>

// Is there a way back, and may it carry what comes back through it?

namespace fl::rules {
namespace {

using network::PortKind;

bool is_source(PortKind kind) {
    return kind == PortKind::battery || kind == PortKind::alternator || kind == PortKind::take_off_point ||
           kind == PortKind::mains_charger || kind == PortKind::solar_controller;
}

/// Something whose current comes back at `minus`; `plus` are its live nodes.
struct Taker {
    plan::ComponentId component;
    std::vector<int> plus;
    int minus = -1;
};

std::vector<Taker> takers(const Facts& facts) {
    const auto& net = facts.network;
    std::vector<Taker> all;
    for (const auto& p : net.ports)
        if (!is_source(p.kind) && p.kind != PortKind::relay_coil)
            all.push_back({p.component, {p.plus}, p.minus});
    for (const auto& c : net.converters) {
        all.push_back({c.component, {c.in_plus}, c.in_minus});
        if (c.out_minus == c.in_minus)
            all.back().plus.push_back(c.out_plus);
        else
            all.push_back({c.component, {c.out_plus}, c.out_minus});
    }
    for (const auto& c : facts.installation.components)
        if (const auto* box = std::get_if<plan::FuseBox>(&c.with);
            box && box->minus_bar && c.origin != plan::Origin::removed)
            all.push_back({c.id, {net.node_of({c.id, "in"})}, net.node_of({c.id, "-"})});
    std::erase_if(all, [](const Taker& t) { return t.minus < 0; });
    return all;
}

Current rating_of(const Facts& facts, int device) {
    if (device < 0) return {};
    return protect::device_rating(facts.installation, facts.network.branches[at(device)]).value_or(Current());
}

/// The largest device that limits what can flow into these nodes.
int device_of(const Facts& facts, const std::vector<std::vector<int>>& at_node,
              const std::vector<int>& plus) {
    int largest = -1;
    Current most;
    for (const int node : plus) {
        if (node < 0) continue;
        for (const int b : at_node[at(node)]) {
            const auto* p = placement_of(facts, b);
            if (!p || !std::isfinite(std::max(p->greatest_a, p->greatest_b).si())) continue;
            for (const int d : p->devices)
                if (const Current rating = rating_of(facts, d); rating > most) largest = d, most = rating;
        }
    }
    return largest;
}

/// What lies behind a node of the return, seen from the sources' minus.
struct Behind {
    std::vector<plan::ComponentId> components;
    std::set<int> devices;
};

class Bridges {
public:
    explicit Bridges(const Facts& facts)
        : facts_(facts)
        , at_(branches_at(facts.network))
        , returns_(network::return_nodes(facts.network))
        , low_(facts.network.nodes.size(), 0)
        , number_(low_) {
        for (const Taker& t : takers(facts)) {
            Behind& here = own_[t.minus];
            here.components.push_back(t.component);
            here.devices.insert(device_of(facts, at_, t.plus));
        }
    }

    std::vector<ReturnLoad> run() {
        // The minus of all sources, and the body, count as one node: number 1.
        std::vector<int> roots;
        for (const auto& p : facts_.network.ports)
            if (is_source(p.kind)) roots.push_back(p.minus);
        for (std::size_t n = 0; n < facts_.network.nodes.size(); ++n)
            if (facts_.network.nodes[n].body) roots.push_back(static_cast<int>(n));
        for (const int r : roots)
            if (returns_[at(r)]) number_[at(r)] = low_[at(r)] = 1;
        for (const int r : roots)
            if (returns_[at(r)])
                for (const int b : at_[at(r)]) follow(b, r);
        std::sort(out_.begin(), out_.end(),
                  [](const ReturnLoad& x, const ReturnLoad& y) { return x.branch < y.branch; });
        return std::move(out_);
    }

private:
    /// Goes over branch `b` away from `from`; gives what lies behind it.
    Behind follow(int b, int from) {
        const auto& branch = facts_.network.branches[at(b)];
        const int to = branch.a == from ? branch.b : branch.a;
        if (to == from) return {};
        if (number_[at(to)] > 0) {
            low_[at(from)] = std::min(low_[at(from)], number_[at(to)]);
            return {};
        }
        number_[at(to)] = low_[at(to)] = ++count_;
        Behind all = own_[to];
        for (const int next : at_[at(to)]) {
            if (next == b) continue;
            Behind more = follow(next, to);
            all.components.insert(all.components.end(), more.components.begin(), more.components.end());
            all.devices.merge(more.devices);
        }
        if (number_[at(from)] > 1) low_[at(from)] = std::min(low_[at(from)], low_[at(to)]);
        if (low_[at(to)] == number_[at(to)] && branch.kind == network::BranchKind::conductor &&
            !all.components.empty())
            out_.push_back(load_of(b, all));
        return all;
    }
    ReturnLoad load_of(int b, const Behind& behind) const {
        ReturnLoad r;
        r.branch = b;
        r.of = behind.components;
        std::sort(r.of.begin(), r.of.end());
        r.of.erase(std::unique(r.of.begin(), r.of.end()), r.of.end());
        r.shared = behind.devices.size() > 1;
        Current most;
        for (const int d : behind.devices)
            if (const Current rating = rating_of(facts_, d); rating > most) most = rating, r.device = d;
        return r;
    }

    const Facts& facts_;
    std::vector<std::vector<int>> at_;
    std::vector<bool> returns_;
    std::vector<int> low_, number_;
    int count_ = 1;
    std::map<int, Behind> own_;
    std::vector<ReturnLoad> out_;
};

} // namespace

std::vector<ReturnLoad> return_loads(const Facts& facts) {
    return Bridges(facts).run();
}

void shared_return_thin(const Seen& facts, std::vector<Finding>& out) {
    std::map<std::vector<plan::ComponentId>, Finding> found; // by what comes back: a cause in several pieces
    for (const ReturnLoad& r : facts.returns) {
        const auto* c = conductor_of(facts, r.branch);
        const Current may = facts.may_carry[at(r.branch)];
        if (!r.shared || may.si() <= 0) continue;
        if (c->origin == plan::Origin::as_found && !facts.changed[at(r.branch)]) continue;
        const auto& running = facts.envelope.branch_current[at(r.branch)];
        const Current rating = rating_of(facts, r.device); // 0 = none
        const bool hot = above(running.value, may);
        const bool thin = above(rating, may * facts.rule_set.device_multiple);
        if (!hot && !thin) continue;
        auto [at_cause, fresh] = found.try_emplace(r.of, make(facts, "shared-return-thin"));
        Finding& f = at_cause->second;
        f.subjects.insert(f.subjects.begin() + (fresh ? 0 : 1), plan::Subject::of(c->id));
        if (!fresh) continue;
        for (const auto id : r.of) f.subjects.push_back(plan::Subject::of(id));
        f.values["may_carry"] = may;
        f.values["circuits"] = static_cast<std::int64_t>(r.of.size());
        if (c->size) f.values["size"] = *c->size;
        if (hot) {
            f.values["current"] = running.value;
            f.condition = condition_of(facts, running);
        } else {
            f.values["device"] = designation(facts, device(facts, r.device)->subject);
            f.values["rating"] = rating;
        }
        const Current wanted = std::max(running.value, rating / facts.rule_set.device_multiple);
        if (const auto size = size_for(facts, *c, wanted, 1)) f.values["fit_size"] = *size;
    }
    for (auto& [of, f] : found) out.push_back(std::move(f));
}

void not_fed(const Seen& facts, std::vector<Finding>& out) {
    const auto& net = facts.network;
    std::vector<bool> usable(net.branches.size());
    for (std::size_t b = 0; b < usable.size(); ++b)
        usable[b] = protect::is_fitted(facts.installation, net.branches[b]);
    std::vector<int> from;
    for (const auto& p : net.ports)
        if (is_source(p.kind)) from.push_back(p.plus);
    for (const auto& c : net.converters) from.push_back(c.out_plus);
    const auto fed = reached(net, from, usable);
    Finding f = make(facts, "not-fed"); // one cause as a rule: the feeder that is not drawn yet
    for (const auto& p : net.ports)
        if ((p.kind == PortKind::load || p.kind == PortKind::inverter) && !as_found(facts, p.component) &&
            !fed[at(p.plus)])
            f.subjects.push_back(plan::Subject::of(p.component));
    if (f.subjects.empty()) return;
    f.values["loads"] = static_cast<std::int64_t>(f.subjects.size());
    out.push_back(std::move(f));
}

void missing_return(const Seen& facts, std::vector<Finding>& out) {
    const auto& net = facts.network;
    const std::vector<bool> all(net.branches.size(), true);
    // Nodes joined to the plus, or to the minus, of any source but the converter `except` (-1 = none).
    const auto joined = [&](bool to_plus, int except) {
        std::vector<int> from;
        for (const auto& p : net.ports)
            if (is_source(p.kind)) from.push_back(to_plus ? p.plus : p.minus);
        for (int k = 0; k < static_cast<int>(net.converters.size()); ++k)
            if (k != except)
                from.push_back(to_plus ? net.converters[at(k)].out_plus : net.converters[at(k)].out_minus);
        return reached(net, from, all);
    };
    const auto look = [&](plan::ComponentId id, int plus, int minus, const std::vector<bool>& to_plus,
                          const std::vector<bool>& to_minus, const char* terminal) {
        // Nothing at its plus either: still being drawn.
        if (as_found(facts, id) || !to_plus[at(plus)] || to_minus[at(minus)]) return;
        Finding f = make(facts, "missing-return");
        f.subjects.push_back(plan::Subject::of(id));
        f.values["terminal"] = std::string(terminal);
        out.push_back(std::move(f));
    };
    const auto to_plus = joined(true, -1), to_minus = joined(false, -1);
    for (const auto& p : net.ports)
        if (p.kind == PortKind::load || p.kind == PortKind::inverter)
            look(p.component, p.plus, p.minus, to_plus, to_minus, "-");
        else if (const auto* relay = network::parameters<plan::Relay>(facts.installation, p);
                 relay && p.kind == PortKind::relay_coil)
            look(p.component, p.plus, p.minus, to_plus, to_minus,
                 relay->control == plan::RelayControl::voltage_sensing ? "31" : "85");
    for (int k = 0; k < static_cast<int>(net.converters.size()); ++k) {
        const auto& c = net.converters[at(k)];
        look(c.component, c.in_plus, c.in_minus, joined(true, k), joined(false, k),
             c.in_minus == c.out_minus ? "-" : "in-");
    }
}

} // namespace fl::rules
