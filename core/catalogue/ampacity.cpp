#include "core/catalogue/load.h"
#include "core/quantity/parse.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace fl::catalogue {
namespace {

struct Insulations {
    std::vector<Insulation> rows;
    std::vector<std::string_view> ids;
};

struct Tables {
    std::vector<AmpacityTable> all; // one a column
    std::vector<std::string_view> ids;
};

const Tables& tables() {
    static const Tables loaded = [] {
        Tables t;
        std::map<std::string, std::vector<std::size_t>> columns; // table id -> its columns in `all`
        load("catalogue/ampacity.json", [&](json::Reader& root, const Citations& citations) {
            for (json::Reader& table : root.rows("tables")) {
                const std::string id = table.text("id"), title = table.text("title");
                const Temperature reference = table.quantity<Temperature>("reference", -20, 100);
                const Source source = source_of(table, citations);
                for (json::Reader& column : table.rows("columns")) {
                    columns[id].push_back(t.all.size());
                    AmpacityTable made;
                    made.id = id + "/" + column.text("id");
                    made.name = title + ", " + column.text("text");
                    made.reference_ambient = reference;
                    made.conductor_limit = column.quantity<Temperature>("limit", 0, 300);
                    made.free_air = column.boolean("free_air");
                    made.source = source;
                    t.all.push_back(std::move(made));
                }
            }
            for (json::Reader& row : root.rows("rows")) {
                const std::string name = row.text("name");
                WireSize size{row.quantity<Area>("area", 0.1, 1000), {}};
                const auto& of = columns[row.text("table")];
                if (!of.empty() && t.all[of[0]].id.starts_with("33cfr"))
                    if (const auto gauge = parse_size(name + " AWG")) size = *gauge;
                std::vector<json::Reader> currents = row.items("current_A", of.size(), of.size());
                for (std::size_t k = 0; k < currents.size() && k < of.size(); ++k)
                    t.all[of[k]].rows.push_back({size, Current::si(currents[k].number(0, 5000))});
            }
        });
        for (AmpacityTable& table : t.all) {
            std::sort(table.rows.begin(), table.rows.end(),
                      [](const auto& a, const auto& b) { return a.size.area < b.size.area; });
            t.ids.push_back(table.id);
        }
        return t;
    }();
    return loaded;
}

const Insulations& insulations() {
    static const Insulations loaded = [] {
        Insulations i;
        load("catalogue/insulations.json", [&](json::Reader& root, const Citations& citations) {
            for (json::Reader& row : root.rows("rows")) {
                Insulation one;
                one.id = row.text("id");
                one.name = row.text("name");
                one.limit = row.quantity<Temperature>("limit", 0, 300);
                if (row.has_value("k_A_sqrt_s_per_mm2"))
                    one.k_A_sqrt_s_per_mm2 = row.maybe_number("k_A_sqrt_s_per_mm2", 10, 300);
                if (row.has_value("short_circuit_C"))
                    one.short_circuit_limit = row.maybe_quantity<Temperature>("short_circuit", 50, 500);
                one.ampacity = row.text("ampacity");
                one.source = source_of(row, citations);
                i.rows.push_back(std::move(one));
            }
        });
        for (const Insulation& one : i.rows) i.ids.push_back(one.id);
        return i;
    }();
    return loaded;
}

} // namespace

const Insulation* insulation(std::string_view id) {
    for (const Insulation& one : insulations().rows)
        if (one.id == id) return &one;
    return nullptr;
}
std::vector<std::string_view> insulation_ids() {
    return insulations().ids;
}

const AmpacityTable* ampacity_table(std::string_view id) {
    for (const AmpacityTable& table : tables().all)
        if (table.id == id) return &table;
    return nullptr;
}
std::vector<std::string_view> ampacity_table_ids() {
    return tables().ids;
}

std::optional<Current> tabulated(const AmpacityTable& table, const WireSize& size) {
    std::optional<Current> found;
    for (const AmpacityTable::Row& row : table.rows) {
        if (size.awg && row.size.awg == size.awg) return row.current;
        if (row.size.area <= size.area * (1 + 1e-9)) found = row.current;
    }
    return found;
}

} // namespace fl::catalogue
