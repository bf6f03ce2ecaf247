#include "core/listing/through.h"

#include "core/listing/cells.h"
#include "core/listing/tables.h"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

namespace fl::listing {
namespace {

struct AtNode {
    int node = -1;
    const fault::Through* through = nullptr;
};
struct Row {
    AtNode greatest;
    std::optional<AtNode> least;
    bool known = true; ///< the least, at all faults it is next to
};

} // namespace

std::string_view name(fault::SourceState state) {
    switch (state) {
    case fault::SourceState::strong:
        return "strong";
    case fault::SourceState::weak:
        return "weak";
    case fault::SourceState::absent:
        break;
    }
    return "absent";
}

std::string states_text(const plan::Installation& in, const std::vector<fault::InState>& states) {
    std::string out;
    for (const auto& s : states)
        out += (out.empty() ? "" : ", ") + part_name(in, s.source) + " " + std::string(name(s.state));
    return out;
}

std::string device_name(const plan::Installation& in, const network::Branch& branch) {
    std::string out = part_name(in, branch.component, branch.element);
    if (branch.kind == network::BranchKind::way) out += " way " + fixed(branch.part + 1, 0);
    return out;
}

std::string limit_name(const assess::Assessment& a, const fault::Limit& limit) {
    if (limit.branch < 0) return part_name(a.installation, limit.source);
    const auto& branch = a.network.branches[static_cast<std::size_t>(limit.branch)];
    const plan::Conductor* w = a.installation.conductors.find(branch.conductor);
    return w ? w->designation : device_name(a.installation, branch);
}

std::string toward(const plan::Installation& in, const network::Network& network,
                   const fault::Through& through) {
    const auto& branch = network.branches[static_cast<std::size_t>(through.branch)];
    const auto& node = network.nodes[static_cast<std::size_t>(through.forward ? branch.b : branch.a)];
    for (const auto& terminal : node.terminals) // its own, of all that are joined there
        if (terminal.component == branch.component) return plan::text(in, terminal);
    return node_name(in, node);
}

Listing through(const assess::Assessment& a, const std::vector<fault::Devices>& devices, Style style) {
    std::map<std::pair<int, bool>, Row> rows; // by branch and direction
    for (std::size_t n = 0; n < devices.size(); ++n)
        for (const fault::Through& t : devices[n]) {
            Row& row = rows[{t.branch, !t.forward}];
            const AtNode here{static_cast<int>(n), &t};
            if (!row.greatest.through || t.greatest > row.greatest.through->greatest) row.greatest = here;
            if (!t.next_to) continue;
            row.known = row.known && t.least;
            if (t.least && (!row.least || *t.least < *row.least->through->least)) row.least = here;
        }
    Listing out{"Currents through devices in a short circuit",
                {left("device"), left("toward"), right("greatest", "A"), left("short at"), left("with"),
                 right("least", "A"), left("short at"), left("with")},
                {}};
    const auto place = [&](const AtNode& at) {
        return node_name(a.installation, a.network.nodes[static_cast<std::size_t>(at.node)]);
    };
    for (const auto& [key, row] : rows) {
        const auto& most = row.greatest;
        std::vector<std::string> cells{
            device_name(a.installation, a.network.branches[static_cast<std::size_t>(key.first)]),
            toward(a.installation, a.network, *most.through), cell(most.through->greatest, style, 0),
            place(most), states_text(a.installation, most.through->at_greatest)};
        if (!row.known || !row.least) {
            cells.insert(cells.end(), {row.known ? "" : std::string(not_known), "", ""});
        } else {
            const Current least = std::max(*row.least->through->least, Current{}); // less than none is none
            cells.insert(cells.end(), {cell(least, style, 0), place(*row.least),
                                       states_text(a.installation, row.least->through->at_least)});
        }
        out.rows.push_back(std::move(cells));
    }
    std::stable_sort(out.rows.begin(), out.rows.end(),
                     [](const auto& x, const auto& y) { return before(x[0], y[0]); });
    return out;
}

} // namespace fl::listing
