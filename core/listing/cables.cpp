#include "core/catalogue/lie.h"
#include "core/listing/cells.h"
#include "core/listing/tables.h"
#include "core/plan/names.h"

#include <algorithm>

namespace fl::listing {
namespace {

// What the worst of all says of this conductor; empty when no condition sets it or it is not in the network.
std::optional<Current> greatest_current(const assess::Assessment& a, int branch) {
    if (branch < 0) return {};
    const auto& extreme = a.envelope.branch_current[static_cast<std::size_t>(branch)];
    if (!extreme) return {};
    return extreme.value;
}

std::optional<Current> may_carry(const assess::Assessment& a, int branch) {
    if (branch < 0) return {};
    const Current most = a.may_carry[static_cast<std::size_t>(branch)];
    if (most.si() <= 0) return {};
    return most;
}

} // namespace

Listing cables(const assess::Assessment& a, Style style) {
    const plan::Installation& in = a.installation;
    const bool gauges = std::any_of(in.conductors.begin(), in.conductors.end(),
                                    [](const plan::Conductor& w) { return w.size && (*w.size).awg; });
    Listing out{"Conductors",
                {left("conductor"), left("cable"), left("run"), left("from"), left("to"), left("role"),
                 left("origin"), right("length", "m"), right("area", "mm²")},
                {}};
    if (gauges) out.columns.push_back(right("gauge", "AWG"));
    for (Column c :
         {left("insulation"), left("colour"), right("greatest current", "A"), right("may carry", "A")})
        out.columns.push_back(std::move(c));
    const auto colour = colours(a);
    for (const plan::Conductor& w : in.conductors) {
        const plan::Cable* cable = in.cables.find(w.cable);
        const plan::Run* run = in.runs.find(w.run ? w.run : cable ? cable->run : plan::RunId{});
        const int branch = a.network.branch_of(w.id);
        const bool signal = w.role == plan::Role::signal;
        std::vector<std::string> row{
            w.designation,
            cable ? cable->designation : "",
            run ? run->name : "",
            plan::text(in, w.from),
            plan::text(in, w.to),
            std::string(plan::name(w.role)),
            std::string(plan::name(w.origin)),
            cell(plan::length_of(in, w).value, style),
            w.size ? area_cell((*w.size).area, style) : std::string(not_known),
        };
        if (gauges) row.push_back(w.size && (*w.size).awg ? (*w.size).awg->name() : "");
        row.push_back(catalogue::insulation_of(in, w).id);
        row.push_back(colour.at(w.id));
        row.push_back(signal ? "" : cell(greatest_current(a, branch), style));
        row.push_back(cell(may_carry(a, branch), style));
        out.rows.push_back(std::move(row));
    }
    return out;
}

} // namespace fl::listing
