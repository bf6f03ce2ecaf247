#include "core/edit/limits.h"
#include "core/enter/enter.h"
#include "core/enter/work.h"
#include "core/plan/names.h"

#include <algorithm>

namespace fl::enter {

using namespace plan;
using catalogue::default_of;

namespace {

// Who the vehicle is, in the names of the defaults.
struct Vehicle {
    std::string_view alternator, battery, load;
};
Vehicle vehicle_of(const catalogue::RuleSet& rules) {
    const auto is = [&](std::string_view kind) {
        return std::find(rules.kinds.begin(), rules.kinds.end(), kind) != rules.kinds.end();
    };
    if (is("boat")) return {"alternator.boat", "starter_battery.narrow_boat", "vehicle_load.boat"};
    if (is("truck")) return {"alternator.truck", "starter_battery.truck", "vehicle_load.truck"};
    return {"alternator.van", "starter_battery.van", "vehicle_load.van"};
}

std::string id(std::string_view prefix, std::string_view field) {
    return std::string(prefix) + "." + std::string(field);
}

class VehicleSide {
public:
    VehicleSide(Work& work, const Start& start)
        : work_(work)
        , start_(start)
        , vehicle_(vehicle_of(work.rules())) {}

    void draw() {
        const ComponentId battery = work_.add(starter_battery(), "Starter battery", Origin::as_found);
        const ComponentId source = work_.add(alternator(), "Alternator", Origin::as_found);
        Load own;
        own.purpose = Purpose::vehicle;
        own.runs = RunsWhen::driving;
        own.current = assumed<Current>(id(vehicle_.load, "night"));
        const ComponentId load = work_.add(own, "Vehicle's own loads", Origin::as_found);
        // Without a return over the body everything comes back to the battery's post.
        TerminalRef battery_return{battery, "-"}, engine_return{battery, "-"};
        if (work_.rules().body_return) {
            battery_return = {work_.add(EarthPoint{}, "Battery earth", Origin::as_found), "1"};
            engine_return = {work_.add(EarthPoint{}, "Engine earth", Origin::as_found), "1"};
        }
        lead({source, "B+"}, {battery, "+"}, "vehicle.alternator_lead");
        lead({source, "B-"}, engine_return,
             work_.rules().body_return ? "vehicle.earth_lead" : "vehicle.alternator_lead");
        if (work_.rules().body_return) lead({battery, "-"}, battery_return, "vehicle.earth_lead");
        lead({battery, "+"}, {load, "+"}, "vehicle.load_lead");
        lead({load, "-"}, engine_return, "vehicle.load_lead");
    }

private:
    Battery starter_battery() const {
        Battery b;
        b.role = BatteryRole::starter;
        b.nominal = {work_.nominal(), From::assumed};
        b.capacity = start_.starter_battery ? start_.starter_battery
                                            : assumed<Charge>(id(vehicle_.battery, "capacity"));
        b.cold_cranking = assumed<Current>(id(vehicle_.battery, "cold_current"));
        return b;
    }
    Alternator alternator() const {
        Alternator a;
        const auto choice = catalogue::default_choice(id(vehicle_.alternator, "regulation"));
        a.regulation = named<Regulation>(choice).value_or(Regulation::conventional);
        a.nominal = {work_.nominal(), From::assumed};
        a.rated = start_.alternator ? start_.alternator : assumed<Current>(id(vehicle_.alternator, "rated"));
        return a;
    }
    void lead(TerminalRef from, TerminalRef to, std::string_view which) {
        Conductor w;
        w.origin = Origin::as_found;
        const auto area = default_of<Area>(std::string(which) + "_area").value;
        w.size = {WireSize{area, {}}, From::assumed};
        work_.wire(std::move(from), std::move(to), assumed<Length>(which), std::move(w));
    }

    Work& work_;
    const Start& start_;
    Vehicle vehicle_;
};

template <class Q>
std::optional<Problem> out_of_reach(const Entered<Q>& entered, const char* what, const char* example) {
    if (!entered) return {};
    std::string wrong = edit::out_of_range(*entered);
    if (wrong.empty() && !(*entered > Q{})) wrong = "is not above zero";
    if (wrong.empty()) return {};
    return Problem{"enter.range", what, wrong, example};
}

} // namespace

std::vector<Choice> choices() {
    std::vector<Choice> all;
    for (const std::string_view set_id : catalogue::rule_set_ids()) {
        const catalogue::RuleSet& set = *catalogue::rule_set(set_id);
        Choice c{set.id, set.name, set.about, set.kinds, {set.nominal}};
        for (const Voltage other : {12_V, 24_V})
            if (other != set.nominal) c.nominals.push_back(other);
        all.push_back(std::move(c));
    }
    return all;
}

Result<Installation> begin(const Start& start) {
    const catalogue::RuleSet* set = catalogue::rule_set(start.rule_set);
    if (!set)
        return fail("enter.rule-set", start.rule_set, "there are no such job rules",
                    "choose a kind that is offered");
    for (const auto& wrong :
         {out_of_reach(start.nominal, "voltage", "choose 12 V or 24 V"),
          out_of_reach(start.starter_battery, "starter battery", "write for example 80 Ah"),
          out_of_reach(start.alternator, "alternator", "write for example 150 A")})
        if (wrong) return tl::unexpected(*wrong);
    Installation in;
    in.job.title = start.title;
    in.job.reference = start.reference;
    in.job.customer = start.customer;
    in.job.vehicle = start.vehicle;
    in.basis.rule_set = set->id;
    if (start.nominal && *start.nominal != set->nominal) in.basis.nominal = start.nominal;
    Work work(std::move(in));
    VehicleSide(work, start).draw();
    return std::move(work).done();
}

} // namespace fl::enter
