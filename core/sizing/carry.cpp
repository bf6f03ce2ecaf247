#include "core/derive/build.h"
#include "core/quantity/limit.h"
#include "core/sizing/sizing.h"

#include <algorithm>
#include <utility>

namespace fl::sizing {
namespace {

using derive::Derivation;
using derive::Leaf;

constexpr const char* formula = "I_table · f_ambient · f_group · f_laid";
constexpr const char* hot_formula = "√((T_max − T_a) / (T_col − T_ref))";

// Everything that goes into one answer; both the answer and its why are made from this.
struct Carry {
    WireSize row;
    Current tabulated;
    double f_ambient = 1;
    bool by_formula = false; // else printed (or the catalogue's own formula) for the column's limit
    catalogue::Source ambient_source;
    catalogue::Cited<double> f_group, f_laid;
    Current result;
};

std::optional<catalogue::AmpacityTable::Row> row_of(const catalogue::AmpacityTable& table,
                                                    const WireSize& size) {
    const std::optional<Current> current = catalogue::tabulated(table, size);
    if (!current) return {};
    // The row is only for the why: the nearest one that has this current.
    WireSize row = size;
    for (const auto& each : table.rows)
        if (each.current == *current && !(above(each.size.area, size.area))) row = each.size;
    return catalogue::AmpacityTable::Row{row, *current};
}

void set_ambient(Carry& c, const Lie& lie) {
    const Temperature limit = lie.insulation->limit;
    const Temperature column = lie.table->conductor_limit;
    const Temperature reference = lie.table->reference_ambient;
    const auto own = catalogue::ambient_factor(column, reference, lie.ambient);
    c.f_ambient = own.value;
    c.ambient_source = own.source;
    if (limit == column) return;
    // The column's figure where its own conductor could be hotter than this insulation, or where this
    // insulation stands an ambient that the column's does not.
    const double by_limit = ambient_factor(limit, lie.ambient, column, reference);
    const double hot = limit < column ? by_limit : std::max(own.value, std::min(1.0, by_limit));
    c.by_formula = hot != own.value;
    c.f_ambient = hot;
}

std::optional<Carry> carry(const WireSize& size, const Lie& lie) {
    if (!lie.table || !lie.insulation) return {};
    const auto row = row_of(*lie.table, size);
    if (!row) return {};
    Carry c{.row = row->size,
            .tabulated = row->current,
            .ambient_source = {},
            .f_group = catalogue::grouping_factor(lie.loaded_conductors),
            .f_laid = {1, {}},
            .result = {}};
    set_ambient(c, lie);
    if (lie.in_insulation) c.f_laid = catalogue::in_insulation_factor(*lie.in_insulation);
    c.result = Current::si(c.tabulated.si() * c.f_ambient * c.f_group.value * c.f_laid.value);
    return c;
}

Derivation temperature_leaf(const char* symbol, const char* what, Temperature t, Leaf kind,
                            const std::string& source) {
    return derive::leaf(symbol, what, t, kind, source);
}

Derivation why_ambient(const Carry& c, const Lie& lie) {
    std::vector<Derivation> inputs;
    inputs.push_back(temperature_leaf("T_a", "hottest ambient on the way", lie.ambient, Leaf::entered,
                                      "run, places or job rules"));
    inputs.push_back(temperature_leaf("T_max", "limit of the insulation", lie.insulation->limit, Leaf::table,
                                      lie.insulation->source.citation));
    inputs.push_back(temperature_leaf("T_col", "limit the column holds for", lie.table->conductor_limit,
                                      Leaf::table, lie.table->source.citation));
    inputs.push_back(temperature_leaf("T_ref", "ambient the table holds for", lie.table->reference_ambient,
                                      Leaf::table, lie.table->source.citation));
    std::string text = "factor for T_col, T_ref and T_a";
    if (c.by_formula)
        text = lie.insulation->limit > lie.table->conductor_limit
                   ? std::string(hot_formula) + ", not above the larger of 1 and the column's own factor"
                   : hot_formula;
    return derive::step("f_ambient", "ambient", text, Ratio::si(c.f_ambient), std::move(inputs),
                        c.ambient_source.citation);
}

Derivation why_group(const Carry& c, const Lie& lie) {
    auto count =
        derive::leaf("n", "loaded together", std::int64_t{lie.loaded_conductors}, Leaf::entered, "the run");
    return derive::step("f_group", "grouping", "factor for n", Ratio::si(c.f_group.value), {std::move(count)},
                        c.f_group.source.citation);
}

Derivation why_laid(const Carry& c, const Lie& lie) {
    if (!lie.in_insulation)
        return derive::leaf("f_laid", "not inside insulation", Ratio::si(c.f_laid.value), Leaf::entered,
                            "the run");
    auto stretch = derive::leaf("L_in", "longest stretch inside insulation", *lie.in_insulation,
                                Leaf::entered, "the run");
    return derive::step("f_laid", "inside insulation", "factor for L_in", Ratio::si(c.f_laid.value),
                        {std::move(stretch)}, c.f_laid.source.citation);
}

} // namespace

std::optional<Current> may_carry(const WireSize& size, const Lie& lie) {
    const std::optional<Carry> c = carry(size, lie);
    if (!c) return {};
    return c->result;
}

Derivation why_may_carry(const WireSize& size, const Lie& lie) {
    auto own = derive::leaf("S", "size", size, Leaf::entered, "the conductor");
    const std::optional<Carry> c = carry(size, lie);
    if (!c) return derive::not_known("I_z", "may carry", formula, {std::move(own)});
    auto row = derive::leaf("S_row", "row of the table", c->row, Leaf::table, lie.table->source.citation);
    auto tabulated =
        derive::step("I_table", "tabulated current", "row of S, or the next smaller row", c->tabulated,
                     {std::move(own), std::move(row)}, lie.table->name + ": " + lie.table->source.citation);
    return derive::step("I_z", "may carry", formula, c->result,
                        {std::move(tabulated), why_ambient(*c, lie), why_group(*c, lie), why_laid(*c, lie)});
}

std::optional<Temperature> temperature(const WireSize& size, const Lie& lie, Current current) {
    const auto row = lie.table ? row_of(*lie.table, size) : std::nullopt;
    if (!row) return lie.ambient;
    const double grouped = catalogue::grouping_factor(lie.loaded_conductors).value;
    return temperature(current, row->current * grouped, lie.table->conductor_limit,
                       lie.table->reference_ambient, lie.ambient);
}

} // namespace fl::sizing
