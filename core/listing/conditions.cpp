#include "core/listing/conditions.h"

#include "core/listing/cells.h"
#include "core/listing/figures.h"
#include "core/listing/tables.h"
#include "core/wording/wording.h"

#include <algorithm>

namespace fl::listing {
namespace {

std::string letter(std::size_t index) {
    constexpr std::size_t letters = 26;
    std::string out(1, static_cast<char>('a' + index % letters));
    return index < letters ? out : letter(index / letters - 1) + out;
}

struct Reading {
    std::optional<Voltage> voltage;
    Current current;
};

std::optional<Reading> at(const Figures& figures, const Point& point) {
    for (const SourceFigures& one : figures.sources)
        if (point.port >= 0 && one.port == point.port) return Reading{one.voltage, one.current};
    for (const ChargerFigures& one : figures.chargers)
        if (point.converter >= 0 && one.converter == point.converter)
            return point.input ? Reading{one.in_voltage, one.in_current}
                               : Reading{one.out_voltage, one.out_current};
    return {};
}

std::string name_of(const assess::Assessment& a, const Point& point) {
    if (point.port >= 0) {
        const network::Port& port = a.network.ports[static_cast<std::size_t>(point.port)];
        return part_name(a.installation, port.component, port.element);
    }
    const network::TwoPort& port = a.network.converters[static_cast<std::size_t>(point.converter)];
    return part_name(a.installation, port.component, port.element) + (point.input ? " in" : " out");
}

bool is_source(network::PortKind kind) {
    using enum network::PortKind;
    return kind == battery || kind == alternator || kind == take_off_point || kind == mains_charger ||
           kind == solar_controller;
}

} // namespace

std::string letter_of(const assess::Assessment& a, std::string_view condition) {
    for (std::size_t i = 0; i < a.conditions.size(); ++i)
        if (a.conditions[i].condition.name == condition) return letter(i);
    return {};
}

std::vector<Point> points(const assess::Assessment& a) {
    std::vector<Point> all;
    for (int p = 0; p < static_cast<int>(a.network.ports.size()); ++p)
        if (is_source(a.network.ports[static_cast<std::size_t>(p)].kind)) all.push_back({p, -1, false});
    for (int c = 0; c < static_cast<int>(a.network.converters.size()); ++c) {
        all.push_back({-1, c, true});
        all.push_back({-1, c, false});
    }
    return all;
}

Listing operating_points(const assess::Assessment& a, const std::vector<Point>& of,
                         const std::vector<std::string>& conditions, Style style) {
    Listing out{"Operating points", {left(""), left("condition")}, {}};
    for (const Point& point : of) {
        out.columns.push_back(right(name_of(a, point), "V"));
        out.columns.push_back(right(name_of(a, point), "A"));
    }
    for (const condition::Solved& solved : a.conditions) {
        const std::string& name = solved.condition.name;
        if (!conditions.empty() && std::find(conditions.begin(), conditions.end(), name) == conditions.end())
            continue;
        std::vector<std::string> row{letter_of(a, name), wording::condition(name)};
        const Figures shown = figures(a, solved);
        for (const Point& point : of) {
            const auto reading = at(shown, point);
            row.push_back(reading ? cell(reading->voltage, style) : std::string(not_known));
            row.push_back(reading ? cell(reading->current, style, 1) : std::string(not_known));
        }
        out.rows.push_back(std::move(row));
    }
    return out;
}

} // namespace fl::listing
