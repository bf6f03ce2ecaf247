#include "core/enter/propose.h"
#include "core/sizing/sizing.h"

#include <algorithm>

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
        if (const auto* load = std::get_if<Load>(&c->with))
            most = std::max(most, lasting_current(*load, d.nominal));
    }
    return most;
}

void rate(Fuse& fuse, Current least) {
    const std::string_view strip = default_choice("fuse.strip"), large = default_choice("fuse.strip_above");
    const bool is_strip = fuse.type == strip || fuse.type == large;
    if (is_strip) fuse.type = strip;
    for (const bool again : {false, true}) {
        const auto* type = catalogue::fuse_type(fuse.type);
        if (!type) return;
        if (const auto rating = sizing::next_rating(*type, least)) {
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

void rate_fuses(Drawing& d, const assess::Assessment& flows) {
    const double factor = default_number("fuse.choice_factor").value;
    for (const WholeLead& lead : d.leads) {
        if (lead.role == Role::signal) continue; // its fuse is the usual one
        for (const ComponentId id : lead.devices) {
            Component c = *d.in.components.find(id);
            auto* fuse = std::get_if<Fuse>(&c.with);
            if (!fuse || !is_ours(c.origin) || fuse->rating.from != From::assumed) continue;
            Current least = of_unit(d, lead) * factor;
            for (std::size_t b = 0; b < flows.network.branches.size(); ++b)
                if (flows.network.branches[b].component == id)
                    least = std::max({least, flows.envelope.branch_current[b].value * factor,
                                      flows.envelope.branch_short_current[b].value});
            rate(*fuse, least);
            d.in.components = d.in.components.with(std::move(c));
        }
    }
}

} // namespace fl::enter
