#include "core/catalogue/lie.h"
#include "core/listing/cells.h"
#include "core/listing/tables.h"
#include "core/quantity/limit.h"

#include <algorithm>
#include <array>

namespace fl::listing {
namespace {

constexpr std::array<std::string_view, 5> all_demands{"current", "protection", "drop", "minimum",
                                                      "withstand"};

// Those that any conductor has: no column stands empty.
std::vector<std::string_view> demands_met(const std::vector<sizing::Size>& sizes) {
    std::vector<std::string_view> met;
    for (const std::string_view code : all_demands)
        if (std::any_of(sizes.begin(), sizes.end(), [&](const sizing::Size& size) {
                return std::any_of(size.demands.begin(), size.demands.end(),
                                   [&](const sizing::Demand& demand) { return demand.code == code; });
            }))
            met.push_back(code);
    return met;
}

// In the header's unit where it is of that kind, else with its own.
std::string size_cell(const std::optional<WireSize>& size, bool gauges, Style style) {
    if (!size) return "none";
    if (size->awg.has_value() != gauges) return text(*size, style);
    return gauges ? size->awg->name() : area_cell(size->area, style);
}

std::string demand_cell(const sizing::Size& size, std::string_view code, bool gauges, Style style) {
    for (const sizing::Demand& demand : size.demands)
        if (demand.code == code) return size_cell(demand.least, gauges, style);
    return {};
}

} // namespace

bool too_small(const plan::Conductor& conductor, const sizing::Size& size) {
    if (!size.least) return false;
    return !conductor.size || above(size.least->area, (*conductor.size).area);
}

Listing sizes(const assess::Assessment& a, Style style) {
    const bool gauges = catalogue::rules_of(a.installation).gauges;
    const std::string unit = gauges ? "AWG" : "mm²";
    Listing out{"Sizes", {left("conductor"), left("from"), left("to"), right("drawn", unit)}, {}};
    const std::vector<std::string_view> demands = demands_met(a.sizes);
    for (const std::string_view code : demands) out.columns.push_back(right("by " + std::string(code), unit));
    out.columns.push_back(right("least", unit));
    out.columns.push_back(left("governed by"));
    out.columns.push_back(left("verdict"));
    for (std::size_t b = 0; b < a.sizes.size(); ++b) {
        const sizing::Size& size = a.sizes[b];
        const plan::Conductor* w = a.installation.conductors.find(a.network.branches[b].conductor);
        if (!w || size.demands.empty()) continue;
        std::vector<std::string> row{
            w->designation, plan::text(a.installation, w->from), plan::text(a.installation, w->to),
            w->size ? size_cell(w->size.value, gauges, style) : std::string(not_known)};
        for (const std::string_view code : demands) row.push_back(demand_cell(size, code, gauges, style));
        row.push_back(size_cell(size.least, gauges, style));
        row.push_back(size.governing);
        std::string verdict;
        if (!size.least)
            verdict = "no size in the table is enough";
        else if (!w->size)
            verdict = "to be chosen";
        else if (too_small(*w, size))
            verdict = w->size_locked ? "too small, locked" : "too small";
        row.push_back(std::move(verdict));
        out.rows.push_back(std::move(row));
    }
    return out;
}

} // namespace fl::listing
