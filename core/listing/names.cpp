#include "core/catalogue/lie.h"
#include "core/listing/cells.h"
#include "core/listing/tables.h"

#include <algorithm>

namespace fl::listing {

std::string part_name(const plan::Installation& in, plan::ComponentId component, int element) {
    const plan::Component* c = in.components.find(component);
    if (!c) return {};
    const auto* unit = std::get_if<plan::Unit>(&c->with);
    const auto at = static_cast<std::size_t>(element);
    if (element < 0 || !unit || at >= unit->elements.size()) return c->designation;
    return c->designation + " " + unit->elements[at].role;
}

std::string node_name(const plan::Installation& in, const network::Node& node) {
    constexpr std::size_t most = 2;
    std::string out;
    for (std::size_t i = 0; i < std::min(most, node.terminals.size()); ++i) {
        if (i > 0) out += ", ";
        out += plan::text(in, node.terminals[i]);
    }
    if (node.terminals.size() > most)
        out += " and " + fixed(static_cast<double>(node.terminals.size() - most), 0) + " more";
    return out.empty() && node.body ? "body" : out;
}

std::map<plan::ConductorId, std::string> colours(const plan::Installation& in,
                                                 const network::Network& network) {
    const catalogue::RuleSet& rules = catalogue::rules_of(in);
    const plan::Basis& basis = in.basis;
    const std::string& plus = basis.plus_colour.empty() ? rules.plus_colour : basis.plus_colour;
    const std::string& minus = basis.minus_colour.empty() ? rules.minus_colour : basis.minus_colour;
    const std::vector<bool> is_return = network::return_nodes(network);
    std::map<plan::ConductorId, std::string> all;
    for (const plan::Conductor& w : in.conductors) {
        std::string& colour = all[w.id] = w.colour;
        if (!colour.empty() || w.role == plan::Role::signal) continue;
        const int from = network.node_of(w.from), to = network.node_of(w.to);
        if (from < 0 || to < 0) continue;
        colour = is_return[static_cast<std::size_t>(from)] && is_return[static_cast<std::size_t>(to)] ? minus
                                                                                                      : plus;
    }
    return all;
}

std::string greatest_current(const assess::Assessment& a, int branch, Style style) {
    if (branch < 0) return std::string(not_known);
    const auto greatest = assess::greatest_current(a, branch);
    if (!greatest) return std::string(not_known);
    return three_digits(greatest->value, style) + (greatest->brief ? " short" : "");
}

bool before(std::string_view one, std::string_view other) {
    const auto digit = [](char c) { return c >= '0' && c <= '9'; };
    std::size_t i = 0, k = 0;
    while (i < one.size() && k < other.size()) {
        if (!digit(one[i]) || !digit(other[k])) {
            if (one[i] != other[k]) return one[i] < other[k];
            ++i, ++k;
            continue;
        }
        const auto number = [&](std::string_view text, std::size_t& at) { // without leading zeros
            while (at + 1 < text.size() && text[at] == '0' && digit(text[at + 1])) ++at;
            const std::size_t from = at;
            while (at < text.size() && digit(text[at])) ++at;
            return text.substr(from, at - from);
        };
        const std::string_view a = number(one, i), b = number(other, k);
        if (a.size() != b.size()) return a.size() < b.size();
        if (a != b) return a < b;
    }
    return one.size() - i < other.size() - k;
}

std::map<plan::ConductorId, std::string> colours(const assess::Assessment& assessment) {
    return colours(assessment.installation, assessment.network);
}

} // namespace fl::listing
