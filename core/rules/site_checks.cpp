#include "core/plan/names.h"
#include "core/rules/list.h"

#include <algorithm>

namespace fl::rules {
namespace {

using plan::Chemistry;

/// Further conditions of a site check's record, by name.
bool holds(const std::string& where, const plan::Component& c) {
    const auto* battery = std::get_if<plan::Battery>(&c.with);
    if (where.empty()) return true;
    if (where == "lead") return battery && battery->chemistry != Chemistry::lifepo4;
    if (where == "lithium") return battery && battery->chemistry == Chemistry::lifepo4;
    if (where == "service") return battery && battery->role == plan::BatteryRole::service;
    if (where == "plus_bar") {
        const auto* bar = std::get_if<plan::Busbar>(&c.with);
        return !bar || bar->polarity == plan::Polarity::plus;
    }
    return false;
}

bool asked_of(const Record& row, const plan::Component& c) {
    const auto kind = plan::name(c.kind());
    return std::find(row.kinds.begin(), row.kinds.end(), kind) != row.kinds.end() && holds(row.where, c);
}

} // namespace

std::vector<SiteCheck> site_checks(const Facts& facts) {
    std::vector<SiteCheck> all;
    for (const Record& row : records()) {
        if (row.list != RecordList::site_checks) continue;
        SiteCheck check;
        check.code = row.code;
        if (row.where == "passes") { // runs that pass something
            for (const auto& run : facts.installation.runs)
                if (!run.passes.empty())
                    check.subjects.push_back({plan::Subject::Kind::run, run.id.value, {}});
        } else {
            for (const auto& c : facts.installation.components)
                if (c.origin != plan::Origin::removed && asked_of(row, c))
                    check.subjects.push_back(plan::Subject::of(c.id));
        }
        if (!check.subjects.empty()) all.push_back(std::move(check));
    }
    return all;
}

} // namespace fl::rules
