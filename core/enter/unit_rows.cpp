#include "core/enter/units.h"
#include "core/quantity/print.h"

#include <utility>

namespace fl::enter {

using namespace plan;

std::optional<Problem> not_here(UnitKind kind, const Said& said) {
    const auto misplaced = [](const std::string& word, const char* right) {
        return Problem{"enter.not-here", word, "this fits nothing here", right};
    };
    const bool is_battery = kind == UnitKind::battery || kind == UnitKind::starter_battery;
    if (said.way) return misplaced(said.way->word, "a main unit goes to the bars, not to a way");
    if (said.duty) return misplaced(said.duty->word, "leave it out");
    if (said.hours) return misplaced(said.hours->word, "leave it out");
    if (said.on_time) return misplaced(said.on_time->word, "leave it out");
    if (said.resistance) return misplaced(said.resistance->word, "leave it out");
    if (said.capacity && !is_battery) return misplaced(said.capacity->word, "Ah is of a battery");
    if (said.count && kind != UnitKind::battery)
        return misplaced(said.count->word, "enter each unit in a row of its own");
    if (said.run && kind != UnitKind::drive_charger)
        return misplaced(said.run->word, "a run signal is of a DC-DC charger");
    if (said.power && kind != UnitKind::solar && kind != UnitKind::inverter)
        return misplaced(said.power->word,
                         is_battery ? "write its capacity in Ah" : "write its current in A");
    if (is_battery && said.current) return misplaced(said.current->word, "write its capacity in Ah");
    if (kind == UnitKind::inverter && said.current)
        return misplaced(said.current->word, "write its power in W");
    const bool to_bars =
        kind == UnitKind::inverter || kind == UnitKind::solar || kind == UnitKind::mains_charger;
    if (said.size && !to_bars)
        return misplaced(said.size->word, "its sizes are proposed; set them one by one");
    if (said.fuse && !to_bars && kind != UnitKind::drive_charger)
        return misplaced(said.fuse->word, "its fuse is proposed; set it by itself");
    if (said.length && (kind == UnitKind::alternator || kind == UnitKind::starter_battery))
        return misplaced(said.length->word, "leave it out");
    return {};
}

std::optional<UnitKind> unit_kind(const Said& said) {
    if (said.as_above) return {};
    const std::string name = lower(said.name);
    for (const UnitWord& unit : unit_words)
        if (name == unit.words) return unit.kind;
    return {};
}

namespace {

struct AmountOf {
    template <class Q>
    static std::string of(const Entered<Q>& q) {
        return q ? text(*q) : "";
    }
    std::string operator()(const Battery& b) const { return of(b.capacity); }
    std::string operator()(const Alternator& a) const { return of(a.rated); }
    std::string operator()(const DriveCharger& c) const { return of(c.output_current); }
    std::string operator()(const MainsCharger& c) const { return of(c.output_current); }
    std::string operator()(const SolarController& c) const {
        return c.panel_power ? of(c.panel_power) : of(c.output_current);
    }
    std::string operator()(const Inverter& i) const { return of(i.rated_power); }
    template <class Other>
    std::string operator()(const Other&) const {
        return {};
    }
};

} // namespace

std::string amount_of(const Component& unit) {
    return std::visit(AmountOf{}, unit.with);
}

std::string told(const Installation& in, ComponentId id) {
    const Component* c = in.components.find(id);
    if (!c) return {};
    std::string out = c->designation + " " + c->name + ": " + amount_of(*c);
    // The fuses next to it.
    for (const Conductor& w : in.conductors)
        for (const auto& [own, other] : {std::pair{&w.from, &w.to}, {&w.to, &w.from}}) {
            const Component* next = own->component == id ? in.components.find(other->component) : nullptr;
            const auto* fuse = next && c->origin == Origin::added ? std::get_if<Fuse>(&next->with) : nullptr;
            if (fuse && fuse->rating && w.role == Role::power)
                out += ", " + next->designation + " " + text(*fuse->rating);
        }
    return out;
}

} // namespace fl::enter
