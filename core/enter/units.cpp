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
                        "change it in its details; a bank is one row, 2x battery 100ah agm"});
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

} // namespace

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

} // namespace fl::enter
