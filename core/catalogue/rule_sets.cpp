#include "core/catalogue/load.h"
#include "core/plan/names.h"
#include "core/quantity/parse.h"

#include <algorithm>
#include <set>

namespace fl::catalogue {
namespace {

struct Sets {
    std::vector<RuleSet> all;
    std::vector<std::string_view> ids;
    std::set<std::pair<std::string, plan::Purpose>> critical;
};

RuleSet* find_in(Sets& sets, const std::string& id) {
    for (RuleSet& set : sets.all)
        if (set.id == id) return &set;
    return nullptr;
}

// Copies the limits that every assessment asks for into named fields.
void settle(RuleSet& set) {
    const auto length = [&](std::string_view id) -> std::optional<Length> {
        const Limit* limit = set.limit(id);
        return limit && limit->value ? std::optional(Length::si(*limit->value)) : std::nullopt;
    };
    set.unprotected = {length("unprotected.battery"), length("unprotected.other"),
                       length("unprotected.battery_enclosed")};
    if (const Limit* l = set.limit("device.multiple_of_ampacity"); l && l->value)
        set.device_multiple = *l->value;
    if (const Limit* l = set.limit("ambient.general"); l && l->value)
        set.ambient = Temperature::celsius(*l->value);
    if (const Permission* p = set.permission("starting_circuit_unprotected"))
        set.starting_exempt = p->allowed;
    if (const Permission* p = set.permission("body_return")) set.body_return = p->allowed;
}

const Sets& sets() {
    static const Sets loaded = [] {
        Sets s;
        load("rules/rule_sets.json", [&](json::Reader& root, const Citations& citations) {
            for (json::Reader& row : root.rows("sets")) {
                RuleSet set;
                set.id = row.text("id");
                set.name = row.text("name");
                set.about = row.text("about");
                set.nominal = row.quantity<Voltage>("nominal", 6, 60);
                set.gauges = row.text("sizes") == "awg";
                set.insulation = row.text("insulation");
                const std::string table = row.text("ampacity");
                for (std::string_view column : ampacity_table_ids())
                    if (column.starts_with(table + "/") && set.ampacity.empty()) set.ampacity = column;
                if (const Insulation* own = insulation(set.insulation);
                    own && own->ampacity.starts_with(table))
                    set.ampacity = own->ampacity;
                for (json::Reader& kind : row.items("kinds")) set.kinds.push_back(kind.text());
                for (json::Reader& document : row.items("follows")) set.follows.push_back(document.text());
                set.source = source_of(row, citations);
                s.all.push_back(std::move(set));
            }
            for (json::Reader& row : root.rows("limits")) {
                RuleSet* set = find_in(s, row.text("set"));
                Limit limit;
                limit.id = row.text("id");
                const std::string unit = row.text("unit");
                const bool area = unit == "mm2";
                if (row.has_value("value")) limit.value = row.number("value", 0, 1e4);
                limit.must = row.text("strength") == "must";
                if (row.has_value("clause")) limit.clause = row.text("clause");
                limit.source = {
                    citations.contains(row.text("source")) ? citations.find(row.text("source"))->second : "",
                    row.text("basis")};
                if (!set) {
                    row.report("set", "catalogue.set", "there is no such rule set", "name one of the sets");
                    continue;
                }
                if (area && limit.value) {
                    WireSize size = WireSize::mm2(*limit.value);
                    if (row.has_value("size"))
                        if (const auto gauge = parse_size(row.text("size"))) size = *gauge;
                    if (limit.id == "area.single") set->least_single = size;
                    if (limit.id == "area.multicore") set->least_in_cable = size;
                    if (limit.id == "area.signal") set->least_signal = size;
                    limit.value = *limit.value / 1e6;
                }
                set->limits.push_back(std::move(limit));
            }
            for (json::Reader& row : root.rows("permissions"))
                if (RuleSet* set = find_in(s, row.text("set")))
                    set->permissions.push_back(
                        {row.text("id"), row.boolean("allowed"), row.text("strength") == "must",
                         row.has_value("clause") ? row.text("clause") : "", source_of(row, citations)});
            for (json::Reader& row : root.rows("colours"))
                if (RuleSet* set = find_in(s, row.text("set")))
                    (row.text("pole") == "plus" ? set->plus_colour : set->minus_colour) =
                        row.text("preferred");
            for (json::Reader& row : root.rows("critical_loads"))
                s.critical.emplace(row.text("set"), static_cast<plan::Purpose>(
                                                        row.one_of("purpose", plan::names<plan::Purpose>())));
        });
        for (RuleSet& set : s.all) {
            settle(set);
            if (set.ampacity.empty())
                note_fault("rules/rule_sets.json: " + set.id + " names no ampacity table");
        }
        for (const RuleSet& set : s.all) s.ids.push_back(set.id);
        return s;
    }();
    return loaded;
}

} // namespace

const Limit* RuleSet::limit(std::string_view wanted) const {
    const auto found =
        std::find_if(limits.begin(), limits.end(), [&](const Limit& l) { return l.id == wanted; });
    return found == limits.end() ? nullptr : &*found;
}

const Permission* RuleSet::permission(std::string_view wanted) const {
    const auto found = std::find_if(permissions.begin(), permissions.end(),
                                    [&](const Permission& p) { return p.id == wanted; });
    return found == permissions.end() ? nullptr : &*found;
}

const RuleSet* rule_set(std::string_view id) {
    for (const RuleSet& set : sets().all)
        if (set.id == id) return &set;
    return nullptr;
}
std::vector<std::string_view> rule_set_ids() {
    return sets().ids;
}

Cited<Ratio> drop_limit(const RuleSet& rules, plan::Purpose purpose) {
    const bool critical = sets().critical.contains({rules.id, purpose});
    if (const Limit* limit = rules.limit(critical ? "drop.critical" : "drop.other"); limit && limit->value)
        return {Ratio::si(*limit->value), limit->source};
    return default_of<Ratio>("drop." + std::string(plan::name(purpose)));
}

} // namespace fl::catalogue
