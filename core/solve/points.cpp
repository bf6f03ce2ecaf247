#include "core/solve/points.h"

#include <functional>

namespace fl::solve {
namespace {

thread_local Points* points_in_use = nullptr;

/// The same for equal circuits; what it leaves out only makes it coarser.
std::size_t number_of(const Circuit& c) {
    std::size_t number = static_cast<std::size_t>(c.nodes);
    const auto mix = [&](double value) {
        number ^= std::hash<double>{}(value) + 0x9e3779b97f4a7c15u + (number << 6) + (number >> 2);
    };
    for (const Resistor& r : c.resistors)
        mix(r.closed ? r.r20_ohm + r.fixed_ohm : -1), mix(r.thermal ? r.thermal->ambient_C : r.at_C);
    for (const Battery& b : c.batteries) mix(b.emf_V), mix(b.connected ? b.discharge_ohm : -1);
    for (const Regulator& r : c.regulators) mix(r.on ? r.set_V : -1), mix(r.limit_A);
    for (const Converter& v : c.converters) mix(v.on ? v.set_V : -1), mix(v.out_limit_A);
    for (const Load& l : c.loads) mix(l.on ? l.value : -1);
    return number;
}

} // namespace

Points::Use::Use(Points& points)
    : before_(points_in_use) {
    points_in_use = &points;
}

Points::Use::~Use() {
    points_in_use = before_;
}

Points* Points::in_use() {
    return points_in_use;
}

const Solution* Points::find(const Circuit& circuit) {
    const auto found = known_.find(number_of(circuit));
    if (found == known_.end()) return nullptr;
    for (Entry& e : found->second)
        if (e.circuit == circuit) {
            e.asked = true;
            return &e.solution;
        }
    return nullptr;
}

void Points::add(const Circuit& circuit, const Solution& solution) {
    known_[number_of(circuit)].push_back({circuit, solution, true});
    ++solved_;
}

void Points::next_round() {
    solved_ = 0;
    patterns_.next_round();
    for (auto at = known_.begin(); at != known_.end();) {
        std::erase_if(at->second, [](const Entry& e) { return !e.asked; });
        for (Entry& e : at->second) e.asked = false;
        at = at->second.empty() ? known_.erase(at) : std::next(at);
    }
}

} // namespace fl::solve
