#include "core/catalogue/lie.h"
#include "core/listing/cells.h"
#include "core/listing/tables.h"
#include "core/network/part.h"
#include "core/protect/curve.h"

#include <algorithm>

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
                 right("breaking capacity", "kA"), left("protects")},
                {}};
    for (int i = 0; i < static_cast<int>(a.network.branches.size()); ++i) {
        const network::Branch& branch = item(a.network.branches, i);
        if (!protect::is_device(branch)) continue;
        Device d = device_of(a.installation, branch);
        if (!d.fitted) {
            out.rows.push_back({d.designation, d.name, "empty", "", "", "", "", ""});
            continue;
        }
        if (const auto* type = catalogue::fuse_type(d.type_id); type && !d.breaking)
            d.breaking = protect::breaking_capacity(*type, catalogue::nominal_of(a.installation));
        const auto rating = protect::device_rating(a.installation, branch);
        out.rows.push_back({d.designation, d.name, type_name(d, branch),
                            rating ? three_digits(*rating, style) : std::string(not_known),
                            greatest_current(a, i, style), kiloamperes(fault_at(a, branch), style),
                            kiloamperes(d.breaking, style), protects(a, i)});
    }
    std::stable_sort(out.rows.begin(), out.rows.end(),
                     [](const auto& x, const auto& y) { return before(x[0], y[0]); });
    return out;
}

} // namespace fl::listing
