#include "core/assess/sizes.h"
#include "core/catalogue/lie.h"
#include "core/enter/propose.h"
#include "core/quantity/limit.h"

#include <algorithm>
#include <iterator>
#include <set>

namespace fl::enter {

using namespace plan;

namespace {

std::size_t at(int index) {
    return static_cast<std::size_t>(index);
}

class Sizes {
public:
    Sizes(Drawing& drawing, const assess::Assessment& flows)
        : d_(drawing)
        , rules_(catalogue::rules_of(drawing.in))
        , flows_(flows) {}

    void choose(Rating how) {
        // From the same place each time, so that what stood there before does not show.
        const Table<Conductor> before = d_.in.conductors;
        for (const Conductor& w : before)
            if (is_open(w)) set_size(d_, w, least_of(w));
        circuits();
        raise(by_current_and_fuse(), Which::feeds);
        by_itself_ = d_.in.conductors;
        if (how == Rating::larger_only) // and on from where it had come to
            for (const Conductor& w : before)
                if (const Conductor& now = *by_itself_.find(w.id);
                    is_open(now) && above(w.size->area, now.size->area))
                    set_size(d_, now, *w.size);
        grow();
        cure_hunting();
    }

private:
    using Wanted = std::map<const WholeLead*, std::optional<WireSize>>;
    enum class Which { feeds, all };

    WireSize least_of(const Conductor& w) const {
        const Area least = w.role == Role::signal ? std::max(rules_.least_signal.area,
                                                             catalogue::default_of<Area>("area.signal").value)
                           : w.cable              ? rules_.least_in_cable.area
                                                  : rules_.least_single.area;
        return sizing::next_size(least, rules_.gauges).value_or(*w.size);
    }
    WireSize next_above(const WireSize& size) const {
        return sizing::next_size(size.area * 1.01, rules_.gauges).value_or(size);
    }

    // The wires of a circuit have their share of the drop from the beginning.
    void circuits() {
        for (const WholeLead& lead : d_.leads) {
            ComponentId load;
            std::optional<Current> device;
            for (const int end : {0, 1}) {
                const Component* c = d_.in.components.find(lead.ends[end].component);
                if (c && c->kind() == Kind::load) load = c->id, device = device_of(lead, lead.ends[1 - end]);
            }
            if (!load) continue;
            for (const ConductorId id : lead.conductors) {
                const Conductor& w = *d_.in.conductors.find(id);
                if (!is_open(w)) continue;
                if (const auto size = circuit_size(d_.in, w, load, device)) set_size(d_, w, *size);
            }
        }
    }
    std::optional<Current> fuse_of(const WholeLead& lead) const {
        for (const ComponentId id : lead.devices)
            if (const auto* fuse = std::get_if<Fuse>(&d_.in.components.find(id)->with))
                return fuse->rating.value;
        return {};
    }
    std::optional<Current> device_of(const WholeLead& lead, const TerminalRef& other) const {
        if (const auto fuse = fuse_of(lead)) return fuse;
        const Component* c = d_.in.components.find(other.component);
        const auto* box = c ? std::get_if<FuseBox>(&c->with) : nullptr;
        const auto names = c ? terminals(c->with) : std::vector<std::string>{};
        for (std::size_t n = 0; box && n < box->ways.size(); ++n)
            if (names[n + 1] == other.terminal) return box->ways[n].rating.value;
        return {};
    }

    // What a conductor is for: plus and return of one unit are of one size. 0 = it stands alone.
    ComponentId unit_of(const WholeLead& lead) const {
        const auto rank = [](Kind kind) {
            switch (kind) {
            case Kind::load:
            case Kind::inverter:
            case Kind::mains_charger:
            case Kind::solar_controller:
                return 3;
            case Kind::fuse_box:
                return 2;
            case Kind::battery:
                return 1;
            default:
                return 0;
            }
        };
        ComponentId found;
        int best = 0;
        for (const TerminalRef& end : lead.ends) {
            const Component* c = d_.in.components.find(end.component);
            if (c && is_ours(c->origin) && rank(c->kind()) > best) found = c->id, best = rank(c->kind());
        }
        return lead.role == Role::signal ? ComponentId{} : found;
    }
    bool feeds_a_load(const WholeLead& lead) const {
        const Component* c = d_.in.components.find(unit_of(lead));
        return c && c->kind() == Kind::load;
    }

    // What each lead wants, and no less than any other lead of its unit.
    template <class Asked>
    Wanted wanted_by(Asked asked) const {
        Wanted wanted;
        std::map<ComponentId, std::optional<WireSize>> by_unit;
        const auto at_least = [](std::optional<WireSize>& into, const std::optional<WireSize>& size) {
            if (size && (!into || into->area < size->area)) into = size;
        };
        for (const WholeLead& lead : d_.leads)
            for (const ConductorId id : lead.conductors) {
                const std::optional<WireSize> size = asked(lead, id);
                at_least(wanted[&lead], size);
                if (const ComponentId unit = unit_of(lead)) at_least(by_unit[unit], size);
            }
        for (const WholeLead& lead : d_.leads)
            if (const auto unit = by_unit.find(unit_of(lead)); unit != by_unit.end())
                at_least(wanted[&lead], unit->second);
        return wanted;
    }
    // By what flows where nothing holds it back, and by the fuse in the lead itself: what holds whatever the
    // other conductors are.
    Wanted by_current_and_fuse() const {
        return wanted_by([&](const WholeLead& lead, ConductorId id) -> std::optional<WireSize> {
            const int b = flows_.network.branch_of(id);
            if (b < 0) return {};
            sizing::Needs needs;
            needs.running = flows_.envelope.branch_current[at(b)].value;
            needs.device = fuse_of(lead);
            needs.device_multiple = rules_.device_multiple;
            needs.gauges = rules_.gauges;
            const Conductor& w = *d_.in.conductors.find(id);
            needs.minimum = least_of(w);
            return most_of(sizing::least_size(needs, sizing::lie_of(d_.in, w)), w);
        });
    }
    // By all that is demanded of the drawing as it is now. By drop it is one size more: each conductor asks
    // as if it alone had to save what is lost, and its return saves as much.
    Wanted by_all_demands() {
        assess::Assessment solved = assess::currents(d_.in);
        assess::add_protection(solved);
        const auto sizes = assess::sizes(solved);
        hunting_ = chargers_that_hunt(solved);
        return wanted_by([&](const WholeLead& lead, ConductorId id) -> std::optional<WireSize> {
            const int b = solved.network.branch_of(id);
            if (b < 0 || sizes[at(b)].demands.empty()) return {};
            const WireSize now = most_of(sizes[at(b)], *d_.in.conductors.find(id));
            const Current flows = solved.envelope.branch_current[at(b)].value;
            for (const sizing::Demand& demand : sizes[at(b)].demands)
                if (demand.code == "drop" && (!demand.least || above(demand.least->area, now.area)))
                    return copper_cures(lead, id, sizes[at(b)], flows) ? towards(lead, now, demand.least)
                                                                       : now;
            return now;
        });
    }
    // A charger whose own lead pulls its input below its threshold goes on and off for ever.
    static std::set<ComponentId> chargers_that_hunt(const assess::Assessment& solved) {
        std::set<ComponentId> all;
        for (const condition::Solved& one : solved.conditions)
            for (std::size_t i = 0; i < one.runs.size(); ++i)
                if (one.runs[i] == condition::Runs::hunts) all.insert(solved.network.converters[i].component);
        return all;
    }
    // Only once all else is as thick as it has to be: a thin earth lead makes a charger hunt too. What copper
    // does not cure, an alternator at its limit say, is left to the findings.
    void cure_hunting() {
        const Table<Conductor> before = d_.in.conductors;
        constexpr int most_rounds = 4; // of one size more
        for (int round = 0; round < most_rounds && thicken_inputs(); ++round) grow();
        if (!hunting_.empty()) d_.in.conductors = before;
    }
    bool thicken_inputs() {
        bool grew = false;
        for (const WholeLead& lead : d_.leads)
            for (const ConductorId id : lead.conductors) {
                const Conductor& w = *d_.in.conductors.find(id);
                if (!is_open(w) || !feeds_input_of(lead, hunting_)) continue;
                grew = grew || above(next_above(*w.size).area, w.size->area);
                set_size(d_, w, next_above(*w.size));
            }
        return grew;
    }
    static bool feeds_input_of(const WholeLead& lead, const std::set<ComponentId>& units) {
        return std::any_of(std::begin(lead.ends), std::end(lead.ends), [&](const TerminalRef& end) {
            return end.terminal == "in+" && units.contains(end.component);
        });
    }
    // One size more; two for what feeds many and lacks far more than that.
    WireSize towards(const WholeLead& lead, const WireSize& now, const std::optional<WireSize>& least) const {
        const WireSize one = next_above(now), two = next_above(one);
        const bool far = least && above(least->area, next_above(two).area);
        return far && !feeds_a_load(lead) ? two : one;
    }
    // A circuit takes two standard sizes more than without the drop at most: beyond that the fault lies in
    // what feeds it. What feeds many grows while its copper loses anything to speak of, 0.3 % of nominal;
    // beyond that it lies in fuses, joints or lengths. What is then left is for the findings to say.
    bool copper_cures(const WholeLead& lead, ConductorId id, const sizing::Size& size, Current flows) const {
        constexpr double to_speak_of = 0.003;
        const Conductor& w = *d_.in.conductors.find(id);
        if (feeds_a_load(lead)) {
            const WireSize most = next_above(next_above(most_of(size, *by_itself_.find(id))));
            return !above(next_above(*w.size).area, most.area);
        }
        const Entered<Length> length = length_of(d_.in, w);
        const auto lost =
            sizing::drop(*w.size, length ? *length : 0_m, flows, catalogue::lie_of(d_.in, w).ambient);
        return lost && above(*lost, d_.nominal * to_speak_of);
    }
    // The size that it has, or what is demanded but by drop where that is more. Where no size of the table
    // is enough: the thickest, and the findings say so.
    WireSize most_of(const sizing::Size& size, const Conductor& w) const {
        WireSize most = *w.size;
        for (const sizing::Demand& demand : size.demands) {
            if (demand.code == "drop") continue;
            const WireSize least = demand.least ? *demand.least : most_that_carries(w);
            if (above(least.area, most.area)) most = least;
        }
        return most;
    }

    WireSize most_that_carries(const Conductor& w) const {
        const auto& all = rules_.gauges ? catalogue::gauge_sizes() : catalogue::metric_sizes();
        const catalogue::Lie lie = catalogue::lie_of(d_.in, w);
        const auto found = std::find_if(all.rbegin(), all.rend(), [&](const WireSize& size) {
            return sizing::may_carry(size, lie).has_value();
        });
        return found == all.rend() ? *w.size : *found;
    }

    // Gives the leads what they want; false when they have it.
    bool raise(const Wanted& wanted, Which which) {
        bool grew = false;
        for (const WholeLead& lead : d_.leads) {
            const auto want = wanted.at(&lead);
            if (!want || (which == Which::feeds && feeds_a_load(lead))) continue;
            for (const ConductorId id : lead.conductors) {
                const Conductor& w = *d_.in.conductors.find(id);
                if (!is_open(w) || !above(want->area, w.size->area)) continue;
                set_size(d_, w, *want);
                grew = true;
            }
        }
        return grew;
    }
    // Until nothing asks for more; sizes only grow, so this ends. What feeds many comes first: a thin feed
    // would else be paid for by every circuit behind it.
    void grow() {
        constexpr int most_rounds = 12;
        int feeds_left = most_rounds, all_left = most_rounds;
        while (all_left > 0) {
            const Wanted wanted = by_all_demands();
            if (feeds_left > 0 && raise(wanted, Which::feeds)) {
                --feeds_left;
                continue;
            }
            feeds_left = 0;
            --all_left;
            if (!raise(wanted, Which::all)) return;
        }
    }

    Drawing& d_;
    const catalogue::RuleSet& rules_;
    const assess::Assessment& flows_;
    Table<Conductor> by_itself_;    // what is asked for but by the drop of the whole
    std::set<ComponentId> hunting_; // chargers, when demands were last asked for
};

} // namespace

void choose_sizes(Drawing& drawing, const assess::Assessment& flows, Rating how) {
    Sizes(drawing, flows).choose(how);
}

} // namespace fl::enter
