#include "core/catalogue/load.h"
#include "core/plan/names.h"

#include <algorithm>
#include <array>
#include <map>

namespace fl::catalogue {
namespace {

using Properties = std::map<std::string, Cited<double>, std::less<>>;

ChemistryData from(plan::Chemistry chemistry, const Properties& of,
                   std::vector<std::pair<double, Voltage>> rest) {
    const auto value = [&](std::string_view name) {
        const auto found = of.find(name);
        return found == of.end() ? 0.0 : found->second.value;
    };
    ChemistryData data;
    data.chemistry = chemistry;
    data.cells_per_12V = static_cast<int>(value("cells_per_12V"));
    data.rest_per_cell = std::move(rest);
    std::sort(data.rest_per_cell.begin(), data.rest_per_cell.end());
    data.resistance_ohm_Ah_per_12V = value("resistance_times_capacity");
    data.charge_K_ohm_Ah_per_12V = value("charge_resistance_constant");
    data.fault_resistance_ohm_Ah_per_12V = value("fault_resistance_times_capacity");
    data.charge_limit_C =
        value("charge_rate_greatest") > 0 ? value("charge_rate_greatest") : value("charge_rate");
    data.charge_rate_C = value("charge_rate");
    data.absorption_per_cell = Voltage::si(value("absorption"));
    data.float_per_cell = Voltage::si(value("float"));
    data.usable_share = value("usable");
    if (const auto found = of.find("resistance_times_capacity"); found != of.end())
        data.source = found->second.source;
    if (data.cells_per_12V < 1 || data.rest_per_cell.size() < 2 || data.resistance_ohm_Ah_per_12V <= 0)
        note_fault("catalogue/batteries.json: " + std::string(plan::name(chemistry)) + " is not complete");
    return data;
}

const std::array<ChemistryData, 4>& all() {
    static const std::array<ChemistryData, 4> loaded = [] {
        std::array<Properties, 4> properties;
        std::array<std::vector<std::pair<double, Voltage>>, 4> rest;
        load("catalogue/batteries.json", [&](json::Reader& root, const Citations& citations) {
            for (json::Reader& row : root.rows("properties")) {
                const auto k = row.one_of("chemistry", plan::names<plan::Chemistry>());
                properties[k][row.text("property")] = {row.number("value"), source_of(row, citations)};
            }
            for (json::Reader& row : root.rows("rest")) {
                const auto k = row.one_of("chemistry", plan::names<plan::Chemistry>());
                rest[k].emplace_back(row.number("state_of_charge", 0, 1),
                                     Voltage::si(row.number("rest_V_per_cell", 0.5, 5)));
            }
        });
        std::array<ChemistryData, 4> made;
        for (std::size_t k = 0; k < made.size(); ++k)
            made[k] = from(static_cast<plan::Chemistry>(k), properties[k], std::move(rest[k]));
        return made;
    }();
    return loaded;
}

} // namespace

const ChemistryData& chemistry(plan::Chemistry chemistry) {
    return all()[static_cast<std::size_t>(chemistry)];
}

Voltage rest_voltage(plan::Chemistry of, Voltage nominal, Ratio state_of_charge) {
    const ChemistryData& data = chemistry(of);
    const auto& rows = data.rest_per_cell;
    const double cells = data.cells_per_12V * nominal.si() / 12;
    const double s = state_of_charge.si();
    if (s <= rows.front().first) return rows.front().second * cells;
    for (std::size_t i = 1; i < rows.size(); ++i)
        if (s <= rows[i].first) {
            const double t = (s - rows[i - 1].first) / (rows[i].first - rows[i - 1].first);
            return (rows[i - 1].second * (1 - t) + rows[i].second * t) * cells;
        }
    return rows.back().second * cells;
}

} // namespace fl::catalogue
