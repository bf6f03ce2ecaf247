#include "core/protect/curve.h"
#include "core/quantity/limit.h"
#include "core/rules/chains.h"
#include "core/rules/list.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>

// Is there a suitable device between every source and every conductor, near enough to the source?

namespace fl::rules {
namespace {

void add_subjects(const Facts& facts, const Chain& chain, Finding& f) {
    for (const auto* list : {&chain.conductors, &chain.beyond})
        for (const int b : *list) {
            const auto subject = subject_of(facts.network.branches[at(b)]);
            if (std::find(f.subjects.begin(), f.subjects.end(), subject) == f.subjects.end())
                f.subjects.push_back(subject);
        }
    for (const auto id : chain.leads_to) {
        const auto subject = plan::Subject::of(id);
        if (std::find(f.subjects.begin(), f.subjects.end(), subject) == f.subjects.end())
            f.subjects.push_back(subject);
    }
}

std::string source_name(const Seen& facts, int source) {
    return designation(facts, facts.sources[at(source)].component);
}

/// What feeds the chain, by the battery at whose terminal it begins where that is another of the string.
std::string feeder_name(const Seen& facts, const Chain& chain) {
    std::string name = source_name(facts, chain.source);
    const int port = facts.sources[at(chain.source)].port;
    if (port < 0 || facts.network.ports[at(port)].kind != network::PortKind::battery) return name;
    if (facts.network.ports[at(port)].plus == chain.fed_at) return name;
    for (const auto& p : facts.network.ports)
        if (p.kind == network::PortKind::battery && p.plus == chain.fed_at)
            return designation(facts, p.component);
    return name;
}

/// The thinnest conductor of the chain: which smokes first.
const plan::Conductor* thinnest(const Facts& facts, const Chain& chain) {
    const plan::Conductor* thin = nullptr;
    for (const int b : chain.conductors) {
        const auto* c = conductor_of(facts, b);
        if (c->size && (!thin || area_of(*c) < area_of(*thin))) thin = c;
    }
    return thin;
}

Current running(const Facts& facts, const Chain& chain) {
    Current most;
    for (const int b : chain.conductors) most = std::max(most, facts.envelope.branch_current[at(b)].value);
    return most;
}

/// What a source that limits itself is rated to give; 0 for others.
Current rated_output(const Facts& facts, const protect::Source& s) {
    const auto rated = [](const auto& entered) { return entered.value.value_or(Current{}); };
    if (s.converter >= 0) {
        const auto& c = facts.network.converters[at(s.converter)];
        if (const auto* charger = network::parameters<plan::DriveCharger>(facts.installation, c))
            return rated(charger->output_current);
        const auto* plain = network::parameters<plan::Converter>(facts.installation, c);
        return plain ? rated(plain->output_current) : Current{};
    }
    if (s.port < 0) return {};
    const auto& p = facts.network.ports[at(s.port)];
    if (const auto* a = network::parameters<plan::Alternator>(facts.installation, p)) return rated(a->rated);
    if (const auto* m = network::parameters<plan::MainsCharger>(facts.installation, p))
        return rated(m->output_current);
    const auto* sun = network::parameters<plan::SolarController>(facts.installation, p);
    return sun ? rated(sun->output_current) : Current{};
}

/// The component at the end of its first conductor that is fed.
std::string fed_end(const Facts& facts, const Chain& chain) {
    const int b = chain.conductors.front();
    const auto* wire = conductor_of(facts, b);
    const bool from = facts.network.branches[at(b)].a == chain.fed_at;
    return designation(facts, (from ? wire->from : wire->to).component);
}

/// Devices there are on its ways from the source, but let too much through.
void tell_before(const Seen& facts, const Chain& chain, Finding& f) {
    for (const auto& from : placement_of(facts, chain.conductors.front())->from) {
        if (from.source != chain.source || from.devices.empty() || !std::isfinite(from.greatest.si()))
            continue;
        std::string names;
        for (const int d : from.devices) {
            if (!names.empty()) names += " + ";
            names += designation(facts, subject_of(facts.network.branches[at(d)]));
        }
        f.values["before"] = names;
        f.values["through"] = from.greatest;
    }
}

/// What happens when it is shorted where it is fed, and the fuse that would do.
void tell(const Seen& facts, const Chain& chain, Finding& f) {
    const auto& fault = facts.faults[at(chain.fed_at)].largest;
    const auto* thin = thinnest(facts, chain);
    f.values["source"] = feeder_name(facts, chain);
    if (!chain.small) f.values["at"] = fed_end(facts, chain);
    if (fault) f.values["fault_current"] = fault->total;
    if (thin) f.values["size"] = *thin->size;
    if (fault && thin)
        if (const auto stands = protect::stands_for(sizing::insulation_of(facts.installation, *thin),
                                                    area_of(*thin), fault->total);
            stands && *stands >= Time::si(0.01)) // less is at once
            f.values["smokes_after"] = *stands;
    if (chain.allowed.si() <= 0) return;
    f.values["allowed"] = chain.allowed;
    // Of a lead that never carries anything only the greatest is known; a small one is a signal's. What
    // limits itself at the far end gives its all some day, whatever the batteries ask for in these
    // conditions.
    Current lasting = running(facts, chain);
    if (chain.other_source >= 0 && !chain.small)
        lasting = std::max(lasting, rated_output(facts, facts.sources[at(chain.other_source)]));
    if (!(lasting > Current{}) && !chain.small) return;
    if (const auto fit = fuse_for(lasting, chain.allowed))
        f.values["fit"] = *fit;
    else if (!chain.small)
        f.values["lasting"] = lasting;
}

} // namespace

void unprotected_conductor(const Seen& facts, std::vector<Finding>& out) {
    for (const auto& [chain, lack, limit] : facts.chains) {
        if (lack != Lack::device || chain.small) continue;
        Finding f = make(facts, "unprotected-conductor");
        add_subjects(facts, chain, f);
        tell(facts, chain, f);
        tell_before(facts, chain, f);
        out.push_back(std::move(f));
    }
}

void unprotected_between_batteries(const Seen& facts, std::vector<Finding>& out) {
    for (const auto& [chain, lack, limit] : facts.chains) {
        if (lack != Lack::between || chain.small) continue;
        Finding f = make(facts, "unprotected-between-batteries");
        add_subjects(facts, chain, f);
        tell(facts, chain, f);
        f.values["other"] = source_name(facts, chain.other_source);
        out.push_back(std::move(f));
    }
}

void small_lead_unprotected(const Seen& facts, std::vector<Finding>& out) {
    for (const auto& [chain, lack, limit] : facts.chains) {
        if (!chain.small || (lack != Lack::device && lack != Lack::between)) continue;
        Finding f = make(facts, "small-lead-unprotected");
        add_subjects(facts, chain, f);
        tell(facts, chain, f);
        out.push_back(std::move(f));
    }
}

void fuse_too_far(const Seen& facts, std::vector<Finding>& out) {
    for (const auto& [chain, lack, limit] : facts.chains) {
        if (lack != Lack::distance) continue;
        Finding f = make(facts, "fuse-too-far", limit->id);
        f.subjects.push_back(subject_of(facts.network.branches[at(chain.device_after)]));
        add_subjects(facts, chain, f);
        f.values["source"] = source_name(facts, chain.source);
        f.values[chain.exposure ? "length" : "at_least"] = chain.exposure.value_or(chain.exposure_at_least);
        f.values["limit"] = Length::si(*limit->value);
        out.push_back(std::move(f));
    }
}

namespace {

/// A device and the conductors it lets too much through.
struct TooLarge {
    std::vector<int> conductors;
    Current allowed = Current::si(std::numeric_limits<double>::infinity());
    double length_m = 0; ///< of the first
};

double length_m(const Facts& facts, int branch) {
    const auto length = plan::length_of(facts.installation, *conductor_of(facts, branch));
    return length ? (*length).si() : 0;
}

/// How long the device may take on a short at the far end of the wire, and how long the wire stands it.
void tell_times(const Facts& facts, const Device& d, const plan::Conductor& wire, int branch, Finding& f) {
    const auto& b = facts.network.branches[at(branch)];
    const auto fault = [&](int node) { return facts.faults[at(node)].least; };
    const auto far =
        !fault(b.a) || (fault(b.b) && fault(b.b)->total < fault(b.a)->total) ? fault(b.b) : fault(b.a);
    if (!far || !d.type || !wire.size) return;
    const auto opens = protect::opening(*d.type, *d.rating, far->total).greatest;
    const auto stands =
        protect::stands_for(sizing::insulation_of(facts.installation, wire), area_of(wire), far->total);
    if (!opens || !stands || !above(*opens, *stands)) return; // on a short it opens in time; overload remains
    f.values["opens_after"] = *opens;
    f.values["smokes_after"] = *stands;
}

/// What takes current at the end of conductors that lack a device.
std::set<plan::ComponentId> led_to_bare(const Seen& facts) {
    std::set<plan::ComponentId> all;
    for (const auto& [chain, lack, limit] : facts.chains)
        if (lack == Lack::device || lack == Lack::between)
            all.insert(chain.leads_to.begin(), chain.leads_to.end());
    return all;
}

} // namespace

void device_above_conductor(const Seen& facts, std::vector<Finding>& out) {
    std::map<int, TooLarge> found; // by branch of the device
    const auto note = [&](int device, int conductor, Current allowed) {
        if (allowed.si() <= 0) return;
        auto& f = found[device];
        if (std::find(f.conductors.begin(), f.conductors.end(), conductor) != f.conductors.end()) return;
        // The thinnest speaks, of equals the longest.
        const double metres = length_m(facts, conductor);
        if (allowed < f.allowed || (allowed == f.allowed && metres > f.length_m)) {
            f.conductors.insert(f.conductors.begin(), conductor);
            f.allowed = allowed;
            f.length_m = metres;
        } else {
            f.conductors.push_back(conductor);
        }
    };
    const auto allowed_of = [&](int b) { return facts.may_carry[at(b)] * facts.rule_set.device_multiple; };
    for (const auto& [chain, lack, limit] : facts.chains) {
        if (lack == Lack::rating) {
            for (const auto* list : {&chain.conductors, &chain.beyond})
                for (const int b : *list) note(chain.device_before, b, allowed_of(b));
        } else if (chain.device_after >= 0) { // near enough, but is it right for this lead?
            const auto rating = device(facts, chain.device_after)->rating;
            for (const int b : chain.conductors)
                if (rating && above(*rating, allowed_of(b))) note(chain.device_after, b, allowed_of(b));
        }
    }
    const auto bare = led_to_bare(facts);
    for (const auto& r : facts.returns) {
        // With a device of its own in the plus lead the return is right too: one cause.
        const bool same_cause = !r.of.empty() && std::all_of(r.of.begin(), r.of.end(),
                                                             [&](auto id) { return bare.contains(id); });
        if (!r.shared && !same_cause && r.device >= 0 &&
            above(*device(facts, r.device)->rating, allowed_of(r.branch)))
            note(r.device, r.branch, allowed_of(r.branch));
    }
    for (const auto& [branch, large] : found) {
        const auto d = device(facts, branch);
        if (!d || !d->rating) continue;
        Finding f = make(facts, "device-above-conductor");
        f.subjects.push_back(d->subject);
        Current lasting;
        for (const int b : large.conductors) {
            f.subjects.push_back(subject_of(facts.network.branches[at(b)]));
            lasting = std::max(lasting, facts.envelope.branch_current[at(b)].value);
        }
        const int thin = large.conductors.front();
        const auto* wire = conductor_of(facts, thin);
        f.values["rating"] = *d->rating;
        f.values["conductor"] = wire->designation;
        f.values["may_carry"] = facts.may_carry[at(thin)];
        if (wire->size) f.values["size"] = *wire->size;
        tell_times(facts, *d, *wire, thin, f);
        const auto fit = fuse_for(lasting, large.allowed);
        if (fit && lasting.si() > 0)
            f.values["fit"] = *fit;
        else if (const auto size = size_for(facts, *wire, *d->rating, facts.rule_set.device_multiple))
            f.values["fit_size"] = *size;
        out.push_back(std::move(f));
    }
}

void devices_add_up(const Seen& facts, std::vector<Finding>& out) {
    for (std::size_t b = 0; b < facts.network.branches.size(); ++b) {
        const auto* p = placement_of(facts, static_cast<int>(b));
        const auto* c = conductor_of(facts, static_cast<int>(b));
        if (!p || !c || !p->only_by_adding || p->return_side || c->origin == plan::Origin::as_found) continue;
        // Within the length that may do without a device of its own it may do with several, too.
        if (const auto limit = facts.rule_set.unprotected.from_other;
            limit && p->exposure && !above(*p->exposure, *limit))
            continue;
        const Current sum = std::max(p->greatest_a, p->greatest_b);
        if (p->allowed.si() <= 0 || !std::isfinite(sum.si())) continue;
        Finding f = make(facts, "devices-add-up");
        f.subjects.push_back(plan::Subject::of(c->id));
        for (const int d : p->devices) f.subjects.push_back(subject_of(facts.network.branches[at(d)]));
        f.values["sum"] = sum;
        f.values["allowed"] = p->allowed;
        if (const auto size = size_for(facts, *c, sum, facts.rule_set.device_multiple))
            f.values["fit_size"] = *size;
        out.push_back(std::move(f));
    }
}

} // namespace fl::rules
