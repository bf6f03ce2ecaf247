#include "core/solve/only_one.h"

#include "core/solve/heat.h"
#include "core/solve/index.h"
#include "core/solve/system.h"

#include <algorithm>
#include <utility>

// Let two points differ by d across an element and by e in its current. Over all elements the sum of d·e is 0
// (Tellegen). Every law but one rises: d·e >= d²/R with R the steepest that a conductor, a battery or a held
// voltage can be, d·e >= 0 for the rest. A load of constant power P falls, at its knee Vk most, by p = P/Vk²:
// d·e >= -p·d². Its d is the sum over its way through the tree; with w = R·S on each branch, S the sum of p
// of all loads behind it, Cauchy's inequality gives d² <= (sum of w)·(sum of d²/w) over that way. If the sum
// of w is below 1 for every load, the sum of all p·d² is less than that of d²/R over the tree, unless each d
// there is 0: the points are the same. In words: the loads together, each taking the most it can, P/Vk, lose
// less than Vk on the way.
namespace fl::solve {
namespace {

constexpr double in_hand = 0.9;

/// The greatest dU/dI that an element of the forest can have.
double steepest_ohm(const Circuit& c, const Element& element) {
    const auto k = at(element.index);
    if (element.kind == ElementKind::battery)
        return std::max(c.batteries[k].charge_ohm, c.batteries[k].discharge_ohm);
    if (element.kind == ElementKind::regulator) return c.regulators[k].droop_ohm;
    const Resistor& r = c.resistors[k];
    return r.fixed_ohm + (r.thermal ? steepest_ohm(r.r20_ohm, *r.thermal) : copper_ohm(r.r20_ohm, r.at_C));
}

bool carries_both_ways(const Circuit& c, const Topology& t, std::size_t port) {
    const Element& element = t.ports[port].element;
    if (!t.live[port] || t.spare[port]) return false;
    if (element.kind == ElementKind::battery)
        return c.batteries[at(element.index)].may_charge && c.batteries[at(element.index)].may_discharge;
    if (element.kind == ElementKind::regulator) return c.regulators[at(element.index)].holds;
    return element.kind == ElementKind::resistor;
}

} // namespace

bool grows_alike(const Forest& forest, const Circuit& circuit, const Topology& t) {
    for (std::size_t p = 0; p < t.ports.size(); ++p)
        if ((forest.grows[p] != 0) != carries_both_ways(circuit, t, p)) return false;
    return true;
}

Forest forest_of(const Circuit& circuit, const Topology& t) {
    const std::size_t nodes = t.voltage.size();
    Forest forest;
    std::vector<char>& grows = forest.grows;
    grows.assign(t.ports.size(), 0);
    std::vector<std::size_t> first(nodes + 1, 0); // per node: its ports
    for (std::size_t p = 0; p < t.ports.size(); ++p) {
        grows[p] = carries_both_ways(circuit, t, p);
        if (!grows[p]) continue;
        ++first[at(t.ports[p].plus)];
        ++first[at(t.ports[p].minus)];
    }
    for (std::size_t n = 0, sum = 0; n <= nodes; ++n) sum += std::exchange(first[n], sum);
    std::vector<std::size_t> touching(first[nodes]), next = first;
    for (std::size_t p = 0; p < t.ports.size(); ++p) {
        if (!grows[p]) continue;
        touching[next[at(t.ports[p].plus)]++] = p;
        touching[next[at(t.ports[p].minus)]++] = p;
    }
    std::vector<int> tree(nodes, -1), queue;
    const auto grow = [&](int root) {
        if (tree[at(root)] >= 0) return;
        tree[at(root)] = root;
        queue.assign(1, root);
        for (std::size_t k = 0; k < queue.size(); ++k) {
            const int from = queue[k];
            for (std::size_t i = first[at(from)]; i < first[at(from) + 1]; ++i) {
                const Port& port = t.ports[touching[i]];
                const int to = port.plus == from ? port.minus : port.plus;
                if (tree[at(to)] >= 0) continue;
                tree[at(to)] = root;
                queue.push_back(to);
                forest.branches.push_back({touching[i], from, to});
            }
        }
    };
    // From the batteries on, so that both ways of a load part at its source.
    for (std::size_t p = 0; p < t.ports.size(); ++p)
        if (grows[p] && t.ports[p].element.kind != ElementKind::resistor) grow(t.ports[p].minus);
    for (std::size_t n = 0; n < nodes; ++n) grow(static_cast<int>(n));
    forest.whole = true;
    for (std::size_t p = 0; p < t.ports.size(); ++p)
        if (t.live[p] && tree[at(t.ports[p].plus)] != tree[at(t.ports[p].minus)]) forest.whole = false;
    return forest;
}

bool only_one_point(const System& system, const Forest& forest, const std::vector<double>& load_knee_V) {
    const Circuit& c = system.circuit();
    const Topology& t = system.topology();
    // What a converter takes, and what the outputs of a unit leave each other, is no law of one voltage.
    if (!forest.whole || system.outputs_share()) return false;
    for (const Converter& v : c.converters)
        if (v.on) return false;
    std::vector<double> behind(t.voltage.size(), 0), reached(t.voltage.size(), 0);
    const auto power_load = [&](std::size_t p) -> const Load* {
        if (!t.live[p] || t.ports[p].element.kind != ElementKind::load) return nullptr;
        const Load& load = c.loads[at(t.ports[p].element.index)];
        return load.law == LoadLaw::power ? &load : nullptr;
    };
    for (std::size_t p = 0; p < t.ports.size(); ++p) {
        const Load* load = power_load(p);
        if (!load) continue;
        const double knee = load_knee_V[at(t.ports[p].element.index)];
        behind[at(t.ports[p].plus)] += load->value / (knee * knee);
        behind[at(t.ports[p].minus)] += load->value / (knee * knee);
    }
    for (std::size_t k = forest.branches.size(); k-- > 0;)
        behind[at(forest.branches[k].from)] += behind[at(forest.branches[k].to)];
    for (const Forest::Branch& branch : forest.branches) {
        const double ohm = steepest_ohm(c, t.ports[branch.port].element);
        reached[at(branch.to)] = reached[at(branch.from)] + ohm * behind[at(branch.to)];
    }
    for (std::size_t p = 0; p < t.ports.size(); ++p)
        if (power_load(p) && reached[at(t.ports[p].plus)] + reached[at(t.ports[p].minus)] > in_hand)
            return false;
    return true;
}

} // namespace fl::solve
