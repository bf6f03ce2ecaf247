#include "core/catalogue/load.h"
#include "core/catalogue/symbols.h"
#include "core/catalogue/usual_loads.h"
#include "core/plan/names.h"

#include <array>

namespace fl::catalogue {

const KindInfo& kind_info(plan::Kind kind) {
    static constexpr std::size_t count = static_cast<std::size_t>(plan::Kind::unit) + 1;
    static const std::array<KindInfo, count> all = [] {
        std::array<KindInfo, count> made;
        load("catalogue/kinds.json", [&](json::Reader& root, const Citations& citations) {
            for (json::Reader& row : root.rows("rows")) {
                const auto k = row.one_of("kind", plan::names<plan::Kind>());
                made[k] = {static_cast<plan::Kind>(k), row.text("letter"), row.text("name"),
                           row.text("symbol")};
                source_of(row, citations);
            }
        });
        for (std::size_t k = 0; k < count; ++k)
            if (made[k].letter.empty())
                note_fault("catalogue/kinds.json: no row for " +
                           std::string(plan::name(static_cast<plan::Kind>(k))));
        return made;
    }();
    return all[static_cast<std::size_t>(kind)];
}

std::vector<std::string> faults() {
    // Touch every table once: each notes its own faults on reading.
    metric_sizes();
    insulation_ids();
    ampacity_table_ids();
    ambient_factor(Temperature::celsius(70), Temperature::celsius(30), Temperature::celsius(40));
    fuse_type_ids();
    has_default("");
    default_choice("insulation");
    usual_loads();
    chemistry(plan::Chemistry::lifepo4);
    rule_set_ids();
    kind_info(plan::Kind::battery);
    symbol_names();
    return noted_faults();
}

} // namespace fl::catalogue
