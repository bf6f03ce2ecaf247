#include "core/condition/drawn.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace fl::condition {
namespace {

using network::PortKind;

template <class Q>
void raise(Extreme<Q>& e, Q value, int condition) {
    if (e && value <= e.value) return;
    e = {value, condition};
}
template <class Q>
void lower(Extreme<Q>& e, Q value, int condition) {
    if (e && value >= e.value) return;
    e = {value, condition};
}

class Collector {
public:
    Collector(const network::Network& net, Envelope& out)
        : net_(net)
        , out_(out) {
        const std::size_t branches = net.branches.size(), ports = net.ports.size(),
                          two = net.converters.size();
        out.branch_current.resize(branches);
        out.branch_short_current.resize(branches);
        out.branch_temperature.resize(branches);
        out.port_lowest.resize(ports);
        out.port_highest.resize(ports);
        out.port_drop.resize(ports);
        brief_drop_.resize(ports);
        out.port_current.resize(ports);
        out.battery_charge.resize(ports);
        out.converter_lowest_input.resize(two);
        out.converter_input.resize(two);
        out.converter_output.resize(two);
    }

    /// To be called once, after the last condition.
    void finish() {
        for (int i = 0; i < count(net_.ports); ++i)
            if (!item(out_.port_drop, i)) item(out_.port_drop, i) = item(brief_drop_, i);
    }

    void take(const Solved& s, int condition) {
        if (s.solution.usable) {
            branches(s, condition);
            dead_loads(s);
            for (int i = 0; i < count(net_.ports); ++i) port(s, i, condition);
            for (int i = 0; i < count(net_.converters); ++i) converter(s, i, condition);
        }
        for (const Solved& other : s.also) take(other, condition);
    }

private:
    void branches(const Solved& s, int condition) {
        const bool lasting = may_set(s.condition, plan::Use::lasting_current);
        const bool brief = may_set(s.condition, plan::Use::short_current);
        for (int i = 0; i < count(net_.branches); ++i) {
            const int r = item(s.setup.map.resistor_of_branch, i);
            if (r < 0) continue;
            const auto A = Current::si(std::abs(item(s.solution.resistor_A, r)));
            if (lasting) {
                raise(item(out_.branch_current, i), A, condition);
                raise(item(out_.branch_temperature, i), Temperature::celsius(item(s.solution.resistor_C, r)),
                      condition);
            }
            if (brief) raise(item(out_.branch_short_current, i), A, condition);
        }
    }

    void dead_loads(const Solved& s) {
        dead_.clear();
        dead_converters_.clear();
        for (const auto& v : s.solution.verdicts)
            if (v.code == solve::VerdictCode::converter_starved && v.reached_V <= 0)
                dead_converters_.insert(v.subject.index);
        for (const auto& v : s.solution.verdicts)
            if (v.code == solve::VerdictCode::dead && v.subject.kind == solve::ElementKind::load)
                dead_.insert(v.subject.index);
    }

    void port(const Solved& s, int i, int condition) {
        const auto V = port_voltage(net_, s, i);
        const int load = item(s.setup.map.load_of_port, i);
        if (load >= 0) {
            const auto& l = item(s.setup.circuit.loads, load);
            if (dead_.contains(load) || !V) return;
            if (may_set(s.condition, plan::Use::highest_voltage))
                raise(item(out_.port_highest, i), *V, condition);
            if (!l.on) return;
            if (may_set(s.condition, plan::Use::lowest_voltage)) {
                lower(item(out_.port_lowest, i), *V, condition);
                // A drop limit is for the states a load works in: what a few seconds of surge or cranking
                // leave to a lasting load is judged by the lowest voltage; a load that only runs briefly has
                // no other state.
                const auto& lasts = s.condition.duration;
                const bool seconds = lasts && *lasts < Time::si(10);
                if (const auto source = source_voltage(s, i); source && !seconds)
                    raise(item(lasts ? brief_drop_ : out_.port_drop, i), *source - *V, condition);
            }
            if (may_set(s.condition, plan::Use::lasting_current))
                raise(item(out_.port_current, i), Current::si(item(s.solution.load_A, load)), condition);
            return;
        }
        if (V && may_set(s.condition, plan::Use::highest_voltage))
            raise(item(out_.port_highest, i), *V, condition);
        if (V && may_set(s.condition, plan::Use::lowest_voltage))
            lower(item(out_.port_lowest, i), *V, condition);
        source_current(s, i, condition);
    }

    void source_current(const Solved& s, int i, int condition) {
        const int battery = item(s.setup.map.battery_of_port, i);
        const int regulator = item(s.setup.map.regulator_of_port, i);
        double delivered_A = 0;
        if (battery >= 0) delivered_A = -item(s.solution.battery_A, battery);
        if (regulator >= 0) delivered_A = item(s.solution.regulator_A, regulator);
        if (may_set(s.condition, plan::Use::lasting_current) && delivered_A >= 0)
            raise(item(out_.port_current, i), Current::si(delivered_A), condition);
        if (battery >= 0 && delivered_A < 0 && may_set(s.condition, plan::Use::charging))
            raise(item(out_.battery_charge, i), Current::si(-delivered_A), condition);
    }

    void converter(const Solved& s, int i, int condition) {
        const int index = item(s.setup.map.converter_of, i);
        if (index < 0 || !item(s.setup.circuit.converters, index).on) return;
        const auto& c = item(net_.converters, i);
        const auto& node_V = s.solution.node_V;
        if (dead_converters_.contains(index)) return;
        if (may_set(s.condition, plan::Use::lowest_voltage) &&
            item(s.solution.node_island, c.in_plus) == item(s.solution.node_island, c.in_minus))
            lower(item(out_.converter_lowest_input, i),
                  Voltage::si(item(node_V, c.in_plus) - item(node_V, c.in_minus)), condition);
        if (!may_set(s.condition, plan::Use::lasting_current)) return;
        raise(item(out_.converter_input, i), Current::si(item(s.solution.converter_in_A, index)), condition);
        raise(item(out_.converter_output, i), Current::si(item(s.solution.converter_out_A, index)),
              condition);
    }

    /// Terminal voltage of what feeds a load.
    std::optional<Voltage> source_voltage(const Solved& s, int i) const {
        return voltage_between(s, terminals_of(net_, item(s.setup.references, i)));
    }

    const network::Network& net_;
    Envelope& out_;
    std::set<int> dead_, dead_converters_;
    std::vector<Extreme<Voltage>> brief_drop_;
};

} // namespace

bool may_set(const plan::Condition& c, plan::Use use) {
    using enum plan::Use;
    // A held voltage is a state of the alternator nobody measured a current in.
    const bool current = use == lasting_current || use == short_current || use == charging;
    if (current && c.alternator == plan::AlternatorState::held) return false;
    if (!c.uses.empty()) return std::find(c.uses.begin(), c.uses.end(), use) != c.uses.end();
    if (c.duration) return use == short_current || use == lowest_voltage || use == highest_voltage;
    return use != short_current;
}

Envelope envelope(const network::Network& network, const std::vector<Solved>& all) {
    Envelope out;
    Collector collector(network, out);
    for (int i = 0; i < count(all); ++i) collector.take(item(all, i), i);
    collector.finish();
    return out;
}

} // namespace fl::condition
