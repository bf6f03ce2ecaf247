#include "core/catalogue/lie.h"
#include "core/listing/cells.h"
#include "core/listing/tables.h"
#include "core/network/part.h"
#include "core/protect/curve.h"
#include "core/quantity/limit.h"
#include "core/rules/orders.h"
#include "core/rules/suited.h"

#include <algorithm>
#include <cmath>

namespace fl::listing {
namespace {

template <class T>
const T& item(const std::vector<T>& all, int index) {
    return all[static_cast<std::size_t>(index)];
}

struct Device {
    std::string designation, name, type_id;
    std::optional<Current> breaking;
    bool fitted = true;
};

Device device_of(const plan::Installation& in, const network::Branch& branch) {
    Device d{part_name(in, branch.component, branch.element), plain_name(in, branch.component), {}, {}, true};
    d.fitted = protect::is_fitted(in, branch);
    if (const plan::Way* way = network::way_of(in, branch)) {
        d.designation += " way " + fixed(branch.part + 1, 0);
        d.name = way->label;
        d.type_id = way->type;
    } else if (const auto* fuse = network::parameters<plan::Fuse>(in, branch)) {
        d.type_id = fuse->type;
        d.breaking = fuse->breaking_capacity.value;
    } else if (const auto* breaker = network::parameters<plan::Breaker>(in, branch)) {
        d.breaking = breaker->breaking_capacity.value;
    }
    return d;
}

// The largest at either side of it, since a short may lie at both.
std::optional<Current> fault_at(const assess::Assessment& a, const network::Branch& branch) {
    std::optional<Current> largest;
    for (const int node : {branch.a, branch.b})
        if (const auto& fault = item(a.faults, node).largest; fault && (!largest || fault->total > *largest))
            largest = fault->total;
    return largest;
}

// Conductors that this device keeps from burning, those of the return left out: theirs are many.
std::string protects(const assess::Assessment& a, int branch) {
    std::string all;
    for (const protect::Placement& one : a.placements) {
        if (one.return_side || !one.is_protected) continue;
        if (std::find(one.devices.begin(), one.devices.end(), branch) == one.devices.end()) continue;
        if (const plan::Conductor* w = a.installation.conductors.find(one.conductor))
            all += (all.empty() ? "" : ", ") + w->designation;
    }
    return all;
}

std::string device_name(const assess::Assessment& a, int branch) {
    return device_of(a.installation, item(a.network.branches, branch)).designation;
}

// Of the next devices towards its sources: which of them it opens before, and up to what current.
std::string opens_before(const assess::Assessment& a, const std::vector<rules::Series>& all, int branch,
                         Style style) {
    std::string out;
    std::vector<int> said;
    for (const rules::Series& s : all) {
        if (s.lower != branch || !s.next || std::find(said.begin(), said.end(), s.upper) != said.end())
            continue;
        said.push_back(s.upper);
        const auto rating = protect::device_rating(a.installation, item(a.network.branches, s.upper));
        if (rating && !above(s.upper_most, *rating)) continue; // its own source is too weak for it
        if (!out.empty()) out += ", ";
        const std::string name = device_name(a, s.upper);
        if (!s.order)
            out += name + " " + std::string(not_known);
        else if (s.order->kind == protect::Order::Kind::none)
            out += "not " + name;
        else if (s.order->kind == protect::Order::Kind::full)
            out += name;
        else
            out += name + " up to " + text(s.order->up_to, style);
    }
    return out;
}

std::string_view word(rules::Check check) {
    switch (check) {
    case rules::Check::continuous:
        return "current";
    case rules::Check::conductor:
        return "conductor";
    case rules::Check::voltage:
        return "voltage";
    case rules::Check::breaking:
        return "breaking";
    case rules::Check::opens:
    case rules::Check::withstand:
        return "opening time";
    case rules::Check::rides_through:
        return "in use";
    }
    return {};
}

// What it meets over what it bears, where that is most.
std::string tightest(const std::vector<rules::Suited>& all, int branch) {
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const rules::Suited& s) { return s.branch == branch; });
    const rules::Suit* suit = found != all.end() ? found->tightest() : nullptr;
    if (!suit) return std::string(not_known);
    if (!std::isfinite(suit->share)) return "may not open";
    return std::string(word(suit->check)) + " " + fixed(100 * suit->share, 0) + " %";
}

std::string kiloamperes(const std::optional<Current>& current, Style style) {
    return current ? significant(current->si() / 1000, 3, style) : std::string(not_known);
}

std::string type_name(const Device& device, const network::Branch& branch) {
    if (branch.kind == network::BranchKind::breaker) return "circuit-breaker";
    const catalogue::FuseType* type = catalogue::fuse_type(device.type_id);
    return type ? type->name : device.type_id.empty() ? std::string(not_known) : device.type_id;
}

} // namespace

Listing devices(const assess::Assessment& a, Style style) {
    Listing out{"Protective devices",
                {left("device"), left("name"), left("type"), right("rating", "A"),
                 right("greatest current", "A"), right("fault current", "kA"),
                 right("breaking capacity", "kA"), left("nearest its limit"), left("opens before"),
                 left("protects")},
                {}};
    const rules::Facts facts{a.installation, catalogue::rules_of(a.installation),
                             a.network,      a.conditions,
                             a.envelope,     a.may_carry,
                             a.placements,   a.faults,
                             a.circuits};
    const auto suited = rules::suited(facts);
    const auto series = rules::series(facts);
    for (int i = 0; i < static_cast<int>(a.network.branches.size()); ++i) {
        const network::Branch& branch = item(a.network.branches, i);
        if (!protect::is_device(branch)) continue;
        Device d = device_of(a.installation, branch);
        if (!d.fitted) {
            out.rows.push_back({d.designation, d.name, "empty", "", "", "", "", "", "", ""});
            continue;
        }
        if (const auto* type = catalogue::fuse_type(d.type_id); type && !d.breaking)
            d.breaking = protect::breaking_capacity(*type, catalogue::nominal_of(a.installation));
        const auto rating = protect::device_rating(a.installation, branch);
        out.rows.push_back({d.designation, d.name, type_name(d, branch),
                            rating ? three_digits(*rating, style) : std::string(not_known),
                            greatest_current(a, i, style), kiloamperes(fault_at(a, branch), style),
                            kiloamperes(d.breaking, style), tightest(suited, i),
                            opens_before(a, series, i, style), protects(a, i)});
    }
    std::stable_sort(out.rows.begin(), out.rows.end(),
                     [](const auto& x, const auto& y) { return before(x[0], y[0]); });
    return out;
}

} // namespace fl::listing
