#include "core/listing/chart_parts.h"

#include "core/catalogue/lie.h"
#include "core/listing/chains.h"
#include "core/network/part.h"

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
    d.what = d.rating ? text(*d.rating) : std::string("rating not known");
    if (d.type)
        d.what += " " + d.type->name;
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
    one.insulation = &catalogue::insulation_of(a.installation, *w);
    one.area = (*w->size).area;
    if (const Current may = a.may_carry[at(branch)]; may > Current{}) one.lasting = may;
    for (ChartConductor& other : to.conductors)
        if (other.area == one.area && other.insulation == one.insulation && other.lasting == one.lasting) {
            other.conductors.push_back(w->id);
            return;
        }
    one.size = text(*w->size);
    one.what = one.size + " " + one.insulation->name;
    if (one.insulation->k_A_sqrt_s_per_mm2)
        one.source = cited(one.insulation->source);
    else
        to.notes.push_back(w->designation + ": what its insulation (" + one.insulation->name +
                           ") stands in a short is not known.");
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
    const protect::Opening last = opening(d, frame.to);
    if (last.least && !d.least.empty() && d.least.back().current < frame.to)
        d.least.push_back({frame.to, *last.least});
    if (last.greatest && !d.greatest.empty() && d.greatest.back().current < frame.to)
        d.greatest.push_back({frame.to, *last.greatest});
}

void trace(ChartConductor& one, const Chart& frame) {
    const auto heat = protect::withstand(*one.insulation, one.area);
    if (!heat) return;
    const auto at_time = [&](Time time) { return Current::si(std::sqrt(heat->si() / time.si())); };
    const Current turns = at_time(adiabatic_to);
    one.adiabatic = {{turns, adiabatic_to}, {at_time(frame.shortest), frame.shortest}};
    if (one.lasting && *one.lasting < turns)
        one.slower = {{*one.lasting, *heat / (*one.lasting * *one.lasting)}, {turns, adiabatic_to}};
}

} // namespace fl::listing
