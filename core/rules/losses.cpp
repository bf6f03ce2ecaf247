#include "core/rules/losses.h"

#include <cmath>

namespace fl::rules {

std::vector<Lost> losses(const Facts& facts, const condition::Solved& solved, int port) {
    const auto& load = facts.network.ports[at(port)];
    const auto& reference = solved.setup.references[at(port)];
    int plus = -1, minus = -1;
    if (reference.port >= 0) {
        plus = facts.network.ports[at(reference.port)].plus;
        minus = facts.network.ports[at(reference.port)].minus;
    } else if (reference.converter >= 0) {
        plus = facts.network.converters[at(reference.converter)].out_plus;
        minus = facts.network.converters[at(reference.converter)].out_minus;
    } else {
        return {};
    }
    std::vector<bool> usable(facts.network.branches.size());
    for (std::size_t b = 0; b < usable.size(); ++b) {
        const int r = solved.setup.map.resistor_of_branch[b];
        usable[b] = r >= 0 && solved.setup.circuit.resistors[at(r)].closed;
    }
    std::vector<Lost> out;
    const auto add = [&](int from, int to, bool live) {
        const auto way = network::shortest_way(facts.installation, facts.network, {from}, to, usable);
        if (!way) return;
        for (const int b : way->branches) {
            const auto& resistor =
                solved.setup.circuit.resistors[at(solved.setup.map.resistor_of_branch[at(b)])];
            const auto& v = solved.solution.node_V;
            out.push_back({b, std::fabs(v[at(resistor.a)] - v[at(resistor.b)]), live});
        }
    };
    add(plus, load.plus, true);
    add(minus, load.minus, false);
    return out;
}

} // namespace fl::rules
