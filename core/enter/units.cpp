#include "core/enter/units.h"

#include "core/enter/board.h"
#include "core/quantity/print.h"

#include <algorithm>
#include <cmath>

namespace fl::enter {

using namespace plan;
using catalogue::default_of;

namespace {

class UnitMaker {
public:
    UnitMaker(Work& work, const Said& said)
        : work_(work)
        , said_(said) {}

    ComponentId battery() {
        if (const Component* there = service_battery()) {
            work_.fail({"enter.second", said_.name,
                        "there is a service battery already, " + there->designation,
                        "enter a bank as one: 2x battery 100ah"});
            return {};
        }
        if (!said_.chemistry) {
            work_.fail({"enter.chemistry", said_.name, "which kind of battery is not known",
                        "write lithium, agm, gel or lead"});
            return {};
        }
        Battery b;
        b.chemistry = said_.chemistry->value;
        b.nominal = {work_.nominal(), From::assumed};
        b.parallel = said_.count ? said_.count->value : 1;
        if (said_.capacity)
            b.capacity = said_.capacity->value * b.parallel;
        else
            b.capacity = {default_of<Charge>("battery.capacity").value * b.parallel, From::assumed};
        if (b.chemistry == Chemistry::lifepo4) b.electronics = {true, From::assumed};
        const ComponentId id = work_.add(b, "Service battery");
        Switch master;
        master.role = SwitchRole::master;
        master.rating = assumed<Current>("master_switch.rated");
        const ComponentId master_switch = work_.add(master, "Master switch");
        const Entered<Length> near = near_battery(work_);
        fused_lead(work_, {id, "+"}, {master_switch, "1"}, near, whole_or("bench.fuse_to_switch", *near),
                   type_at(work_, b), "Service battery fuse");
        work_.wire({master_switch, "2"}, stud(work_, Polarity::plus), assumed<Length>("bench.switch_to_bar"));
        work_.wire(stud(work_, Polarity::minus), {id, "-"}, assumed<Length>("bench.battery_minus"));
        return id;
    }

    ComponentId starter_battery() {
        const Component* found =
            work_.find<Battery>([](const Battery& b) { return b.role == BatteryRole::starter; });
        if (!found) return none("starter battery");
        Component changed = *found;
        auto& b = std::get<Battery>(changed.with);
        if (said_.capacity) b.capacity = said_.capacity->value;
        if (said_.chemistry) b.chemistry = said_.chemistry->value;
        if (!said_.capacity && !said_.chemistry) return asks("its capacity", "starter battery 80ah");
        return put(std::move(changed));
    }

    ComponentId alternator() {
        const Component* found = work_.find<Alternator>();
        if (!found) return none("alternator");
        if (!said_.current) return asks("its rated current", "alternator 150a");
        Component changed = *found;
        std::get<Alternator>(changed.with).rated = said_.current->value;
        return put(std::move(changed));
    }

    ComponentId drive_charger() {
        const Component* tap = work_.find<TakeOffPoint>();
        const Component* starter =
            work_.find<Battery>([](const Battery& b) { return b.role == BatteryRole::starter; });
        const Component* source = tap ? tap : starter;
        if (!source) {
            work_.fail({"enter.no-source", said_.name, "the vehicle has no battery to charge from",
                        "start the job with the vehicle's own side"});
            return {};
        }
        const ComponentId from = source->id;
        const std::string type = tap ? strip_type() : type_at(work_, std::get<Battery>(source->with));
        const bool signal = wants_signal();
        DriveCharger c;
        c.nominal_in = c.nominal_out = {work_.nominal(), From::assumed};
        c.output_current = said_.current ? Entered<Current>(said_.current->value)
                                         : Entered<Current>(usual_rating(), From::assumed);
        c.needs_run_signal = {signal, From::assumed};
        const ComponentId id = work_.add(c, "DC-DC charger");

        const Entered<Length> near = near_of(near_battery(work_));
        const Lead input = fused_lead(work_, {from, "+"}, {id, "in+"}, near, rest_of(typed_length(), *near),
                                      type, "Charger input fuse");
        work_.rate(input.fuse, typed_fuse());
        fused_lead(work_, stud(work_, Polarity::plus), {id, "out+"}, near_bar(work_),
                   assumed<Length>("bench.fuse_to_unit"), strip_type(), "Charger output fuse");
        work_.wire({id, "-"}, stud(work_, Polarity::minus), assumed<Length>("bench.unit_minus"));
        // Where the body carries nothing, the vehicle's battery and ours share a return of copper.
        if (!work_.rules().body_return) work_.wire(stud(work_, Polarity::minus), {from, "-"}, typed_length());
        if (signal) run_signal(id);
        return id;
    }

    ComponentId mains_charger() {
        if (!said_.current) return asks("its output", "mains charger 20a");
        MainsCharger c;
        c.output_current = said_.current->value;
        return between_bars(c, "Mains charger");
    }

    ComponentId solar() {
        if (!said_.power && !said_.current) return asks("the panels' power", "solar 200w");
        SolarController c;
        if (said_.power) {
            c.panel_power = said_.power->value;
            c.output_current = {Current::si(std::ceil((said_.power->value / work_.nominal()).si())),
                                From::assumed};
        } else {
            c.output_current = said_.current->value;
        }
        return between_bars(c, "Solar controller");
    }

    ComponentId inverter() {
        if (!said_.power) return asks("its power", "inverter 1000w");
        Inverter i;
        i.nominal = {work_.nominal(), From::assumed};
        i.rated_power = said_.power->value;
        return between_bars(i, "Inverter");
    }

private:
    const Component* service_battery() const {
        return work_.find<Battery>([](const Battery& b) { return b.role == BatteryRole::service; });
    }
    ComponentId none(const char* what) {
        work_.fail({"enter.no-source", said_.name, std::string("the job has no ") + what,
                    "start the job with the vehicle's own side"});
        return {};
    }
    ComponentId asks(const std::string& what, const std::string& example) {
        work_.fail({"enter.amount", said_.name, what + " is not known", "write for example " + example});
        return {};
    }
    ComponentId put(Component changed) {
        const ComponentId id = changed.id;
        work_.replace(std::move(changed));
        return id;
    }

    Entered<Length> typed_length() const {
        return said_.length ? Entered<Length>(said_.length->value) : Entered<Length>{};
    }
    // A lead shorter than the usual distance has its fuse in the middle.
    Entered<Length> near_of(Entered<Length> usual) const {
        if (said_.length && said_.length->value <= *usual) usual.value = said_.length->value * 0.5;
        return usual;
    }
    Entered<Length> whole_or(std::string_view bench, Length near) const {
        return said_.length ? rest_of(typed_length(), std::min(near, said_.length->value))
                            : assumed<Length>(bench);
    }
    Entered<Current> typed_fuse() const {
        return said_.fuse ? Entered<Current>(said_.fuse->value) : Entered<Current>{};
    }
    Entered<WireSize> typed_size() const {
        return said_.size ? Entered<WireSize>(said_.size->value) : Entered<WireSize>{};
    }

    // From the plus bar through a fuse at its end, and back to the minus bar.
    ComponentId between_bars(Parameters with, const std::string& name) {
        const ComponentId id = work_.add(std::move(with), name);
        const Entered<Length> near = near_of(near_bar(work_));
        const Entered<Length> far =
            said_.length ? rest_of(typed_length(), *near) : assumed<Length>("bench.fuse_to_unit");
        const Entered<Length> back = said_.length ? typed_length() : assumed<Length>("bench.unit_minus");
        const Lead lead = fused_lead(work_, stud(work_, Polarity::plus), {id, "+"}, near, far, strip_type(),
                                     name + " fuse");
        const ConductorId minus = work_.wire({id, "-"}, stud(work_, Polarity::minus), back);
        work_.rate(lead.fuse, typed_fuse());
        work_.lock_size({lead.near, lead.far, minus}, typed_size());
        return id;
    }

    bool wants_signal() const {
        const bool controlled = work_.find<Alternator>(
            [](const Alternator& a) { return a.regulation == Regulation::computer_controlled; });
        return said_.run || controlled;
    }
    Current usual_rating() const {
        const Component* battery = service_battery();
        const auto* b = battery ? std::get_if<Battery>(&battery->with) : nullptr;
        const bool small = b && b->capacity && *b->capacity <= 100_Ah;
        return default_of<Current>(small ? "drive_charger.rating_to_100Ah" : "drive_charger.rating_200Ah")
            .value;
    }
    // From the vehicle's signal through a small fuse; it lies along the input lead.
    void run_signal(ComponentId charger) {
        const Component* there = work_.find<SignalPoint>();
        ComponentId point = there ? there->id : ComponentId{};
        if (!there) {
            SignalPoint s;
            if (said_.run) s.supplied = said_.run->value;
            point = work_.add(s, "Run signal", Origin::as_found);
        }
        Fuse fuse;
        fuse.type = catalogue::default_choice("fuse.small");
        fuse.rating = assumed<Current>("fuse.signal");
        const ComponentId id = work_.add(std::move(fuse), "Run signal fuse");
        Conductor wire;
        wire.role = Role::signal;
        const Entered<Length> near = near_of(near_battery(work_));
        Entered<Length> far = rest_of(typed_length(), *near);
        if (far) far.from = From::assumed;
        work_.wire({point, "1"}, {id, "1"}, near, wire);
        work_.wire({id, "2"}, {charger, "run"}, far, wire);
    }

    Work& work_;
    const Said& said_;
};

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
        return misplaced(said.power->word, "leave it out");
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

} // namespace

std::optional<UnitKind> unit_kind(const Said& said) {
    if (said.as_above) return {};
    const std::string name = lower(said.name);
    for (const UnitWord& unit : unit_words)
        if (name == unit.words) return unit.kind;
    return {};
}

ComponentId unit(Work& work, UnitKind kind, const Said& said) {
    if (auto wrong = not_here(kind, said)) {
        work.fail(std::move(*wrong));
        return {};
    }
    UnitMaker make(work, said);
    switch (kind) {
    case UnitKind::battery:
        return make.battery();
    case UnitKind::starter_battery:
        return make.starter_battery();
    case UnitKind::alternator:
        return make.alternator();
    case UnitKind::drive_charger:
        return make.drive_charger();
    case UnitKind::mains_charger:
        return make.mains_charger();
    case UnitKind::solar:
        return make.solar();
    case UnitKind::inverter:
        return make.inverter();
    }
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
