#include "core/listing/curve_sources.h"

#include "core/listing/cells.h"
#include "core/listing/tables.h"
#include "core/listing/through.h"
#include "core/protect/device_curve.h"
#include "core/protect/placement.h"

#include <algorithm>
#include <vector>

namespace fl::listing {
namespace {

struct Origin {
    protect::Provenance from;
    std::vector<std::string> devices;
};

std::string joined(const std::vector<std::string>& all) {
    std::string out;
    for (const std::string& one : all) out += (out.empty() ? "" : ", ") + one;
    return out;
}

} // namespace

Listing curve_sources(const assess::Assessment& a) {
    std::vector<Origin> all;
    for (const network::Branch& branch : a.network.branches) {
        if (!protect::is_device(branch) || !protect::is_fitted(a.installation, branch)) continue;
        auto from = protect::curve_provenance(a.installation, branch);
        auto same = std::find_if(all.begin(), all.end(), [&](const Origin& o) { return o.from == from; });
        if (same == all.end()) same = all.insert(all.end(), {std::move(from), {}});
        same->devices.push_back(device_name(a.installation, branch));
    }
    Listing out{"Operating times", {left("devices"), left("come by"), left("from")}, {}};
    for (Origin& origin : all) {
        std::stable_sort(origin.devices.begin(), origin.devices.end(),
                         [](const auto& x, const auto& y) { return before(x, y); });
        const bool known = !origin.from.basis.empty();
        out.rows.push_back({joined(origin.devices), known ? origin.from.basis : std::string(not_known),
                            origin.from.citations});
    }
    std::stable_sort(out.rows.begin(), out.rows.end(),
                     [](const auto& x, const auto& y) { return before(x[0], y[0]); });
    return out;
}

} // namespace fl::listing
