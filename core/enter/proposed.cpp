#include "core/assess/sizes.h"
#include "core/catalogue/lie.h"
#include "core/enter/enter.h"
#include "core/enter/propose.h"

#include <algorithm>

namespace fl::enter {

using namespace plan;

namespace {

bool anything_open(const Installation& in) {
    const bool wire = std::any_of(in.conductors.begin(), in.conductors.end(), is_open);
    return wire || std::any_of(in.components.begin(), in.components.end(), [](const Component& c) {
               return is_ours(c.origin) && (c.kind() == Kind::fuse || c.kind() == Kind::fuse_box);
           });
}

// Behind thin conductors a charger can't give what it will, and its fuse would be rated for less.
void hold_nothing_back(Drawing& d) {
    const WireSize size = thickest(catalogue::rules_of(d.in).gauges);
    const Table<Conductor> all = d.in.conductors;
    for (const Conductor& w : all)
        if (is_open(w)) set_size(d, w, size);
}

} // namespace

bool is_open(const Conductor& w) {
    return is_ours(w.origin) && !w.size_locked && w.size && w.size.from == From::assumed;
}

WireSize thickest(bool gauges) {
    return gauges ? catalogue::gauge_sizes().back() : catalogue::metric_sizes().back();
}

void set_size(Drawing& d, const Conductor& old, const WireSize& size) {
    if (*old.size == size) return;
    Conductor w = old;
    w.size = {size, From::assumed};
    d.in.conductors = d.in.conductors.with(std::move(w));
}

Installation proposed(const Installation& installation) {
    if (!anything_open(installation)) return installation;
    Drawing drawing{installation, whole_leads(installation), catalogue::nominal_of(installation)};
    rate_ways(drawing);
    hold_nothing_back(drawing);
    const assess::Assessment flows = assess::currents(drawing.in);
    rate_fuses(drawing, flows, Rating::anew);
    choose_sizes(drawing, flows, Rating::anew);
    // Behind real conductors the voltage is lower, and what takes constant power takes more.
    constexpr int most_rounds = 3;
    for (int round = 0; round < most_rounds; ++round) {
        if (!rate_fuses(drawing, assess::currents(drawing.in), Rating::larger_only)) break;
        choose_sizes(drawing, flows, Rating::larger_only);
    }
    return std::move(drawing.in);
}

} // namespace fl::enter
