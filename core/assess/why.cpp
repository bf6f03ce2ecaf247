#include "core/assess/assess.h"
#include "core/assess/path.h"

#include <algorithm>
#include <cmath>

namespace fl::assess {
namespace {

using derive::Derivation;
using derive::Leaf;

Derivation solved_leaf(std::string symbol, std::string what, derive::Value value) {
    return {std::move(symbol),
            std::move(what),
            "",
            std::move(value),
            Leaf::solved,
            "solved with all other currents",
            {}};
}

Derivation entered_leaf(std::string symbol, std::string what, derive::Value value, plan::From from) {
    const bool assumed = from == plan::From::assumed || from == plan::From::unknown;
    return {std::move(symbol),
            std::move(what),
            "",
            std::move(value),
            assumed ? Leaf::assumed : Leaf::entered,
            assumed                          ? "assumed"
            : from == plan::From::label      ? "from label"
            : from == plan::From::data_sheet ? "from data sheet"
                                             : "entered",
            {}};
}

class Explainer {
public:
    Explainer(const Assessment& a, const Question& q)
        : a_(a)
        , q_(q) {}

    Result<Derivation> run() const {
        switch (q_.quantity) {
        case Quantity::current:
            return current();
        case Quantity::drop:
            return drop();
        case Quantity::may_carry:
            return may_carry();
        case Quantity::fault:
            return fault();
        }
        return no_such();
    }

private:
    tl::unexpected<Problem> no_such() const {
        return fail("why.subject", "", "there is no such number here", "ask for a conductor or a load");
    }
    tl::unexpected<Problem> not_known(std::string reason, std::string cure) const {
        return fail("why.unknown", "", "not known: " + std::move(reason), std::move(cure));
    }
    const plan::Conductor* conductor() const {
        return q_.subject.kind == plan::Subject::Kind::conductor
                   ? a_.installation.conductors.find({q_.subject.id})
                   : nullptr;
    }
    // The load asked for, or the port of the part asked for.
    int port() const {
        if (q_.subject.kind != plan::Subject::Kind::component) return -1;
        for (std::size_t p = 0; p < a_.network.ports.size(); ++p)
            if (a_.network.ports[p].component.value == q_.subject.id) return static_cast<int>(p);
        return -1;
    }
    const condition::Solved* condition_named(const std::string& name) const {
        for (const condition::Solved& s : a_.conditions)
            if (s.condition.name == name) return &s;
        return nullptr;
    }
    // The condition asked for, or the one that set an extreme.
    // The condition asked for, or the one of its greatest current, which may only flow for a short time.
    const condition::Solved* governing_branch(int branch) const {
        if (!q_.condition.empty()) return condition_named(q_.condition);
        const auto greatest = greatest_current(a_, branch);
        return greatest ? &a_.conditions[static_cast<std::size_t>(greatest->condition)] : nullptr;
    }
    template <class Q>
    const condition::Solved* governing(const condition::Extreme<Q>& extreme) const {
        if (!q_.condition.empty()) return condition_named(q_.condition);
        return extreme ? &a_.conditions[static_cast<std::size_t>(extreme.condition)] : nullptr;
    }

    Derivation resistance_of(const plan::Conductor& w, const solve::Resistor& r, double celsius) const {
        Derivation d{
            "R", "resistance of " + w.designation, "R_core + R_joints", Resistance{}, Leaf::solved, "", {}};
        const plan::Entered<Length> length = plan::length_of(a_.installation, w);
        double ohm = r.fixed_ohm;
        if (w.size && length && !a_.installation.basis.ideal_copper) {
            Derivation core = sizing::why_resistance(*w.size, *length, Temperature::celsius(celsius));
            if (const auto* value = std::get_if<Resistance>(&core.value)) ohm += value->si();
            d.inputs.push_back(std::move(core));
        } else {
            ohm += r.r20_ohm;
            Derivation core{"R_core",
                            "copper at 20 °C",
                            "17.241 mΩ·mm²/m · L / A",
                            Resistance::si(r.r20_ohm),
                            Leaf::solved,
                            "IEC 60028 annealed copper",
                            {}};
            if (length) core.inputs.push_back(entered_leaf("L", "length, one way", *length, length.from));
            if (w.size) core.inputs.push_back(entered_leaf("A", "area", *w.size, w.size.from));
            d.inputs.push_back(std::move(core));
        }
        d.inputs.push_back({"R_joints",
                            "joints at its two ends",
                            "",
                            Resistance::si(r.fixed_ohm),
                            Leaf::assumed,
                            "entered, else common practice by kind of termination",
                            {}});
        d.value = Resistance::si(ohm);
        return d;
    }

    Result<Derivation> current() const {
        const plan::Conductor* w = conductor();
        if (!w) return taken();
        const int b = a_.network.branch_of(w->id);
        if (b < 0) return no_such();
        const auto n = static_cast<std::size_t>(b);
        const condition::Solved* s = governing_branch(b);
        if (!s) return not_known("no condition sets its current", "connect it, or choose a condition");
        if (!s->solution.usable)
            return not_known("this condition has no operating point", "see the findings");
        const int r = s->setup.map.resistor_of_branch[n];
        if (r < 0)
            return Derivation{
                "I", "current in " + w->designation, "", 0_A, Leaf::constant, "it carries no power here", {}};
        const auto k = static_cast<std::size_t>(r);
        const solve::Resistor& resistor = s->setup.circuit.resistors[k];
        const double amps = std::fabs(s->solution.resistor_A[k]);
        const auto volt = [&](int node) {
            return Voltage::si(s->solution.node_V[static_cast<std::size_t>(node)]);
        };
        Derivation d{"I",
                     "current in " + w->designation + ", " + s->condition.name,
                     "|U_a − U_b| / R",
                     Current::si(amps),
                     Leaf::solved,
                     "Ohm's law; all currents solved together",
                     {}};
        const Voltage ua = volt(resistor.a), ub = volt(resistor.b);
        d.inputs.push_back(solved_leaf("U_a", "voltage at " + plan::text(a_.installation, w->from), ua));
        d.inputs.push_back(solved_leaf("U_b", "voltage at " + plan::text(a_.installation, w->to), ub));
        d.inputs.push_back(resistance_of(*w, resistor, s->solution.resistor_C[k]));
        return d;
    }

    // What a load takes, by its own law.
    Result<Derivation> taken() const {
        const int p = port();
        if (p < 0) return no_such();
        const auto n = static_cast<std::size_t>(p);
        const plan::Component* c = a_.installation.components.find(a_.network.ports[n].component);
        if (!c || c->kind() != plan::Kind::load) return no_such();
        const condition::Solved* s = governing(a_.envelope.port_current[n]);
        if (!s) return not_known("no condition sets its current", "connect it, or choose a condition");
        const int l = s->setup.map.load_of_port[n];
        if (l < 0 || !s->solution.usable)
            return not_known("this condition has no operating point", "see the findings");
        const auto k = static_cast<std::size_t>(l);
        const solve::Load& load = s->setup.circuit.loads[k];
        Derivation d{"I", "current of " + c->designation + ", " + s->condition.name,
                     "",  Current::si(s->solution.load_A[k]),
                     {},  "",
                     {}};
        d.leaf = Leaf::solved;
        d.source = "the law of the load; all currents solved together";
        if (!load.on) {
            d.source = "it is off in this condition";
            return d;
        }
        const auto volts = condition::port_voltage(a_.network, *s, p);
        const Voltage across = volts.value_or(0_V);
        const std::string all = std::get<plan::Load>(c->with).count > 1 ? ", all together" : "";
        if (s->solution.load_mode[k] == solve::LoadMode::below_knee) {
            d.formula = "by its law, less below U_knee";
            d.inputs.push_back(solved_leaf("U_knee", "below this it takes less", Voltage::si(load.knee_V)));
        } else {
            d.formula = load.law == solve::LoadLaw::power     ? "P / U"
                        : load.law == solve::LoadLaw::current ? "I_rated"
                                                              : "U / R";
        }
        if (load.law == solve::LoadLaw::power)
            d.inputs.push_back(solved_leaf("P", "power" + all, Power::si(load.value)));
        else if (load.law == solve::LoadLaw::current)
            d.inputs.push_back(solved_leaf("I_rated", "rated current" + all, Current::si(load.value)));
        else
            d.inputs.push_back(solved_leaf("R", "resistance" + all, Resistance::si(load.value)));
        d.inputs.front().leaf = Leaf::entered;
        if (load.law != solve::LoadLaw::current || d.inputs.size() > 1)
            d.inputs.push_back(solved_leaf("U", "voltage at " + c->designation, across));
        return d;
    }

    // What one conductor and its joints lose, of the condition of its greatest current.
    Result<Derivation> lost(const plan::Conductor& w) const {
        const int b = a_.network.branch_of(w.id);
        if (b < 0) return no_such();
        const condition::Solved* s = governing_branch(b);
        if (!s) return not_known("no condition sets its current", "connect it, or choose a condition");
        if (!s->solution.usable)
            return not_known("this condition has no operating point", "see the findings");
        Derivation d = lost_in(*s, static_cast<std::size_t>(b));
        d.symbol = "ΔU";
        d.what = "drop in " + w.designation + ", " + s->condition.name;
        d.source = "its joints are part of it";
        return d;
    }

    Result<Derivation> drop() const {
        if (const plan::Conductor* w = conductor()) return lost(*w);
        const int p = port();
        if (p < 0) return no_such();
        const auto n = static_cast<std::size_t>(p);
        const condition::Solved* s = governing(a_.envelope.port_drop[n]);
        if (!s) return not_known("no condition sets its drop", "connect the load to a source");
        const LoadPath path = path_of(a_, p);
        const auto feeds = condition::terminals_of(a_.network, path.reference);
        if (feeds.plus < 0 || !s->solution.usable)
            return not_known("it has no reference source here", "connect it");
        const auto source = condition::voltage_between(*s, feeds);
        const auto own = condition::port_voltage(a_.network, *s, p);
        if (!source || !own) return not_known("this condition has no operating point", "see the findings");
        const Voltage value = q_.condition.empty() ? a_.envelope.port_drop[n].value : *source - *own;
        const auto named = [&](plan::ComponentId id) {
            const auto* c = a_.installation.components.find(id);
            return c ? c->designation : std::string();
        };
        const auto name = [&](int index) {
            return named(a_.network.ports[static_cast<std::size_t>(index)].component);
        };
        const auto& r = path.reference;
        std::string feeder =
            r.port >= 0 ? name(r.port)
                        : named(a_.network.converters[static_cast<std::size_t>(r.converter)].component);
        if (r.lowest != r.port) feeder += " to " + name(r.lowest); // in series
        Derivation d{"ΔU",
                     "drop to " + name(p) + ", " + s->condition.name,
                     "U_source − U_load",
                     value,
                     Leaf::solved,
                     "both poles together",
                     {}};
        d.inputs.push_back(solved_leaf("U_source", "at the terminals of " + feeder, *source));
        d.inputs.push_back(solved_leaf("U_load", "at the terminals of " + name(p), *own));
        for (const auto* leg : {&path.plus, &path.minus})
            for (int b : *leg) d.inputs.push_back(lost_in(*s, static_cast<std::size_t>(b)));
        return d;
    }

    Derivation lost_in(const condition::Solved& s, std::size_t b) const {
        const network::Branch& branch = a_.network.branches[b];
        const plan::Conductor* w = a_.installation.conductors.find(branch.conductor);
        const plan::Component* c = a_.installation.components.find(branch.component);
        const std::string name = w ? w->designation : c ? c->designation : std::string();
        const int r = s.setup.map.resistor_of_branch[b];
        if (r < 0) return solved_leaf("U", "lost in " + name, 0_V);
        const auto k = static_cast<std::size_t>(r);
        const solve::Resistor& resistor = s.setup.circuit.resistors[k];
        const double volts = std::fabs(s.solution.node_V[static_cast<std::size_t>(resistor.a)] -
                                       s.solution.node_V[static_cast<std::size_t>(resistor.b)]);
        Derivation d{"U", "lost in " + name, "I · R", Voltage::si(volts), Leaf::solved, "", {}};
        d.inputs.push_back(solved_leaf("I", "current", Current::si(std::fabs(s.solution.resistor_A[k]))));
        if (w)
            d.inputs.push_back(resistance_of(*w, resistor, s.solution.resistor_C[k]));
        else
            d.inputs.push_back({"R",
                                "resistance of " + name,
                                "",
                                Resistance::si(resistor.fixed_ohm + resistor.r20_ohm),
                                Leaf::assumed,
                                "entered, else the catalogue's default",
                                {}});
        return d;
    }

    Result<Derivation> may_carry() const {
        const plan::Conductor* w = conductor();
        if (!w) return no_such();
        if (!w->size) return not_known("its size is not known", "enter its size");
        const sizing::Lie lie = sizing::lie_of(a_.installation, *w);
        if (!sizing::may_carry(*w->size, lie))
            return not_known("no table has this size and insulation", "choose another");
        return sizing::why_may_carry(*w->size, lie);
    }

    Result<Derivation> fault() const {
        int node = -1;
        if (const plan::Conductor* w = conductor())
            node = a_.network.node_of(w->to);
        else if (q_.subject.kind == plan::Subject::Kind::component && !q_.subject.part.empty())
            node = a_.network.node_of({plan::ComponentId{q_.subject.id}, q_.subject.part});
        else if (const int p = port(); p >= 0)
            node = a_.network.ports[static_cast<std::size_t>(p)].plus;
        if (node < 0) return no_such();
        if (!a_.faults[static_cast<std::size_t>(node)].largest)
            return not_known("no source reaches this point", "connect it");
        return fault::why_largest(a_.installation, a_.network, node);
    }

    const Assessment& a_;
    const Question& q_;
};

} // namespace

Result<Derivation> why(const Assessment& assessment, const Question& question) {
    return Explainer(assessment, question).run();
}

} // namespace fl::assess
