#include "core/catalogue/lie.h"
#include "core/listing/cells.h"
#include "core/listing/tables.h"
#include "core/plan/names.h"

#include <algorithm>

namespace fl::listing {
namespace {

// What the worst of all says of this conductor; empty when no condition sets it or it is not in the network.
std::optional<Current> lasting_current(const assess::Assessment& a, int branch) {
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

std::string spoken(plan::Origin origin) {
    std::string word(plan::name(origin));
    std::replace(word.begin(), word.end(), '_', ' ');
    return word;
}

/// "PVC 70 °C" for PVC70.
std::string spoken(const catalogue::Insulation& insulation) {
    std::string word = insulation.id;
    word.resize(word.find_last_not_of("0123456789") + 1);
    return word + ' ' + text(insulation.limit);
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
        row.push_back(signal ? "" : cell(lasting_current(a, branch), style));
        row.push_back(cell(may_carry(a, branch), style));
        out.rows.push_back(std::move(row));
    }
    return out;
}

Listing cable_list(const assess::Assessment& a, Style style) {
    Listing out = cables(a, style);
    std::size_t r = 0; // rows stand in the order of the document
    for (const plan::Conductor& w : a.installation.conductors) {
        std::vector<std::string>& row = out.rows[r++];
        const int branch = a.network.branch_of(w.id);
        for (std::size_t c = 0; c < out.columns.size(); ++c) {
            std::string& shown = row[c];
            const std::string& title = out.columns[c].title;
            if (title == "role" && w.role == plan::Role::power) shown.clear();
            if (title == "insulation") shown = spoken(catalogue::insulation_of(a.installation, w));
            if (title == "origin") shown = w.origin == plan::Origin::added ? "" : spoken(w.origin);
            if (title == "length" && plan::length_of(a.installation, w))
                shown = significant(plan::length_of(a.installation, w)->si(), 3, style);
            if (title == "greatest current" && w.role == plan::Role::power)
                shown = greatest_current(a, branch, style);
            if (const auto most = may_carry(a, branch); most && title == "may carry")
                shown = three_digits(*most, style);
            if ((title == "from" || title == "to") && shown.ends_with('-'))
                shown.replace(shown.size() - 1, 1, "−");
        }
    }
    std::stable_sort(out.rows.begin(), out.rows.end(),
                     [](const auto& x, const auto& y) { return before(x[0], y[0]); });
    return out;
}

} // namespace fl::listing
