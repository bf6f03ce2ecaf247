#include "core/solve/pattern.h"

#include <iterator>
#include <utility>

namespace fl::solve {
namespace {

/// The same for ports that hang together alike; what it leaves out only makes it coarser.
std::size_t number_of(int nodes, const std::vector<Port>& ports) {
    auto number = static_cast<std::size_t>(nodes);
    for (const Port& port : ports) {
        const auto ends = static_cast<std::size_t>(port.plus) << 20 ^ static_cast<std::size_t>(port.minus);
        number = (number ^ ends ^ static_cast<std::size_t>(port.element.kind) << 40) * 0x9e3779b97f4a7c15u;
        number ^= number >> 32;
    }
    return number;
}

} // namespace

std::shared_ptr<const Pattern> Patterns::find(int nodes, const std::vector<Port>& ports) {
    const auto found = known_.find(number_of(nodes, ports));
    if (found == known_.end()) return nullptr;
    for (Entry& e : found->second) {
        const Topology& t = e.pattern->topology;
        if (static_cast<int>(t.voltage.size()) != nodes || !hang_alike(t.ports, ports)) continue;
        e.asked = true;
        return e.pattern;
    }
    return nullptr;
}

void Patterns::keep(std::shared_ptr<const Pattern> pattern) {
    const Topology& t = pattern->topology;
    auto& alike = known_[number_of(static_cast<int>(t.voltage.size()), t.ports)];
    std::erase_if(alike, [&t](const Entry& e) { return hang_alike(e.pattern->topology.ports, t.ports); });
    alike.push_back({std::move(pattern), true});
}

void Patterns::next_round() {
    for (auto at = known_.begin(); at != known_.end();) {
        std::erase_if(at->second, [](const Entry& e) { return !e.asked; });
        for (Entry& e : at->second) e.asked = false;
        at = at->second.empty() ? known_.erase(at) : std::next(at);
    }
}

} // namespace fl::solve
