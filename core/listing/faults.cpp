#include "core/listing/cells.h"
#include "core/listing/tables.h"

namespace fl::listing {

Listing faults(const assess::Assessment& a, Style style) {
    Listing out{
        "Short-circuit currents",
        {left("between return and"), right("largest", "A"), right("least", "A"), left("largest from")},
        {}};
    for (std::size_t n = 0; n < a.faults.size(); ++n) {
        const fault::AtNode& at = a.faults[n];
        if (!at.largest) continue;
        std::string from;
        for (const fault::Share& share : at.largest->shares) {
            if (!from.empty()) from += ", ";
            from += part_name(a.installation, share.source) + " " + text(share.current, style);
        }
        out.rows.push_back({node_name(a.installation, a.network.nodes[n]), cell(at.largest->total, style, 0),
                            at.least ? cell(at.least->total, style, 0) : std::string(not_known),
                            std::move(from)});
    }
    return out;
}

} // namespace fl::listing
