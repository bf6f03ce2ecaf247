#include "core/rules/losses.h"

#include <cmath>

namespace fl::rules {

Losses::Losses(const Facts& facts, const condition::Solved& solved)
    : facts_(&facts)
    , solved_(&solved)
    , usable_(facts.network.branches.size()) {
    for (std::size_t b = 0; b < usable_.size(); ++b) {
        const int r = solved.setup.map.resistor_of_branch[b];
        usable_[b] = r >= 0 && solved.setup.circuit.resistors[at(r)].closed;
    }
}

void Losses::add(std::vector<Lost>& out, int from, int to, bool live) {
    auto& ways = ways_[from];
    if (ways.empty()) ways = network::shortest_ways(facts_->installation, facts_->network, {from}, usable_);
    const auto& way = ways[at(to)];
    if (!way) return;
    const auto& setup = solved_->setup;
    for (const int b : way->branches) {
        const auto& resistor = setup.circuit.resistors[at(setup.map.resistor_of_branch[at(b)])];
        const auto& v = solved_->solution.node_V;
        out.push_back({b, std::fabs(v[at(resistor.a)] - v[at(resistor.b)]), live});
    }
}

std::vector<Lost> Losses::of(int port) {
    const auto& load = facts_->network.ports[at(port)];
    const auto& reference = solved_->setup.references[at(port)];
    const auto [plus, minus] = condition::terminals_of(facts_->network, reference);
    if (plus < 0) return {};
    std::vector<Lost> out;
    add(out, plus, load.plus, true);
    add(out, minus, load.minus, false);
    return out;
}

} // namespace fl::rules
