#include "core/condition/saying.h"

#include "core/condition/latches.h"
#include "core/solve/reading.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

namespace fl::condition {
namespace {

constexpr std::array<std::string_view, 22> codes{
    "solve.starved",       "solve.collapsed",    "solve.over-voltage",  "solve.dead",
    "solve.weak-input",    "solve.feeds-itself", "solve.circulates",    "solve.opposed",
    "solve.no-resistance", "solve.too-hot",      "solve.not-known",     "solve.hunts",
    "solve.two-states",    "solve.drops-out",    "solve.opens-current", "solve.opens-voltage",
    "solve.charge-opens",  "solve.charge-cold",  "solve.gives-up",      "solve.input-high",
    "solve.run-high",      "solve.bank-uneven"};

class Sayer {
public:
    Sayer(const Drawn& drawn, const Solved& solved)
        : d_(drawn)
        , s_(solved) {}

    std::vector<Saying> run() {
        for (const auto& v : s_.solution.verdicts) verdict(v);
        for (const LetGo& gone : s_.let_go) let_go(gone);
        for (int i = 0; i < count(s_.runs); ++i) runs(i);
        if (s_.solution.usable) {
            for (int i = 0; i < count(d_.network.converters); ++i) run_input(i), plain_input(i);
            for (int i = 0; i < count(d_.network.ports); ++i) bank(i);
        }
        return std::move(out_);
    }

private:
    const Drawn& d_;
    const Solved& s_;
    std::vector<Saying> out_;

    Saying& say(std::string_view code, plan::Subject subject) {
        Saying made;
        made.code = code;
        if (subject.id != 0) made.subjects.push_back(std::move(subject));
        made.condition = s_.condition.name;
        out_.push_back(std::move(made));
        return out_.back();
    }
    std::string designation(const plan::Subject& s) const {
        if (const auto* c = d_.in.components.find(plan::ComponentId{s.id});
            c && s.kind == plan::Subject::Kind::component)
            return s.part.empty() ? c->designation : c->designation + "." + s.part;
        const auto* w = d_.in.conductors.find(plan::ConductorId{s.id});
        return w ? w->designation : std::string();
    }
    static int behind(const std::vector<int>& map, int index) {
        const auto found = std::find(map.begin(), map.end(), index);
        return found == map.end() ? -1 : static_cast<int>(found - map.begin());
    }
    plan::Subject of_port(int i) const { return plan::Subject::of(item(d_.network.ports, i).component); }
    plan::Subject of_converter(int i) const {
        return plan::Subject::of(item(d_.network.converters, i).component);
    }
    plan::Subject of_branch(int i) const {
        const auto& b = item(d_.network.branches, i);
        if (b.conductor) return plan::Subject::of(b.conductor);
        if (b.kind == network::BranchKind::way) {
            const auto* c = d_.in.components.find(b.component);
            const auto names = c ? plan::terminals(c->with) : std::vector<std::string>();
            if (b.element < 0 && b.part + 1 < count(names))
                return plan::Subject::of(b.component, item(names, b.part + 1)); // "in" stands first
        }
        return plan::Subject::of(b.component);
    }
    plan::Subject subject(const solve::Element& e) const {
        const auto& map = s_.setup.map;
        int i = -1;
        switch (e.kind) {
        case solve::ElementKind::resistor:
            i = behind(map.resistor_of_branch, e.index);
            return i < 0 ? plan::Subject{} : of_branch(i);
        case solve::ElementKind::battery:
            i = behind(map.battery_of_port, e.index);
            break;
        case solve::ElementKind::regulator:
            i = behind(map.regulator_of_port, e.index);
            break;
        case solve::ElementKind::load:
            i = behind(map.load_of_port, e.index);
            break;
        case solve::ElementKind::converter:
            i = behind(map.converter_of, e.index);
            return i < 0 ? plan::Subject{} : of_converter(i);
        case solve::ElementKind::diode:
            i = behind(map.diode_of_branch, e.index);
            return i < 0 ? plan::Subject{} : of_branch(i);
        case solve::ElementKind::none:
            break;
        }
        return i < 0 ? plan::Subject{} : of_port(i);
    }

    /// From a converter's output a way leads back to its input over what is closed and over other converters
    /// that run, without the return. A return shared by both sides makes one network of them, but nothing
    /// comes back through it.
    bool comes_back(int converter) const {
        const auto& net = d_.network;
        const auto& mine = item(net.converters, converter);
        const auto full_V = solve::voltage(s_.solution, mine.out_plus, mine.out_minus);
        if (!full_V) return false;
        std::vector<bool> closed;
        for (int i = 0; i < count(net.branches); ++i) {
            const auto& b = item(net.branches, i);
            const bool carries =
                item(s_.setup.map.resistor_of_branch, i) >= 0 && item(s_.setup.circuit.resistors, i).closed;
            closed.push_back(carries && is_plus_side(b.a, mine, *full_V) && is_plus_side(b.b, mine, *full_V));
        }
        const auto islands = network::islands(net, closed);
        std::set<int> reached{item(islands, mine.out_plus)};
        for (bool more = true; more;) {
            more = false;
            for (int k = 0; k < count(net.converters); ++k)
                if (item(s_.solution.converter_out_A, k) > 0 &&
                    reached.contains(item(islands, item(net.converters, k).in_plus)))
                    more = reached.insert(item(islands, item(net.converters, k).out_plus)).second || more;
        }
        return reached.contains(item(islands, mine.in_plus));
    }
    bool is_plus_side(int node, const network::TwoPort& converter, double full_V) const {
        return solve::voltage(s_.solution, node, converter.out_minus).value_or(0) > full_V / 2;
    }

    void starved(const solve::Verdict& v, const plan::Subject& who) {
        const auto& load = item(s_.setup.circuit.loads, v.subject.index);
        const double knee_V = item(s_.solution.load_knee_V, v.subject.index);
        const bool collapsed = load.law == solve::LoadLaw::power && v.reached_V < knee_V * (1 - 1e-6) &&
                               v.greatest_W && *v.greatest_W < load.value;
        Saying& made = say(collapsed ? "solve.collapsed" : "solve.starved", who);
        made.values["reached"] = Voltage::si(v.reached_V);
        if (load.lowest_V > 0 && !collapsed) made.values["lowest"] = Voltage::si(load.lowest_V);
        if (collapsed) made.values["asked"] = Power::si(load.value);
        if (v.greatest_W && *v.greatest_W > 0) made.values["greatest"] = Power::si(*v.greatest_W);
        if (const auto limiting = subject(v.limiting); limiting.id != 0)
            made.values[limiting.kind == plan::Subject::Kind::conductor ? "limiting" : "loses"] =
                designation(limiting);
    }

    void verdict(const solve::Verdict& v) {
        const plan::Subject who = subject(v.subject);
        using enum solve::VerdictCode;
        switch (v.code) {
        case starved:
            this->starved(v, who);
            return;
        case over_voltage: {
            Saying& made = say("solve.over-voltage", who);
            made.values["reached"] = Voltage::si(v.reached_V);
            made.values["highest"] = Voltage::si(item(s_.setup.circuit.loads, v.subject.index).highest_V);
            return;
        }
        case dead:
            say("solve.dead", who);
            return;
        case converter_starved:
            say("solve.weak-input", who).values["reached"] = Voltage::si(v.reached_V);
            return;
        case feeds_itself:
            say("solve.feeds-itself", who);
            return;
        case circulates:
            if (!comes_back(behind(s_.setup.map.converter_of, v.subject.index))) return;
            say("solve.circulates", who).values["power"] = Power::si(v.greatest_W.value_or(0));
            return;
        case opposed_sources:
            // Usable: a loop of no resistance without a source; only its own current is not known.
            say(s_.solution.usable ? "solve.no-resistance" : "solve.opposed", who);
            return;
        case too_hot:
            say("solve.too-hot", who).values["current"] =
                Current::si(std::abs(item(s_.solution.resistor_A, v.subject.index)));
            return;
        case not_known:
            say("solve.not-known", {});
            return;
        }
    }

    void let_go(const LetGo& gone) {
        using Why = LetGo::Why;
        const plan::Subject who = gone.port >= 0 ? of_port(gone.port) : of_converter(gone.converter);
        std::string_view code = "solve.drops-out";
        if (gone.of == LetGo::Of::battery_discharge)
            code = gone.why == Why::current ? "solve.opens-current" : "solve.opens-voltage";
        if (gone.of == LetGo::Of::battery_charge)
            code = gone.why == Why::cold ? "solve.charge-cold" : "solve.charge-opens";
        if (gone.of == LetGo::Of::converter)
            code = gone.why == Why::voltage_high ? "solve.input-high" : "solve.gives-up";
        Saying& made = say(code, who);
        const auto value = [&](double si) -> derive::Value {
            if (gone.why == Why::current) return Current::si(si);
            if (gone.why == Why::cold) return Temperature::celsius(si);
            return Voltage::si(si);
        };
        made.values["reached"] = value(gone.reached);
        if (gone.why != Why::cold) made.values["limit"] = value(gone.limit);
        const bool tries = code == "solve.drops-out" || code == "solve.gives-up";
        if (gone.again && tries) made.values["again"] = std::int64_t{1};
    }

    /// Nothing tells it that the engine runs.
    bool by_voltage_alone(int i) const {
        const auto& port = item(d_.network.converters, i);
        const auto* c = network::parameters<plan::DriveCharger>(d_.in, port);
        const auto& all = d_.network.branches;
        const bool wired =
            port.run >= 0 && std::any_of(all.begin(), all.end(), [&](const network::Branch& b) {
                return b.a == port.run || b.b == port.run;
            });
        return c && !c->needs_run_signal.value.value_or(wired);
    }

    void runs(int i) {
        if (item(s_.runs, i) == Runs::both) say("solve.two-states", of_converter(i));
        if (item(s_.runs, i) != Runs::hunts || !has_latch(d_, item(d_.network.converters, i))) return;
        Saying& made = say("solve.hunts", of_converter(i));
        if (by_voltage_alone(i)) made.values["by_voltage"] = std::int64_t{1};
        if (s_.hunting_s > 0) made.values["period"] = Time::si(s_.hunting_s);
        if (!s_.share_on.empty()) made.values["share"] = Ratio::si(item(s_.share_on, i));
        // Its input's voltage in the two positions.
        const auto& port = item(d_.network.converters, i);
        const auto input = [&](const Solved& at) {
            return solve::voltage(at.solution, port.in_plus, port.in_minus);
        };
        const auto is_on = [&](const Solved& at) { return item(at.setup.circuit.converters, i).on; };
        std::vector<const Solved*> all{&s_};
        for (const Solved& other : s_.also) all.push_back(&other);
        for (const Solved* at : all)
            if (const auto v = input(*at))
                made.values.try_emplace(is_on(*at) ? "with" : "without", Voltage::si(*v));
    }

    /// A run input takes what the input it stands beside takes; more than that is another system's voltage.
    void run_input(int i) {
        const auto& port = item(d_.network.converters, i);
        const auto* c = network::parameters<plan::DriveCharger>(d_.in, port);
        if (!c || port.run < 0) return;
        const Voltage nominal = c->nominal_in ? *c->nominal_in : d_.nominal_at(port.in_plus);
        const double most = or_else(c->highest_input, default_volts("drive_charger.greatest_input", nominal));
        const auto volts = solve::voltage(s_.solution, port.run, port.in_minus);
        if (!volts || *volts <= most * (1 + 1e-6)) return;
        Saying& made = say("solve.run-high", of_converter(i));
        made.values["reached"] = Voltage::si(*volts);
        made.values["limit"] = Voltage::si(most);
    }

    /// A plain converter has no thresholds; what it stands at its input it has all the same.
    void plain_input(int i) {
        const auto& port = item(d_.network.converters, i);
        const auto* c = network::parameters<plan::Converter>(d_.in, port);
        const auto volts = solve::voltage(s_.solution, port.in_plus, port.in_minus);
        if (!c || !volts) return;
        const Voltage nominal = c->nominal_in ? *c->nominal_in : d_.nominal_at(port.in_plus);
        const double most = or_else(c->highest_input, default_volts("converter.greatest_input", nominal));
        if (*volts <= most * (1 + 1e-6)) return;
        Saying& made = say("solve.input-high", of_converter(i));
        made.values["reached"] = Voltage::si(*volts);
        made.values["limit"] = Voltage::si(most);
    }

    void bank(int i) {
        constexpr double uneven = 0.1, noticed_A = 1; // spread between the greatest and the least share
        const auto* b = network::parameters<plan::Battery>(d_.in, item(d_.network.ports, i));
        if (!b || b->parallel < 2 || !b->link) return;
        const auto all = string_currents(d_, s_, i);
        if (all.empty()) return;
        const auto size = [](Current a, Current c) { return std::abs(a.si()) < std::abs(c.si()); };
        const double most = std::abs(std::max_element(all.begin(), all.end(), size)->si());
        const double least = std::abs(std::min_element(all.begin(), all.end(), size)->si());
        if (most < noticed_A || most <= least * (1 + uneven)) return;
        Saying& made = say("solve.bank-uneven", of_port(i));
        made.values["most"] = Current::si(most);
        made.values["least"] = Current::si(least);
    }
};

} // namespace

std::vector<Saying> sayings(const Drawn& drawn, const Solved& solved) {
    return Sayer(drawn, solved).run();
}

std::vector<std::string_view> saying_codes() {
    return {codes.begin(), codes.end()};
}

} // namespace fl::condition
