#include "core/solve/reading.h"

#include <cstddef>

namespace fl::solve {
namespace {

struct Port {
    int plus, minus;
    double into_plus_A;
};

std::optional<double> into(const Solution& s, const Port& port) {
    const auto v = voltage(s, port.plus, port.minus);
    if (!v) return {};
    return *v * port.into_plus_A;
}

} // namespace

std::optional<double> voltage(const Solution& s, int a, int b) {
    const auto nodes = static_cast<int>(s.node_V.size());
    if (!s.usable || a < 0 || b < 0 || a >= nodes || b >= nodes) return {};
    const auto i = static_cast<std::size_t>(a), j = static_cast<std::size_t>(b);
    if (s.node_island[i] != s.node_island[j]) return {};
    return s.node_V[i] - s.node_V[j];
}

std::optional<double> power(const Circuit& c, const Solution& s, Element element) {
    if (!s.usable || element.index < 0) return {};
    const auto i = static_cast<std::size_t>(element.index);
    switch (element.kind) {
    case ElementKind::none:
        return {};
    case ElementKind::resistor:
        if (i >= c.resistors.size()) return {};
        return into(s, {c.resistors[i].a, c.resistors[i].b, s.resistor_A[i]});
    case ElementKind::battery:
        if (i >= c.batteries.size()) return {};
        return into(s, {c.batteries[i].plus, c.batteries[i].minus, s.battery_A[i]});
    case ElementKind::regulator:
        if (i >= c.regulators.size()) return {};
        return into(s, {c.regulators[i].plus, c.regulators[i].minus, -s.regulator_A[i]});
    case ElementKind::load:
        if (i >= c.loads.size()) return {};
        return into(s, {c.loads[i].plus, c.loads[i].minus, s.load_A[i]});
    case ElementKind::diode:
        if (i >= c.diodes.size()) return {};
        return into(s, {c.diodes[i].a, c.diodes[i].b, s.diode_A[i]});
    case ElementKind::converter:
        break;
    }
    if (i >= c.converters.size()) return {};
    const Converter& converter = c.converters[i];
    const auto in = into(s, {converter.in_plus, converter.in_minus, s.converter_in_A[i]});
    const auto out = into(s, {converter.out_plus, converter.out_minus, s.converter_out_A[i]});
    if (!in || !out) return {};
    return *in - *out;
}

} // namespace fl::solve
