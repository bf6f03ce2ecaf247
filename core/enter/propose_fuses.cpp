#include "core/enter/propose.h"
#include "core/protect/curve.h"
#include "core/quantity/limit.h"

#include <algorithm>
#include <cmath>

namespace fl::enter {

using namespace plan;
using catalogue::default_choice;
using catalogue::default_number;

namespace {

// The load that alone hangs on a way, or null.
const Component* load_at(const Drawing& d, const TerminalRef& way) {
    const Component* found = nullptr;
    for (const WholeLead& lead : d.leads)
        for (const int end : {0, 1}) {
            if (lead.ends[end] != way) continue;
            const Component* c = d.in.components.find(lead.ends[1 - end].component);
            if (found || !c || c->kind() != Kind::load) return nullptr;
            found = c;
        }
    return found;
}

// At its mains side's full power, just before it stops; constant power as a load's.
Current at_lowest(const Drawing& d, const Inverter& inverter) {
    const auto& power = inverter.used_power ? inverter.used_power : inverter.rated_power;
    if (!power) return 0_A;
    const double efficiency =
        (inverter.efficiency ? *inverter.efficiency
                             : catalogue::default_of<Ratio>("inverter.efficiency_full").value)
            .si();
    const Voltage lowest = catalogue::default_of<Voltage>("circuit.lowest_supply").value * (d.nominal / 12_V);
    return *power / (inverter.stop_voltage ? std::max(*inverter.stop_voltage, lowest) : lowest) / efficiency;
}

// What a lead's unit may take or give by itself, whatever else is joined yet.
Current of_unit(const Drawing& d, const WholeLead& lead) {
    Current most;
    for (const TerminalRef& end : lead.ends) {
        const Component* c = d.in.components.find(end.component);
        if (!c) continue;
        const auto take = [&](const Entered<Current>& i) {
            if (i) most = std::max(most, *i);
        };
        if (const auto* charger = std::get_if<DriveCharger>(&c->with)) take(charger->output_current);
        if (const auto* charger = std::get_if<MainsCharger>(&c->with)) take(charger->output_current);
        if (const auto* sun = std::get_if<SolarController>(&c->with)) take(sun->output_current);
        if (const auto* inverter = std::get_if<Inverter>(&c->with))
            most = std::max(most, at_lowest(d, *inverter));
        if (const auto* load = std::get_if<Load>(&c->with))
            most = std::max(most, lasting_current(*load, d.nominal));
    }
    return most;
}

// What a link must carry for good, and what it must bear for a while.
struct Surge {
    Current current;
    Time lasts;
};
struct Flow {
    Current carried;
    std::vector<Surge> surges;
};
// Seconds of an inverter's surge a link bears by its curve. What else is called short may take minutes.
Flow flow_through(const assess::Assessment& a, std::size_t branch) {
    Flow flow;
    flow.carried = a.envelope.branch_current[branch].value * default_number("fuse.choice_factor").value;
    const Time seconds = catalogue::default_of<Time>("inverter.surge_time").value;
    for (const condition::Solved& s : a.conditions) {
        const auto& lasts = s.condition.duration;
        const int r = s.setup.map.resistor_of_branch[branch];
        if (!lasts || r < 0 || !s.solution.usable) continue;
        const Current i = Current::si(std::fabs(s.solution.resistor_A[static_cast<std::size_t>(r)]));
        if (above(*lasts, seconds))
            flow.carried = std::max(flow.carried, i);
        else
            flow.surges.push_back({i, *lasts});
    }
    return flow;
}

// The smallest rating of a type for that.
std::optional<Current> rating_for(const catalogue::FuseType& type, const Flow& flow) {
    for (const Current rating : type.ratings) {
        if (above(flow.carried, rating)) continue;
        const bool bears = std::all_of(flow.surges.begin(), flow.surges.end(), [&](const Surge& surge) {
            if (!above(surge.current, rating)) return true;
            const auto opens = protect::opening(type, rating, surge.current);
            return opens.least && !above(surge.lasts, *opens.least);
        });
        if (bears) return rating;
    }
    return {};
}

void rate(Fuse& fuse, const Flow& flow) {
    const std::string_view strip = default_choice("fuse.strip"), large = default_choice("fuse.strip_above");
    const bool is_strip = fuse.type == strip || fuse.type == large;
    if (is_strip) fuse.type = strip;
    for (const bool again : {false, true}) {
        const auto* type = catalogue::fuse_type(fuse.type);
        if (!type) return;
        if (const auto rating = rating_for(*type, flow)) {
            fuse.rating = {*rating, From::assumed};
            return;
        }
        if (again || !is_strip) { // none so large: the largest there is, and the findings say so
            if (!type->ratings.empty()) fuse.rating = {type->ratings.back(), From::assumed};
            return;
        }
        fuse.type = large;
    }
}

} // namespace

void rate_ways(Drawing& d) {
    const Table<Component> all = d.in.components;
    for (Component c : all) {
        auto* box = std::get_if<FuseBox>(&c.with);
        if (!box || !is_ours(c.origin)) continue;
        for (std::size_t n = 0; n < box->ways.size(); ++n) {
            Way& way = box->ways[n];
            const auto* type = catalogue::fuse_type(way.type);
            if (!type || way.rating.from != From::assumed) continue;
            const Component* load = load_at(d, {c.id, terminals(c.with)[n + 1]});
            if (!load) continue;
            const auto& with = std::get<Load>(load->with);
            if (const auto rating = way_rating(*type, with, load->name, d.nominal))
                way.rating = {*rating, From::assumed};
        }
        d.in.components = d.in.components.with(std::move(c));
    }
}

bool rate_fuses(Drawing& d, const assess::Assessment& flows, Rating how) {
    const double factor = default_number("fuse.choice_factor").value;
    bool changed = false;
    for (const WholeLead& lead : d.leads) {
        if (lead.role == Role::signal) continue; // its fuse is the usual one
        for (const ComponentId id : lead.devices) {
            Component c = *d.in.components.find(id);
            auto* fuse = std::get_if<Fuse>(&c.with);
            if (!fuse || !is_ours(c.origin) || fuse->rating.from != From::assumed) continue;
            const Fuse before = *fuse;
            Flow flow;
            for (std::size_t b = 0; b < flows.network.branches.size(); ++b)
                if (flows.network.branches[b].component == id) flow = flow_through(flows, b);
            flow.carried = std::max(flow.carried, of_unit(d, lead) * factor);
            rate(*fuse, flow);
            if (how == Rating::larger_only && before.rating && !above(*fuse->rating, *before.rating))
                continue;
            changed = changed || *fuse != before;
            d.in.components = d.in.components.with(std::move(c));
        }
    }
    return changed;
}

} // namespace fl::enter
