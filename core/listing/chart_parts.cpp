#include "core/listing/chart_parts.h"

#include "core/listing/chains.h"
#include "core/network/part.h"
#include "core/protect/device_curve.h"
#include "core/sizing/endure.h"

#include <algorithm>
#include <cmath>

namespace fl::listing {
namespace {

using network::BranchKind;

constexpr Time adiabatic_to = Time::si(5); // IEC 60364-4-43: without cooling up to 5 s

std::string cited(const catalogue::Source& source) {
    const bool says = source.citation.find(source.basis) != std::string::npos; // "from memory"
    return says ? source.citation : source.citation + " (" + source.basis + ")";
}

} // namespace

protect::Opening opening(const ChartDevice& device, Current current) {
    if (!device.lacks.empty()) return {};
    return protect::opening(*device.type, *device.rating, current);
}

void add_device(Chart& to, const assess::Assessment& a, int branch) {
    const network::Branch& b = a.network.branches[at(branch)];
    ChartDevice d;
    d.branch = branch;
    d.subject = subject_of(b);
    d.name = branch_name(a, branch);
    d.rating = protect::device_rating(a.installation, b);
    std::string type;
    if (const plan::Way* way = network::way_of(a.installation, b)) type = way->type;
    if (const auto* fuse = network::parameters<plan::Fuse>(a.installation, b)) type = fuse->type;
    d.type = catalogue::fuse_type(type);
    const auto* of_kind = d.type;
    d.own = protect::own_type(a.installation, b);
    if (d.own) d.type = d.own.get();
    d.what = d.rating ? text(*d.rating) : std::string("rating not known");
    if (of_kind)
        d.what += " " + of_kind->name;
    else if (b.kind == BranchKind::breaker)
        d.what += " circuit-breaker";
    if (!d.rating)
        d.lacks = "its rating is not known";
    else if (!d.type || catalogue::gates_for(*d.type, *d.rating).empty())
        d.lacks = b.kind == BranchKind::breaker ? "no curve of this circuit-breaker is known"
                                                : "no curve of its type and rating is known";
    else
        d.source = cited(d.type->curve_source);
    if (!d.lacks.empty()) to.notes.push_back(d.name + " is not drawn: " + d.lacks + ".");
    to.devices.push_back(std::move(d));
}

void add_conductor(Chart& to, const assess::Assessment& a, int branch) {
    const network::Branch& b = a.network.branches[at(branch)];
    const plan::Conductor* w = a.installation.conductors.find(b.conductor);
    if (b.kind != BranchKind::conductor || !w) return;
    if (!w->size) {
        to.notes.push_back(w->designation + " is not drawn: its size is not known.");
        return;
    }
    ChartConductor one;
    one.conductors = {w->id};
    one.wire = *w->size;
    one.lie = catalogue::lie_of(a.installation, *w);
    if (const Current may = a.may_carry[at(branch)]; may > Current{}) one.lasting = may;
    for (ChartConductor& other : to.conductors)
        if (other.wire == one.wire && other.lie.insulation == one.lie.insulation &&
            other.lie.ambient == one.lie.ambient && other.lasting == one.lasting) {
            other.conductors.push_back(w->id);
            return;
        }
    one.size = text(*w->size);
    one.what = one.size + " " + one.lie.insulation->name;
    if (one.lie.insulation->k_A_sqrt_s_per_mm2)
        one.source = cited(one.lie.insulation->source);
    else
        to.notes.push_back(w->designation + " (" + one.lie.insulation->name +
                           "): what it stands in a short is not known.");
    to.conductors.push_back(std::move(one));
}

void trace(ChartDevice& d, const Chart& frame) {
    if (!d.lacks.empty()) return;
    const std::vector<catalogue::Gate> gates = catalogue::gates_for(*d.type, *d.rating);
    // Where it holds without a least time being printed that of the next gate stands: it may open above it.
    if (const Current holds = *d.rating * gates.front().multiple; !gates.front().least)
        if (const auto least = opening(d, holds).least) d.least.push_back({holds, *least});
    for (const catalogue::Gate& gate : gates) {
        const Current current = *d.rating * gate.multiple;
        const protect::Opening o = opening(d, current);
        if (gate.least && o.least) d.least.push_back({current, *o.least});
        if (gate.greatest && o.greatest) d.greatest.push_back({current, *o.greatest});
    }
    // Beyond the last gate it is straight again; right behind it a printed I2t may take over.
    constexpr double right_behind = 1 + 1e-5;
    const auto go_on = [&](std::vector<ChartPoint>& edge, std::optional<Time> protect::Opening::*side) {
        if (edge.empty()) return;
        for (const Current current : {edge.back().current * right_behind, frame.to})
            if (const auto time = opening(d, current).*side; time && current > edge.back().current)
                edge.push_back({current, *time});
    };
    go_on(d.least, &protect::Opening::least);
    go_on(d.greatest, &protect::Opening::greatest);
}

void trace(ChartConductor& one, const Chart& frame) {
    const auto heat = protect::withstand(*one.lie.insulation, one.wire.area);
    if (!heat) return;
    const auto at_time = [&](Time time) { return Current::si(std::sqrt(heat->si() / time.si())); };
    one.adiabatic = {{at_time(adiabatic_to), adiabatic_to}, {at_time(frame.shortest), frame.shortest}};
    // From 5 s on down to the current that it stands for hours.
    constexpr double step = 0.96;
    Current current = one.adiabatic.front().current, lasts;
    while (current > frame.from) {
        const auto time = endures(one, current);
        if (!time) return;
        if (*time > frame.longest) {
            lasts = current;
            break;
        }
        one.slower.push_back({current, std::max(*time, adiabatic_to)});
        current = current * step;
    }
    for (int halved = 0; lasts > Current{} && !one.slower.empty() && halved < 20; ++halved) {
        const Current middle = (lasts + one.slower.back().current) / 2;
        const auto time = endures(one, middle);
        if (time && *time <= frame.longest)
            one.slower.push_back({middle, *time});
        else
            lasts = middle;
    }
    std::reverse(one.slower.begin(), one.slower.end());
}

std::optional<Time> endures(const ChartConductor& one, Current current) {
    return sizing::endures(one.wire, one.lie, current);
}

} // namespace fl::listing
