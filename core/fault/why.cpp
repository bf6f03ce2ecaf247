#include "core/catalogue/catalogue.h"
#include "core/derive/build.h"
#include "core/fault/back.h"
#include "core/fault/fault.h"
#include "core/fault/shorts.h"
#include "core/network/part.h"
#include "core/plan/names.h"

#include <algorithm>
#include <utility>

namespace fl::fault {
namespace {

using derive::Derivation;
using derive::Leaf;

std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

template <class Q>
Derivation entered_or(std::string symbol, std::string what, Q value, const plan::Entered<Q>& entered,
                      std::string otherwise) {
    const bool own = entered && entered.from != plan::From::assumed;
    return derive::leaf(std::move(symbol), std::move(what), value, own ? Leaf::entered : Leaf::assumed,
                        own ? std::string(plan::name(entered.from)) : std::move(otherwise));
}

class Why {
public:
    Why(const plan::Installation& in, const network::Network& net)
        : in_(in)
        , net_(net)
        , shorts_(strongest(in, net), backs(in, net)) {}

    Derivation at_fault(const Fault& fault) const {
        const auto s = shorts_.between(fault.node, fault.back);
        std::vector<Derivation> inputs;
        std::string formula;
        for (const Share& share : fault.shares)
            for (std::size_t i = 0; i < shorts_.snapshot().feeders.size(); ++i) {
                const Feeder& f = shorts_.snapshot().feeders[i];
                if (f.component != share.source || s->feeder_A[i] == 0) continue;
                formula += (formula.empty() ? "" : " + ") + ("I_" + designation(f));
                inputs.push_back(part(f, *s, i, fault));
            }
        return derive::step("I_k", "largest steady fault current", formula, fault.total, std::move(inputs),
                            "IEC 61660-1, shape and factors from memory");
    }

private:
    std::string designation(const Feeder& f) const {
        const auto* c = in_.components.find(f.component);
        return c ? c->designation : std::string{};
    }

    Derivation part(const Feeder& f, const Short& s, std::size_t i, const Fault& fault) const {
        const Current current = Current::si(s.feeder_A[i]);
        const std::string name = designation(f), symbol = "I_" + name;
        if (f.limited() && s.feeder_A[i] >= f.limit_A) {
            const auto factor = catalogue::default_number("fault.limited_source");
            auto limit = derive::leaf("I_max", "limit", Current::si(f.limit_A / factor.value), Leaf::entered,
                                      "entered, else the catalogue's default");
            auto over = derive::leaf("f", "over its limit in a fault", Ratio::si(factor.value), Leaf::table,
                                     factor.source.citation);
            return derive::step(symbol, "from " + name + ", which limits itself", "I_max · f", current,
                                {std::move(limit), std::move(over)});
        }
        std::vector<Derivation> inputs{emf(f), resistance(f)};
        const Voltage left = Voltage::si(s.feeder_V[i]);
        auto lines = way(f, fault);
        inputs.push_back(lines.empty()
                             ? derive::leaf("U_" + name, "voltage left at its terminals", left, Leaf::solved,
                                            "shorted where it stands")
                             : derive::step("U_" + name, "voltage left at its terminals",
                                            "what the way there and back takes", left, std::move(lines)));
        return derive::step(symbol, "from " + name, "(E − U) / R_i", current, std::move(inputs));
    }

    Derivation emf(const Feeder& f) const {
        const Voltage value = Voltage::si(f.emf_V);
        if (f.limited())
            return derive::leaf("E", "set voltage", value, Leaf::assumed,
                                "entered, else the catalogue's default");
        const auto* b = battery(f);
        const auto chemistry = b ? b->chemistry : plan::Chemistry::lead_flooded;
        return derive::leaf("E", "rest voltage, full", value, Leaf::table,
                            catalogue::chemistry(chemistry).source.citation);
    }

    Derivation resistance(const Feeder& f) const {
        const Resistance value = Resistance::si(f.ohm);
        if (f.limited())
            return derive::leaf("R_i", "droop", value, Leaf::assumed,
                                catalogue::default_number("regulator.droop").source.citation);
        const auto* b = battery(f);
        if (!b) {
            const auto* c = in_.components.find(f.component);
            const auto* t = c ? std::get_if<plan::TakeOffPoint>(&c->with) : nullptr;
            return entered_or("R_i", "resistance behind it", value,
                              t ? t->resistance : plan::Entered<Resistance>{},
                              "the vehicle's battery by default");
        }
        // A lithium pack's entered figure is for running; a short is fed by its cells alone where that is
        // less.
        const bool own = b->resistance && *b->resistance == value;
        return entered_or("R_i", own ? "its resistance" : "resistance of its cells alone", value,
                          own ? b->resistance : plan::Entered<Resistance>{},
                          catalogue::chemistry(b->chemistry).source.citation);
    }

    const plan::Battery* battery(const Feeder& f) const {
        for (const auto& p : net_.ports)
            if (p.component == f.component && p.plus == f.plus)
                if (const auto* b = network::parameters<plan::Battery>(in_, p)) return b;
        return nullptr;
    }

    /// What lies on the shortest way from the source to the fault, and from there back.
    std::vector<Derivation> way(const Feeder& f, const Fault& fault) const {
        std::vector<bool> usable(net_.branches.size());
        for (const auto& e : shorts_.snapshot().elements) usable[at(e.branch)] = true;
        std::vector<Derivation> out;
        for (const auto& [from, to] : {std::pair(f.plus, fault.node), std::pair(fault.back, f.minus)})
            if (const auto found = network::shortest_way(in_, net_, {from}, to, usable))
                for (const int branch : found->branches)
                    if (const double ohm = ohm_of(branch); ohm > 0) out.push_back(line(branch, ohm));
        return out;
    }

    double ohm_of(int branch) const {
        const auto& elements = shorts_.snapshot().elements;
        const auto found = std::find_if(elements.begin(), elements.end(),
                                        [&](const Element& e) { return e.branch == branch; });
        return found == elements.end() ? 0 : found->ohm;
    }

    Derivation line(int branch, double ohm) const {
        const auto& b = net_.branches[at(branch)];
        const Resistance value = Resistance::si(ohm);
        const auto* w = in_.conductors.find(b.conductor);
        if (!w) {
            const auto* c = in_.components.find(b.component);
            const std::string name = c ? c->designation : std::string{};
            return derive::leaf("R_" + name, "resistance of " + name, value, Leaf::assumed,
                                "entered, else a cold link's");
        }
        const auto length = plan::length_of(in_, *w);
        std::vector<Derivation> inputs{derive::leaf("ρ", "annealed copper at 20 °C, Ω·mm²/m as Ω/m of 1 mm²",
                                                    ResistancePerLength::si(0.017241), Leaf::constant,
                                                    "IEC 60028, as IEC 60949 quotes it")};
        if (w->size)
            inputs.push_back(
                derive::leaf("A", "size", *w->size, Leaf::entered, std::string(plan::name(w->size.from))));
        if (length)
            inputs.push_back(
                derive::leaf("L", "length", *length, Leaf::entered, std::string(plan::name(length.from))));
        return derive::step("R_" + w->designation, "resistance of " + w->designation,
                            "ρ · L / A, and joints entered", value, std::move(inputs));
    }

    const plan::Installation& in_;
    const network::Network& net_;
    Shorts shorts_;
};

} // namespace

Derivation why_largest(const plan::Installation& installation, const network::Network& network, int node) {
    const auto fault = largest(installation, network, node);
    if (!fault)
        return derive::not_known("I_k", "largest steady fault current", "no source reaches this point", {});
    return Why(installation, network).at_fault(*fault);
}

} // namespace fl::fault
