#include "core/catalogue/load.h"

#include <algorithm>
#include <cmath>

namespace fl::catalogue {
namespace {

struct Printed {
    double limit_C, ambient_C, factor;
    Source source;
};
struct Group {
    std::string table;
    std::int64_t from, to; // to = 0: and more
    double factor;
    Source source;
};
struct Stretch {
    double length_m, factor;
    Source source;
};
struct Factors {
    std::vector<Printed> ambient;
    std::vector<Group> grouping;
    std::vector<Stretch> insulation; // shortest first
    Source formula;
};

const Factors& factors() {
    static const Factors loaded = [] {
        Factors f;
        load("catalogue/factors.json", [&](json::Reader& root, const Citations& citations) {
            for (json::Reader& row : root.rows("formulas")) f.formula = source_of(row, citations);
            for (json::Reader& row : root.rows("ambient"))
                f.ambient.push_back({row.number("limit_C", 0, 300), row.number("ambient_C", -40, 300),
                                     row.number("factor", 0, 2), source_of(row, citations)});
            for (json::Reader& row : root.rows("grouping")) {
                const auto to = row.has_value("to_count") ? row.integer("to_count", 1, 1000) : 0;
                f.grouping.push_back({row.text("table"), row.integer("from_count", 1, 1000), to,
                                      row.number("factor", 0, 1), source_of(row, citations)});
            }
            for (json::Reader& row : root.rows("in_insulation"))
                f.insulation.push_back(
                    {row.number("length_m", 0, 100), row.number("factor", 0, 1), source_of(row, citations)});
        });
        return f;
    }();
    return loaded;
}

} // namespace

Cited<double> ambient_factor(Temperature limit, Temperature reference, Temperature ambient) {
    const double room = limit.celsius() - ambient.celsius(),
                 table_room = limit.celsius() - reference.celsius();
    if (room <= 0 || table_room <= 0) return {0, factors().formula};
    if (ambient == reference) return {1, factors().formula};
    for (const Printed& row : factors().ambient)
        if (row.limit_C == limit.celsius() && row.ambient_C == ambient.celsius() && reference.celsius() == 30)
            return {row.factor, row.source};
    return {std::sqrt(room / table_room), factors().formula};
}

Cited<double> grouping_factor(int count) {
    const Group* last = nullptr;
    for (const Group& row : factors().grouping) {
        if (row.table != "iec60364-bunched") continue;
        last = &row;
        if (count <= row.from || (row.to != 0 && count <= row.to) || row.to == 0) break;
    }
    if (!last) return {1, {}};
    return {last->factor, last->source};
}

Cited<double> in_insulation_factor(Length stretch) {
    // A length between two rows takes the longer row's factor; beyond the last row, the last.
    const auto& rows = factors().insulation;
    if (stretch.si() <= 0 || rows.empty()) return {1, {}};
    for (const Stretch& row : rows)
        if (stretch.si() <= row.length_m * (1 + 1e-9)) return {row.factor, row.source};
    return {rows.back().factor, rows.back().source};
}

} // namespace fl::catalogue
