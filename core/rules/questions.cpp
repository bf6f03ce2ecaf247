#include "core/plan/fields.h"
#include "core/quantity/limit.h"
#include "core/quantity/print.h"
#include "core/rules/chains.h"
#include "core/rules/list.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <type_traits>

// Values that are assumed or missing. Those that a rule could not go without decide.

namespace fl::rules {
namespace {

using network::PortKind;

template <class T>
struct EnteredOf : std::false_type {};
template <class Q>
struct EnteredOf<plan::Entered<Q>> : std::true_type {
    using Value = Q;
};

/// Every entered value of a row, with the name of its field: visit(name, entered).
template <class Row, class Visit>
void each_entered(const Row& row, Visit visit) {
    plan::fields(row, [&](const char* name, const auto& member) {
        using Member = std::decay_t<decltype(member)>;
        if constexpr (EnteredOf<Member>::value) visit(std::string(name), member);
        if constexpr (std::is_same_v<Member, std::vector<plan::Way>>)
            for (std::size_t i = 0; i < member.size(); ++i)
                each_entered(member[i], [&](const std::string& field, const auto& value) {
                    visit("ways." + shortest(static_cast<double>(i + 1)) + "." + field, value);
                });
    });
}

derive::Value as_value(bool yes) {
    return std::string(yes ? "yes" : "no");
}
template <class Q>
derive::Value as_value(const Q& q) {
    return q;
}

class Asker {
public:
    explicit Asker(const Facts& facts)
        : facts_(facts)
        , in_(facts.installation)
        , net_(facts.network) {}

    std::vector<OpenQuestion> run() {
        assumed();
        conductors();
        batteries();
        sources_and_loads();
        chargers();
        devices_asked();
        std::stable_sort(out_.begin(), out_.end(),
                         [](const OpenQuestion& x, const OpenQuestion& y) { return x.decides > y.decides; });
        return std::move(out_);
    }

private:
    void ask(const char* code, plan::Subject subject, std::string field, bool decides,
             std::optional<derive::Value> value = {}) {
        const auto [known, fresh] = asked_.try_emplace({subject, field}, out_.size());
        if (!fresh) {
            out_[known->second].decides = out_[known->second].decides || decides;
            return;
        }
        out_.push_back({code, std::move(subject), std::move(field), std::move(value), decides});
    }
    void missing(plan::Subject subject, std::string field, bool decides) {
        ask("missing", std::move(subject), std::move(field), decides);
    }

    /// What was taken for granted, by hand or by a proposal.
    void assumed() {
        for (const auto& c : in_.components)
            std::visit(
                [&](const auto& with) {
                    if constexpr (!std::is_same_v<std::decay_t<decltype(with)>, plan::Unit>)
                        each_entered(with, [&](const std::string& field, const auto& value) {
                            if (value && value.from == plan::From::assumed)
                                ask("assumed", plan::Subject::of(c.id), field, false, as_value(*value));
                        });
                },
                c.with);
        for (const auto& c : in_.conductors)
            each_entered(c, [&](const std::string& field, const auto& value) {
                if (value && value.from == plan::From::assumed)
                    ask("assumed", plan::Subject::of(c.id), field, false, as_value(*value));
            });
    }

    void conductors() {
        std::set<int> undecided; // distances that a fuse's place hangs on
        for (const auto& [chain, lack, limit] : chains(facts_))
            if (chain.device_after >= 0 && !chain.exposure)
                undecided.insert(chain.conductors.begin(), chain.conductors.end());
        for (std::size_t b = 0; b < net_.branches.size(); ++b) {
            const auto* c = conductor_of(facts_, static_cast<int>(b));
            if (!c) continue;
            const auto length = plan::length_of(in_, *c);
            const bool decides = undecided.contains(static_cast<int>(b));
            if (!length && (plan::is_ours(c->origin) || decides))
                missing(plan::Subject::of(c->id), "length", decides);
            if (length && length.from == plan::From::assumed)
                ask("assumed", plan::Subject::of(c->id), "length", decides || is_near_limit(*c, b), *length);
            if (!c->size && plan::is_ours(c->origin))
                missing(plan::Subject::of(c->id), "size", facts_.envelope.branch_current[b].value.si() > 0);
        }
    }
    /// An assumed length on the unprotected stretch can tip fuse-too-far.
    bool is_near_limit(const plan::Conductor&, std::size_t b) const {
        const auto* p = placement_of(facts_, static_cast<int>(b));
        return p && p->exposed && p->exposure.has_value();
    }

    void batteries() {
        for (std::size_t p = 0; p < net_.ports.size(); ++p) {
            const auto* b = network::parameters<plan::Battery>(in_, net_.ports[p]);
            const auto id = net_.ports[p].component;
            const auto* c = in_.components.find(id);
            if (!b || !plan::is_ours(c->origin)) continue;
            const auto subject = plan::Subject::of(id);
            if (!b->capacity) missing(subject, "capacity", false);
            const bool lithium = b->chemistry == plan::Chemistry::lifepo4;
            const bool has_electronics =
                lithium ? !b->electronics || *b->electronics : b->electronics && *b->electronics;
            const auto& running = facts_.envelope.port_current[p];
            if (has_electronics && !b->discharge_limit) {
                // Decides when the usual limit would be passed.
                const Current usual = usual_limit(*b);
                missing(subject, "discharge_limit", running && above(running.value, usual));
            }
            if (lithium && !b->low_temperature_protection)
                missing(subject, "low_temperature_protection", true);
            const auto& charge = facts_.envelope.battery_charge[p];
            if (charge && charge.value.si() > 0 && !b->charge_limit && !b->electronics_charge_limit) {
                const double rate = catalogue::chemistry(b->chemistry).charge_rate_C;
                const double usual_A = b->capacity ? b->capacity.value->si() / 3600 * rate : 0;
                if (b->capacity && above(charge.value.si(), usual_A)) missing(subject, "charge_limit", true);
            }
        }
    }
    static Current usual_limit(const plan::Battery& b) {
        const Current most = catalogue::default_of<Current>("lithium.electronics_current").value;
        const double rate = catalogue::default_number("lithium.electronics_rate").value;
        if (!b.capacity) return most;
        return std::min(most, Current::si(b.capacity.value->si() / 3600 * rate));
    }

    void sources_and_loads() {
        for (const auto& p : net_.ports) {
            const auto subject = plan::Subject::of(p.component);
            if (const auto* a = network::parameters<plan::Alternator>(in_, p); a && !a->rated)
                missing(subject, "rated", true);
            if (const auto* t = network::parameters<plan::TakeOffPoint>(in_, p); t && !t->permitted)
                missing(subject, "permitted", false);
            if (const auto* m = network::parameters<plan::MainsCharger>(in_, p); m && !m->output_current)
                missing(subject, "output_current", true);
            if (const auto* s = network::parameters<plan::SolarController>(in_, p); s && !s->output_current)
                missing(subject, "output_current", !s->panel_power);
            if (const auto* i = network::parameters<plan::Inverter>(in_, p);
                i && !i->rated_power && !i->used_power)
                missing(subject, "rated_power", true);
            const auto* load = network::parameters<plan::Load>(in_, p);
            if (!load || as_found(facts_, p.component)) continue;
            // A figure of another sort than the law's is taken at nominal voltage: nothing is missing.
            if (load->current || load->power || load->resistance) continue;
            if (load->law == plan::LoadLaw::current) missing(subject, "current", true);
            if (load->law == plan::LoadLaw::power) missing(subject, "power", true);
            if (load->law == plan::LoadLaw::resistance) missing(subject, "resistance", true);
        }
    }

    void chargers() {
        std::vector<bool> usable(net_.branches.size());
        for (std::size_t b = 0; b < usable.size(); ++b)
            usable[b] = net_.branches[b].kind == network::BranchKind::conductor ||
                        protect::is_device(net_.branches[b]);
        for (const auto& c : net_.converters) {
            const auto* charger = network::parameters<plan::DriveCharger>(in_, c);
            if (const auto* plain = network::parameters<plan::Converter>(in_, c);
                plain && !plain->output_current)
                missing(plan::Subject::of(c.component), "output_current", true);
            if (!charger) continue;
            if (!charger->output_current) missing(plan::Subject::of(c.component), "output_current", true);
            if (c.run < 0 || (charger->needs_run_signal && !*charger->needs_run_signal)) continue;
            const auto there = reached(net_, {c.run}, usable);
            if (const auto unknown = unknown_supply(there)) missing(*unknown, "supplied", true);
        }
    }
    /// The signal point or wire whose supply nobody said; empty when it is said, or nothing is joined.
    std::optional<plan::Subject> unknown_supply(const std::vector<bool>& there) const {
        std::optional<plan::Subject> unknown;
        bool wired = false;
        for (std::size_t n = 0; n < net_.nodes.size(); ++n) {
            if (!there[n]) continue;
            for (const auto& t : net_.nodes[n].terminals) {
                if (network::parameters<plan::Alternator>(in_, t.component)) return {}; // D+: turning
                if (const auto* s = network::parameters<plan::SignalPoint>(in_, t.component)) {
                    if (s->supplied != plan::Supplied::unknown) return {};
                    unknown = plan::Subject::of(t.component);
                }
                if (network::parameters<plan::Battery>(in_, t.component) ||
                    network::parameters<plan::Relay>(in_, t.component) ||
                    network::parameters<plan::Switch>(in_, t.component))
                    return {};
                if (const auto* tap = network::parameters<plan::TakeOffPoint>(in_, t.component)) {
                    if (tap->supplied != plan::Supplied::unknown) return {};
                    unknown = plan::Subject::of(t.component);
                }
            }
        }
        for (std::size_t b = 0; b < net_.branches.size(); ++b) {
            const auto* wire = conductor_of(facts_, static_cast<int>(b));
            if (!wire || !there[at(net_.branches[b].a)]) continue;
            wired = true;
            if (wire->supplied != plan::Supplied::unknown) return {};
        }
        return wired ? unknown : std::nullopt;
    }

    void devices_asked() {
        for (const Device& d : devices(facts_)) {
            const auto& branch = net_.branches[at(d.branch)];
            const auto* c = in_.components.find(branch.component);
            if (!c || !plan::is_ours(c->origin)) continue;
            const std::string prefix = d.subject.part.empty() ? "" : "ways." + d.subject.part + ".";
            const auto subject = plan::Subject::of(branch.component);
            if (!d.rating) missing(subject, prefix + "rating", true);
            if (!d.type && branch.kind != network::BranchKind::breaker)
                missing(subject, prefix + "type", false);
        }
    }

    const Facts& facts_;
    const plan::Installation& in_;
    const network::Network& net_;
    std::vector<OpenQuestion> out_;
    std::map<std::pair<plan::Subject, std::string>, std::size_t> asked_; ///< index in out_
};

} // namespace

std::vector<OpenQuestion> open_questions(const Facts& facts) {
    return Asker(facts).run();
}

} // namespace fl::rules
