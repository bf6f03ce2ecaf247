#include "core/rules/look.h"

#include "core/catalogue/lie.h"
#include "core/protect/device_curve.h"
#include "core/quantity/limit.h"

#include <algorithm>

namespace fl::rules {
namespace {

using network::BranchKind;

std::string number(int n) {
    std::string digits;
    for (; n > 0; n /= 10) digits.insert(digits.begin(), static_cast<char>('0' + n % 10));
    return digits.empty() ? "0" : digits;
}

} // namespace

plan::Subject subject_of(const network::Branch& branch) {
    if (branch.kind == BranchKind::conductor) return plan::Subject::of(branch.conductor);
    if (branch.kind == BranchKind::way) return plan::Subject::of(branch.component, number(branch.part + 1));
    return plan::Subject::of(branch.component);
}

std::string designation(const Facts& facts, const plan::Subject& subject) {
    std::string out;
    if (subject.kind == plan::Subject::Kind::component) {
        if (const auto* c = facts.installation.components.find({subject.id})) out = c->designation;
    } else if (subject.kind == plan::Subject::Kind::conductor) {
        if (const auto* c = facts.installation.conductors.find({subject.id})) out = c->designation;
    }
    return subject.part.empty() ? out : out + "." + subject.part;
}

std::string designation(const Facts& facts, plan::ComponentId component) {
    return designation(facts, plan::Subject::of(component));
}

const plan::Conductor* conductor_of(const Facts& facts, int branch) {
    return facts.installation.conductors.find(facts.network.branches[at(branch)].conductor);
}

const protect::Placement* placement_of(const Facts& facts, int branch) {
    const auto id = facts.network.branches[at(branch)].conductor;
    const auto& all = facts.placements;
    const auto found = std::lower_bound(
        all.begin(), all.end(), id,
        [](const protect::Placement& p, plan::ConductorId wanted) { return p.conductor < wanted; });
    return found != all.end() && found->conductor == id ? &*found : nullptr;
}

bool as_found(const Facts& facts, plan::ComponentId component) {
    const auto* c = facts.installation.components.find(component);
    return c && c->origin == plan::Origin::as_found;
}

std::vector<std::vector<int>> branches_at(const network::Network& network) {
    std::vector<std::vector<int>> all(network.nodes.size());
    for (std::size_t b = 0; b < network.branches.size(); ++b) {
        all[at(network.branches[b].a)].push_back(static_cast<int>(b));
        if (network.branches[b].a != network.branches[b].b)
            all[at(network.branches[b].b)].push_back(static_cast<int>(b));
    }
    return all;
}

std::vector<bool> reached(const network::Network& network, const std::vector<int>& from,
                          const std::vector<bool>& usable) {
    const auto island = network::islands(network, usable);
    std::vector<bool> out(network.nodes.size());
    for (const int start : from)
        if (start >= 0)
            for (std::size_t n = 0; n < out.size(); ++n)
                if (island[n] == island[at(start)]) out[n] = true;
    return out;
}

std::vector<bool> live_branches(const Facts& facts) {
    const auto returns = network::return_nodes(facts.network);
    std::vector<bool> live(facts.network.branches.size());
    for (std::size_t b = 0; b < live.size(); ++b) {
        const auto& branch = facts.network.branches[b];
        live[b] = !returns[at(branch.a)] && !returns[at(branch.b)];
    }
    return live;
}

std::optional<Device> device(const Facts& facts, int branch) {
    const auto& b = facts.network.branches[at(branch)];
    if (!protect::is_device(b)) return {};
    const auto& in = facts.installation;
    Device d;
    d.branch = branch;
    d.subject = subject_of(b);
    d.rating = protect::device_rating(in, b);
    if (const auto* fuse = network::parameters<plan::Fuse>(in, b)) {
        d.type = catalogue::fuse_type(fuse->type);
        d.voltage = fuse->voltage.value;
        d.breaking = fuse->breaking_capacity.value;
    } else if (const auto* breaker = network::parameters<plan::Breaker>(in, b)) {
        d.voltage = breaker->voltage.value;
        d.breaking = breaker->breaking_capacity.value;
    } else if (const auto* way = network::way_of(in, b)) {
        d.type = catalogue::fuse_type(way->type);
    }
    if (!d.voltage && d.type) d.voltage = d.type->voltage;
    d.own = protect::own_type(in, b);
    if (d.own) d.type = d.own.get();
    return d;
}

std::vector<Device> devices(const Facts& facts) {
    std::vector<Device> all;
    for (std::size_t b = 0; b < facts.network.branches.size(); ++b)
        if (protect::is_fitted(facts.installation, facts.network.branches[b]))
            if (auto d = device(facts, static_cast<int>(b))) all.push_back(std::move(*d));
    return all;
}

std::optional<Current> fuse_for(Current lasting, Current allowed) {
    if (lasting.si() <= 0) {
        const Current small = catalogue::default_of<Current>("fuse.signal").value;
        return above(small, allowed) ? std::nullopt : std::optional(small);
    }
    const Current blade = catalogue::default_of<Current>("fuse.small_blade_to").value;
    const Current large = catalogue::default_of<Current>("fuse.large_blade_to").value;
    const Current any = Current::si(1e6);
    const std::pair<const char*, Current> types[] = {
        {"ISO8820-3-C", blade}, {"ISO8820-3-E", large}, {"ISO8820-5-SF30", any}, {"ISO8820-5-SF51", any}};
    for (const auto& [id, up_to] : types) {
        const auto* type = catalogue::fuse_type(id);
        if (!type) continue;
        const auto rating = sizing::rating_for(*type, lasting, continuous_factor());
        if (rating && !above(*rating, up_to)) return above(*rating, allowed) ? std::nullopt : rating;
    }
    return {};
}

std::optional<WireSize> size_for(const Facts& facts, const plan::Conductor& conductor, Current current,
                                 double multiple) {
    const auto lie = sizing::lie_of(facts.installation, conductor);
    for (const WireSize& size : facts.rule_set.gauges ? catalogue::gauge_sizes() : catalogue::metric_sizes())
        if (const auto carries = sizing::may_carry(size, lie);
            carries && !above(current, *carries * multiple))
            return size;
    return {};
}

double continuous_factor() {
    return catalogue::default_number("fuse.continuous_factor").value;
}

} // namespace fl::rules
