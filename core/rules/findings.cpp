#include "core/rules/list.h"

#include <algorithm>
#include <set>

namespace fl::rules {
namespace {

/// One cause, one finding: where `cause` touches the same thing, `effect` is left out.
struct Covers {
    const char* cause;
    const char* effect;
};
constexpr Covers covers[] = {
    {"load-starved", "drop-too-large"},                // no voltage is the worse of the two
    {"conductor-overheats", "drop-too-large"},         // the same wire is too thin for its current
    {"conductor-overheats", "device-above-conductor"}, // and for its fuse
    {"shared-return-thin", "drop-too-large"},
    {"above-battery-electronics", "solve.opens-current"},
    {"device-above-conductor", "opens-too-late"}, // a smaller one opens sooner, too
    {"conductor-overheats", "opens-too-late"},
    {"device-below-current", "opens-in-service"}, // and a larger one later
    {"charger-fuse-by-output", "opens-in-service"},
};

void leave_out_effects(std::vector<Finding>& all) {
    std::map<std::string_view, std::set<plan::Subject>> touched; // by the code of the cause
    for (const Covers& c : covers) touched[c.cause];
    for (const Finding& f : all)
        if (const auto cause = touched.find(f.code); cause != touched.end())
            cause->second.insert(f.subjects.begin(), f.subjects.end());
    std::vector<bool> gone(all.size());
    for (std::size_t e = 0; e < all.size(); ++e)
        for (const Covers& c : covers)
            if (all[e].code == c.effect)
                gone[e] = gone[e] || std::any_of(all[e].subjects.begin(), all[e].subjects.end(),
                                                 [&](const plan::Subject& s) {
                                                     return touched.at(c.cause).contains(s);
                                                 });
    std::size_t n = 0;
    std::erase_if(all, [&](const Finding&) { return gone[n++]; });
}

/// What was there before us: at most a "should", whatever it does.
void soften_as_found(const Facts& facts, std::vector<Finding>& all) {
    for (Finding& f : all) {
        if (f.subjects.empty() || f.subjects.front().kind != plan::Subject::Kind::conductor) continue;
        const auto* c = facts.installation.conductors.find({f.subjects.front().id});
        if (!c || c->origin != plan::Origin::as_found) continue;
        f.must = false;
        f.grade = std::max(f.grade, Grade::against_rules);
    }
}

/// An exception is for a code and a place.
void mark_accepted(const Facts& facts, std::vector<Finding>& all) {
    for (Finding& f : all)
        for (const auto& e : facts.installation.exceptions)
            if (e.code == f.code && !f.subjects.empty() &&
                std::find(e.subjects.begin(), e.subjects.end(), f.subjects.front()) != e.subjects.end())
                f.accepted = e.id;
}

} // namespace

const std::vector<Rule>& rules() {
    static const std::vector<Rule> all{
        unprotected_conductor,
        unprotected_between_batteries,
        small_lead_unprotected,
        fuse_too_far,
        device_above_conductor,
        devices_add_up,
        device_below_current,
        breaking_capacity_low,
        device_voltage_low,
        opening_times,
        never_opens,
        puts_out_live,
        conductor_overheats,
        area_below_minimum,
        shared_return_thin,
        missing_return,
        not_fed,
        load_starved,
        drop_too_large,
        no_operating_point,
        operating,
        relay_on_controlled_alternator,
        run_signal_always_live,
        charge_rate_too_high,
        lithium_charged_cold,
        alternator_overloaded,
        above_battery_electronics,
        inverter_return_bypasses_shunt,
    };
    return all;
}

std::vector<Finding> findings(const Facts& facts) {
    std::vector<Finding> all;
    const Seen seen(facts);
    for (const Rule rule : rules()) rule(seen, all);
    soften_as_found(facts, all);
    leave_out_effects(all);
    std::stable_sort(all.begin(), all.end(), [](const Finding& x, const Finding& y) {
        return x.grade != y.grade ? x.grade < y.grade : x.subjects < y.subjects;
    });
    mark_accepted(facts, all);
    return all;
}

} // namespace fl::rules
