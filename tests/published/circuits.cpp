#include "core/solve/reading.h"
#include "core/solve/solution.h"
#include "tests/published/functions.h"

namespace fl::published {
namespace {

using solve::Element;
using solve::ElementKind;

// A printed circuit: its nodes and parts by the names the row gives them.
class Drawn {
public:
    solve::Circuit circuit;

    int node(const std::string& name) {
        const auto [at, fresh] = nodes_.try_emplace(name, circuit.nodes);
        if (fresh) ++circuit.nodes;
        return at->second;
    }
    void name(const std::string& part, Element element) {
        if (!parts_.emplace(part, element).second) throw BadRow("two parts are called " + part);
    }
    Element part(const std::string& name) const {
        const auto found = parts_.find(name);
        if (found == parts_.end()) throw BadRow("no part is called " + name);
        return found->second;
    }

private:
    std::map<std::string, int> nodes_;
    std::map<std::string, Element> parts_;
};

template <class T>
Element last(const std::vector<T>& all, ElementKind kind) {
    return {kind, static_cast<int>(all.size()) - 1};
}

void battery(Drawn& d, Inputs& in) {
    const double ohm = in.quantity<Resistance>("r").si();
    d.circuit.batteries.push_back({.plus = d.node(in.text("plus")),
                                   .minus = d.node(in.text("minus")),
                                   .emf_V = in.quantity<Voltage>("emf").si(),
                                   .discharge_ohm = ohm,
                                   .charge_ohm = ohm});
    d.name(in.text("name"), last(d.circuit.batteries, ElementKind::battery));
}

// A source of a printed current: so far above its set voltage's reach that only its limit counts.
void current_source(Drawn& d, Inputs& in) {
    d.circuit.regulators.push_back({.plus = d.node(in.text("plus")),
                                    .minus = d.node(in.text("minus")),
                                    .set_V = in.quantity<Voltage>("up_to").si(),
                                    .droop_ohm = 1e-3,
                                    .limit_A = in.quantity<Current>("limit").si()});
    d.name(in.text("name"), last(d.circuit.regulators, ElementKind::regulator));
}

void resistor(Drawn& d, Inputs& in) {
    solve::Resistor made{.a = d.node(in.text("a")), .b = d.node(in.text("b")), .thermal = {}};
    made.r20_ohm = in.quantity<Resistance>("r").si();
    if (in.has("at")) made.at_C = in.quantity<Temperature>("at").celsius();
    d.circuit.resistors.push_back(made);
    d.name(in.text("name"), last(d.circuit.resistors, ElementKind::resistor));
}

void load(Drawn& d, Inputs& in) {
    solve::Load made{.plus = d.node(in.text("plus")), .minus = d.node(in.text("minus"))};
    if (in.has("r")) {
        made.value = in.quantity<Resistance>("r").si();
    } else {
        made.law = in.has("power") ? solve::LoadLaw::power : solve::LoadLaw::current;
        made.value =
            in.has("power") ? in.quantity<Power>("power").si() : in.quantity<Current>("current").si();
        made.knee_V = in.quantity<Voltage>("knee").si();
    }
    d.circuit.loads.push_back(made);
    d.name(in.text("name"), last(d.circuit.loads, ElementKind::load));
}

template <class Add>
void each(Drawn& d, Inputs& in, const std::string& key, Add add) {
    for (Inputs& part : in.list(key)) {
        add(d, part);
        part.all_read();
    }
}

Drawn drawn(Inputs& in) {
    Drawn d;
    each(d, in, "batteries", battery);
    each(d, in, "current_sources", current_source);
    each(d, in, "resistors", resistor);
    each(d, in, "loads", load);
    return d;
}

double current(const solve::Solution& s, Element e) {
    const auto i = static_cast<std::size_t>(e.index);
    switch (e.kind) {
    case ElementKind::resistor:
        return s.resistor_A.at(i);
    case ElementKind::battery:
        return s.battery_A.at(i);
    case ElementKind::regulator:
        return s.regulator_A.at(i);
    case ElementKind::load:
        return s.load_A.at(i);
    default:
        throw BadRow("no current there");
    }
}

solve::Solution solved(const solve::Circuit& circuit) {
    solve::Solution s = solve::operating_point(circuit);
    if (!s.usable) throw BadRow("no operating point");
    for (const std::string& broken : laws_not_met(circuit, s)) throw BadRow("law not met: " + broken);
    return s;
}

// "current": a part's, in the solver's signs; "power": what a part takes; "voltage": between two nodes.
Answer operating_point(Inputs& in) {
    Drawn d = drawn(in);
    const solve::Solution s = solved(d.circuit);
    if (in.has("current")) return current(s, d.part(in.text("current")));
    if (in.has("power")) return given(solve::power(d.circuit, s, d.part(in.text("power"))));
    const auto ends = in.words("voltage");
    if (ends.size() != 2) throw BadRow("a voltage is between two nodes");
    return given(solve::voltage(s, d.node(ends[0]), d.node(ends[1])));
}

Answer resistance_between(Inputs& in) {
    Drawn d = drawn(in);
    const auto ends = in.words("between");
    if (ends.size() != 2) throw BadRow("a resistance is between two nodes");
    return given(solve::resistance_between(d.circuit, solved(d.circuit), d.node(ends[0]), d.node(ends[1])));
}

} // namespace

void add_solve(Registry& registry) {
    registry["solve.operating_point"] = operating_point;
    registry["solve.resistance_between"] = resistance_between;
}

} // namespace fl::published
