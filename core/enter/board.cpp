#include "core/enter/board.h"

#include "core/catalogue/lie.h"
#include "core/protect/curve.h"
#include "core/quantity/print.h"

#include <algorithm>
#include <cmath>

namespace fl::enter {

using namespace plan;
using catalogue::default_choice;
using catalogue::default_number;
using catalogue::default_of;

namespace {

const Component* bar_of(const Work& work, Polarity polarity) {
    for (const Component& c : work.in().components)
        if (const auto* bar = std::get_if<Busbar>(&c.with);
            bar && bar->polarity == polarity && is_ours(c.origin))
            return &c;
    return nullptr;
}

void to_body(Work& work, ComponentId minus_bar) {
    if (!work.rules().body_return) return;
    const ComponentId earth = work.add(EarthPoint{}, "Service earth");
    work.wire({minus_bar, "1"}, {earth, "1"}, assumed<Length>("bench.earth"));
}

int whole(std::string_view id) {
    return static_cast<int>(default_number(id).value);
}

// The smallest link of a type, until one is proposed.
Entered<Current> first_rating(std::string_view type) {
    const auto* t = catalogue::fuse_type(type);
    if (!t || t->ratings.empty()) return {};
    return {t->ratings.front(), From::assumed};
}

// True when something other than a load goes off from the box's minus bar.
bool is_returned(const Installation& in, ComponentId box) {
    for (const Conductor& w : in.conductors)
        for (const auto& [own, other] : {std::pair{&w.from, &w.to}, {&w.to, &w.from}})
            if (own->component == box && own->terminal == "-") {
                const Component* c = in.components.find(other->component);
                if (c && c->kind() != Kind::load) return true;
            }
    return false;
}

} // namespace

TerminalRef stud(Work& work, Polarity polarity) {
    const bool plus = polarity == Polarity::plus;
    const Component* found = bar_of(work, polarity);
    if (!found) {
        Busbar bar;
        bar.polarity = polarity;
        bar.studs = whole("bar.studs");
        const ComponentId id = work.add(bar, plus ? "Plus bar" : "Minus bar");
        if (!plus) to_body(work, id);
        found = work.in().components.find(id);
        if (!found) return {};
    }
    const int studs = std::get<Busbar>(found->with).studs;
    for (int n = 1; n <= studs; ++n)
        if (const TerminalRef t{found->id, fixed(n, 0)}; !is_taken(work.in(), t)) return t;
    Component larger = *found;
    std::get<Busbar>(larger.with).studs = studs + 1;
    const TerminalRef made{found->id, fixed(studs + 1, 0)};
    work.replace(std::move(larger));
    return made;
}

Lead fused_lead(Work& work, const TerminalRef& from, const TerminalRef& to, Entered<Length> near,
                Entered<Length> far, std::string fuse_type, std::string name) {
    Fuse fuse;
    fuse.rating = first_rating(fuse_type);
    fuse.type = std::move(fuse_type);
    Lead lead;
    lead.fuse = work.add(std::move(fuse), std::move(name));
    lead.near = work.wire(from, {lead.fuse, "1"}, near);
    lead.far = work.wire({lead.fuse, "2"}, to, far);
    return lead;
}

Entered<Length> rest_of(Entered<Length> whole_length, Length near) {
    if (!whole_length) return {};
    // To the micrometre, so that what is left reads 4.8 m and not what its binary shadow says.
    const double left_m = std::round((*whole_length - near).si() * 1e6) / 1e6;
    return {Length::si(std::max(left_m, 0.0)), whole_length.from};
}

Entered<Length> near_battery(const Work& work) {
    const auto& allowed = work.rules().unprotected.from_battery;
    const Length usual = default_of<Length>("fuse.battery_distance").value;
    return {allowed ? std::min(*allowed, usual) : usual, From::assumed};
}
Entered<Length> near_bar(const Work& work) {
    const auto& allowed = work.rules().unprotected.from_other;
    const Length usual = default_of<Length>("fuse.near_bar").value;
    return {allowed ? std::min(*allowed, usual) : usual, From::assumed};
}

std::string strip_type() {
    return std::string(default_choice("fuse.strip"));
}

std::string type_at(const Work& work, const Battery& battery) {
    const std::string limiting(default_choice("fuse.lithium_main"));
    const auto* link = catalogue::fuse_type(default_choice("fuse.small"));
    const Voltage nominal = battery.nominal ? *battery.nominal : work.nominal();
    const auto& data = catalogue::chemistry(battery.chemistry);
    const Charge capacity =
        battery.capacity ? *battery.capacity : default_of<Charge>("battery.capacity").value;
    double ohm = data.fault_resistance_ohm_Ah_per_12V * (nominal / 12_V) / (capacity.si() / 3600);
    if (battery.cold_cranking && *battery.cold_cranking > 0_A)
        ohm = default_of<Voltage>("starter_battery.resistance_times_cold_current").value.si() *
              (nominal / 12_V) / battery.cold_cranking->si();
    const auto breaks = link ? protect::breaking_capacity(*link, nominal) : std::nullopt;
    const Voltage rest = catalogue::rest_voltage(battery.chemistry, nominal, Ratio::si(1));
    const bool more = !breaks || ohm <= 0 || rest.si() / ohm > breaks->si();
    return more ? limiting : strip_type();
}

void feed_boxes(Work& work) {
    if (!bar_of(work, Polarity::plus)) return;
    const Table<Component> all = work.in().components;
    for (const Component& c : all) {
        const auto* box = std::get_if<FuseBox>(&c.with);
        if (!box || !is_ours(c.origin)) continue;
        if (const TerminalRef in{c.id, "in"}; !is_taken(work.in(), in))
            fused_lead(work, stud(work, Polarity::plus), in, near_bar(work),
                       assumed<Length>("bench.fuse_to_unit"), strip_type(), c.name + " main fuse");
        if (box->minus_bar && !is_returned(work.in(), c.id))
            work.wire({c.id, "-"}, stud(work, Polarity::minus), assumed<Length>("bench.unit_minus"));
    }
}

namespace {

std::optional<FreeWay> free_in(const Installation& in, std::optional<int> wanted) {
    for (const Component& c : in.components) {
        const auto* box = std::get_if<FuseBox>(&c.with);
        if (!box || !is_ours(c.origin)) continue;
        for (int n = 1; n <= static_cast<int>(box->ways.size()); ++n)
            if ((!wanted || *wanted == n) && !is_taken(in, {c.id, fixed(n, 0)})) return FreeWay{c.id, n};
    }
    return {};
}

ComponentId make_box(Work& work) {
    FuseBox box;
    Way spare;
    spare.type = default_choice("fuse.small");
    spare.fitted = false;
    box.ways.assign(static_cast<std::size_t>(whole("fuse_box.ways")), spare);
    int boxes = 1;
    for (const Component& c : work.in().components) boxes += c.kind() == Kind::fuse_box;
    return work.add(std::move(box), boxes == 1 ? "Fuse box" : "Fuse box " + fixed(boxes, 0));
}

} // namespace

std::optional<FreeWay> next_free_way(const Installation& in) {
    return free_in(in, {});
}

std::optional<FreeWay> free_way(Work& work, std::optional<int> wanted, const std::string& word) {
    if (const auto found = free_in(work.in(), wanted)) return found;
    const Component* box = work.find<FuseBox>();
    if (!wanted || !box) {
        const FreeWay made{make_box(work), wanted.value_or(1)};
        if (made.way <= whole("fuse_box.ways")) return made;
        work.fail({"enter.way", word, "a box has " + fixed(whole("fuse_box.ways"), 0) + " ways",
                   "name one of them, or leave the way out"});
        return {};
    }
    const auto& ways = std::get<FuseBox>(box->with).ways;
    if (*wanted > static_cast<int>(ways.size())) {
        work.fail({"enter.way", word,
                   box->designation + " has " + fixed(static_cast<double>(ways.size()), 0) + " ways",
                   "name one of them, or leave the way out"});
        return {};
    }
    const auto next = free_in(work.in(), {});
    const std::string& label = ways[static_cast<std::size_t>(*wanted - 1)].label;
    work.fail({"enter.way-taken", word, label.empty() ? "it is taken" : "it feeds " + label,
               !next ? "leave the way out: a box is added"
               : next->box == box->id
                   ? "way " + fixed(next->way, 0) + " is free"
                   : "leave the way out: " + way_name(*work.in().components.find(next->box), next->way) +
                         " is free"});
    return {};
}

} // namespace fl::enter
