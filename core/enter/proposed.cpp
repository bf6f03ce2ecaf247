#include "core/assess/sizes.h"
#include "core/catalogue/lie.h"
#include "core/enter/enter.h"
#include "core/enter/leads.h"
#include "core/enter/propose.h"
#include "core/quantity/limit.h"

#include <algorithm>
#include <optional>

namespace fl::enter {

using namespace plan;
using catalogue::default_choice;
using catalogue::default_number;

namespace {

bool is_open(const Conductor& w) {
    return is_ours(w.origin) && !w.size_locked && w.size && w.size.from == From::assumed;
}

std::size_t at(int index) {
    return static_cast<std::size_t>(index);
}

class Proposal {
public:
    explicit Proposal(const Installation& in)
        : in_(in)
        , leads_(whole_leads(in))
        , nominal_(catalogue::nominal_of(in)) {}

    Installation run() {
        if (!anything_open()) return std::move(in_);
        ways();
        // What flows is asked of a drawing whose conductors hold nothing back: behind thin ones a charger
        // can't give what it will, and its fuse would be rated for less.
        set_all([this](const Conductor&) { return thickest(); });
        main_fuses(assess::currents(in_));
        const Wanted at_once = wanted_by_lead();
        // From the same place each time, so that what stood there before does not show.
        set_all([this](const Conductor& w) { return least_of(w); });
        circuits();
        raise(at_once, true);
        const Table<Conductor> by_itself = in_.conductors;
        grow();
        temper(by_itself);
        return std::move(in_);
    }

private:
    using Wanted = std::map<const WholeLead*, std::optional<WireSize>>;

    bool anything_open() const {
        const bool wire = std::any_of(in_.conductors.begin(), in_.conductors.end(), is_open);
        return wire || std::any_of(in_.components.begin(), in_.components.end(), [](const Component& c) {
                   return is_ours(c.origin) && (c.kind() == Kind::fuse || c.kind() == Kind::fuse_box);
               });
    }

    // ---- ratings

    // The load that alone hangs on a way, or null.
    const Component* load_at(const TerminalRef& way) const {
        const Component* found = nullptr;
        for (const WholeLead& lead : leads_)
            for (const int end : {0, 1}) {
                if (lead.ends[end] != way) continue;
                const Component* c = in_.components.find(lead.ends[1 - end].component);
                if (found || !c || c->kind() != Kind::load) return nullptr;
                found = c;
            }
        return found;
    }
    void ways() {
        const Table<Component> all = in_.components;
        for (Component c : all) {
            auto* box = std::get_if<FuseBox>(&c.with);
            if (!box || !is_ours(c.origin)) continue;
            for (std::size_t n = 0; n < box->ways.size(); ++n) {
                Way& way = box->ways[n];
                const auto* type = catalogue::fuse_type(way.type);
                if (!type || way.rating.from != From::assumed) continue;
                const Component* load = load_at({c.id, terminals(c.with)[n + 1]});
                if (!load) continue;
                const auto& with = std::get<Load>(load->with);
                if (const auto rating = way_rating(*type, with, load->name, nominal_))
                    way.rating = {*rating, From::assumed};
            }
            in_.components = in_.components.with(std::move(c));
        }
    }

    // What a lead's unit may take or give by itself, whatever else is joined yet.
    Current of_unit(const WholeLead& lead) const {
        Current most;
        for (const TerminalRef& end : lead.ends) {
            const Component* c = in_.components.find(end.component);
            if (!c) continue;
            const auto take = [&](const Entered<Current>& i) {
                if (i) most = std::max(most, *i);
            };
            if (const auto* d = std::get_if<DriveCharger>(&c->with)) take(d->output_current);
            if (const auto* m = std::get_if<MainsCharger>(&c->with)) take(m->output_current);
            if (const auto* s = std::get_if<SolarController>(&c->with)) take(s->output_current);
            if (const auto* l = std::get_if<Load>(&c->with))
                most = std::max(most, lasting_current(*l, nominal_));
        }
        return most;
    }
    void main_fuses(const assess::Assessment& a) {
        const double factor = default_number("fuse.choice_factor").value;
        for (const WholeLead& lead : leads_) {
            if (lead.role == Role::signal) continue; // its fuse is the usual one
            for (const ComponentId id : lead.devices) {
                Component c = *in_.components.find(id);
                auto* fuse = std::get_if<Fuse>(&c.with);
                if (!fuse || !is_ours(c.origin) || fuse->rating.from != From::assumed) continue;
                Current least = of_unit(lead) * factor;
                for (std::size_t b = 0; b < a.network.branches.size(); ++b)
                    if (a.network.branches[b].component == id)
                        least = std::max({least, a.envelope.branch_current[b].value * factor,
                                          a.envelope.branch_short_current[b].value});
                rate(*fuse, least);
                in_.components = in_.components.with(std::move(c));
            }
        }
    }
    static void rate(Fuse& fuse, Current least) {
        const std::string_view strip = default_choice("fuse.strip"),
                               large = default_choice("fuse.strip_above");
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

    // ---- sizes

    void set_size(const Conductor& old, const WireSize& size) {
        if (*old.size == size) return;
        Conductor w = old;
        w.size = {size, From::assumed};
        in_.conductors = in_.conductors.with(std::move(w));
    }
    WireSize least_of(const Conductor& w) const {
        const auto& rules = catalogue::rules_of(in_);
        const Area least = w.role == Role::signal ? std::max(rules.least_signal.area,
                                                             catalogue::default_of<Area>("area.signal").value)
                           : w.cable              ? rules.least_in_cable.area
                                                  : rules.least_single.area;
        return sizing::next_size(least, rules.gauges).value_or(*w.size);
    }
    WireSize thickest() const {
        return catalogue::rules_of(in_).gauges ? catalogue::gauge_sizes().back()
                                               : catalogue::metric_sizes().back();
    }
    template <class SizeOf>
    void set_all(SizeOf size_of) {
        const Table<Conductor> all = in_.conductors;
        for (const Conductor& w : all)
            if (is_open(w)) set_size(w, size_of(w));
    }
    // The wires of a circuit have their share of the drop from the beginning.
    void circuits() {
        for (const WholeLead& lead : leads_) {
            ComponentId load;
            std::optional<Current> device;
            for (const int end : {0, 1}) {
                const Component* c = in_.components.find(lead.ends[end].component);
                if (c && c->kind() == Kind::load) load = c->id, device = device_of(lead, lead.ends[1 - end]);
            }
            if (!load) continue;
            for (const ConductorId id : lead.conductors) {
                const Conductor& w = *in_.conductors.find(id);
                if (!is_open(w)) continue;
                if (const auto size = circuit_size(in_, w, load, device)) set_size(w, *size);
            }
        }
    }
    std::optional<Current> device_of(const WholeLead& lead, const TerminalRef& other) const {
        for (const ComponentId id : lead.devices)
            if (const auto* fuse = std::get_if<Fuse>(&in_.components.find(id)->with))
                return fuse->rating.value;
        const Component* c = in_.components.find(other.component);
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
            const Component* c = in_.components.find(end.component);
            if (c && is_ours(c->origin) && rank(c->kind()) > best) found = c->id, best = rank(c->kind());
        }
        return lead.role == Role::signal ? ComponentId{} : found;
    }
    bool feeds_a_load(const WholeLead& lead) const {
        const Component* c = in_.components.find(unit_of(lead));
        return c && c->kind() == Kind::load;
    }
    // A circuit takes two standard sizes more than it asks for by itself at most: beyond that the fault lies
    // in what feeds it, and copper in the branch cures nothing. What is then left is for the findings to say.
    void temper(const Table<Conductor>& by_itself) {
        constexpr int most_steps = 2;
        const bool gauges = catalogue::rules_of(in_).gauges;
        for (const WholeLead& lead : leads_) {
            if (!feeds_a_load(lead)) continue;
            for (const ConductorId id : lead.conductors) {
                const Conductor& w = *in_.conductors.find(id);
                if (!is_open(w)) continue;
                WireSize most = *by_itself.find(id)->size;
                for (int step = 0; step < most_steps; ++step)
                    most = sizing::next_size(most.area * 1.01, gauges).value_or(most);
                if (above(w.size->area, most.area)) set_size(w, most);
            }
        }
    }
    // Until nothing asks for more; sizes only grow, so this ends. What feeds many comes first: a thin feed
    // would else be paid for by every circuit behind it. To know what is wanted is what costs time here, so
    // the feeds' last answer serves the circuits' first round.
    void grow() {
        constexpr int most_rounds = 8;
        int feeds_left = most_rounds, all_left = most_rounds;
        while (all_left > 0) {
            const Wanted wanted = wanted_by_lead();
            if (feeds_left > 0 && raise(wanted, true)) {
                --feeds_left;
                continue;
            }
            feeds_left = 0;
            --all_left;
            if (!raise(wanted, false)) return;
        }
    }
    // Gives the leads what they want, or only those that feed no load; false when they have it.
    bool raise(const Wanted& wanted, bool feeds_only) {
        bool grew = false;
        for (const WholeLead& lead : leads_) {
            const auto want = wanted.at(&lead);
            if (!want || (feeds_only && feeds_a_load(lead))) continue;
            for (const ConductorId id : lead.conductors) {
                const Conductor& w = *in_.conductors.find(id);
                if (!is_open(w) || !above(want->area, w.size->area)) continue;
                set_size(w, *want);
                grew = true;
            }
        }
        return grew;
    }
    Wanted wanted_by_lead() const {
        assess::Assessment solved = assess::currents(in_);
        assess::add_protection(solved);
        const network::Network& net = solved.network;
        const auto least = assess::sizes(solved);
        Wanted wanted;
        std::map<ComponentId, std::optional<WireSize>> by_unit;
        const auto at_least = [](std::optional<WireSize>& into, const WireSize& size) {
            if (!into || into->area < size.area) into = size;
        };
        for (const WholeLead& lead : leads_)
            for (const ConductorId id : lead.conductors) {
                auto& own = wanted[&lead];
                const int b = net.branch_of(id);
                if (b < 0 || !least[at(b)].least) continue;
                at_least(own, *least[at(b)].least);
                if (const ComponentId unit = unit_of(lead)) at_least(by_unit[unit], *least[at(b)].least);
            }
        for (const WholeLead& lead : leads_)
            if (const auto unit = by_unit.find(unit_of(lead)); unit != by_unit.end() && unit->second)
                at_least(wanted[&lead], *unit->second);
        return wanted;
    }

    Installation in_;
    std::vector<WholeLead> leads_;
    Voltage nominal_;
};

} // namespace

Installation proposed(const Installation& installation) {
    return Proposal(installation).run();
}

} // namespace fl::enter
