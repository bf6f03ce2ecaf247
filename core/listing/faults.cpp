#include "core/fault/detail.h"
#include "core/listing/cells.h"
#include "core/listing/tables.h"
#include "core/listing/through.h"

namespace fl::listing {
namespace {

std::string limited_by(const assess::Assessment& a, const fault::Limit& limit, Style style) {
    std::string out = limit_name(a, limit);
    if (limit.resistance)
        out += ", " + significant(to_field(*limit.resistance), 3, style) + " mΩ";
    else
        out += " at its limit";
    return out;
}

} // namespace

Listing faults(const assess::Assessment& a, Style style) {
    Listing out{"Short-circuit currents",
                {left("between return and"), right("largest", "A"), right("first peak", "A"),
                 right("after", "ms"), right("least", "A"), left("largest from"), left("most sets it"),
                 left("electronics that open first")},
                {}};
    const auto details = fault::details(a.installation, a.network, a.faults);
    for (std::size_t n = 0; n < a.faults.size(); ++n) {
        const fault::AtNode& at = a.faults[n];
        const auto& detail = details[n];
        if (!at.largest || !detail) continue;
        std::string from, first;
        for (const fault::Share& share : at.largest->shares) {
            if (!from.empty()) from += ", ";
            from += part_name(a.installation, share.source) + " " + text(share.current, style);
        }
        if (at.least)
            for (const plan::ComponentId id : fault::electronics_open(a.installation, *at.least))
                first += (first.empty() ? "" : ", ") + part_name(a.installation, id);
        out.rows.push_back({node_name(a.installation, a.network.nodes[n]), cell(at.largest->total, style, 0),
                            cell(detail->peak, style, 0),
                            detail->to_peak ? fixed(detail->to_peak->si() * 1e3, 1, style) : std::string(),
                            at.least ? cell(at.least->total, style, 0) : std::string(not_known),
                            std::move(from), limited_by(a, detail->limit, style), std::move(first)});
    }
    return out;
}

} // namespace fl::listing
