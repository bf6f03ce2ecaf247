#include "core/listing/cells.h"
#include "core/listing/chart.h"
#include "core/quantity/limit.h"

#include <algorithm>
#include <cmath>

namespace fl::listing {
namespace {

constexpr Time least_said = Time::si(1e-3); // what is shorter is at once

/// As far as a reader of the table is concerned.
bool about_equal(Current one, Current other) {
    return std::fabs(one.si() - other.si()) <= 0.05 * other.si();
}

/// Two digits, in ms, s, min or h: no curve is known better.
std::string duration(Time time, Style style) {
    constexpr double minute = 60, hour = 3600;
    const double s = time.si();
    const auto two = [&](double value, const char* unit) {
        const double digit = std::pow(10, std::floor(std::log10(value)) - 1);
        return significant(std::round(value / digit) * digit, 2, style) + " " + unit;
    };
    if (s < 0.995) return two(s * 1e3, "ms");
    if (s < 10 * minute) return two(s, "s");
    if (s < 2 * hour) return two(s / minute, "min");
    return two(s / hour, "h");
}

} // namespace

std::string opening_text(const protect::Opening& o, Style style) {
    if (!o.least && !o.greatest) return std::string(not_known);
    if (!o.greatest) return "need not open, not before " + duration(*o.least, style);
    if (*o.greatest < least_said) return "under " + duration(least_said, style);
    const std::string last = duration(*o.greatest, style);
    if (!o.least || *o.least < least_said) return "up to " + last;
    const std::string first = duration(*o.least, style);
    return first == last ? first : first + " to " + last;
}

std::string withstand_text(const ChartConductor& one, Current current, Style style) {
    if (one.lasting && !above(current, *one.lasting)) return "carries it lastingly";
    const auto time = endures(one, current);
    if (!time) return std::string(not_known);
    constexpr Time hours = Time::si(4 * 3600);
    if (!(*time < hours)) return "stands it for hours, more than it may carry";
    return "stands " +
           (*time < least_said ? "less than " + duration(least_said, style) : duration(*time, style));
}

Listing chart_table(const Chart& chart, Style style) {
    Listing out{"When each opens", {left("in series"), left("what")}, {}};
    std::vector<const ChartMark*> marks;
    for (const ChartMark& mark : chart.marks)
        if (mark.kind != ChartMark::Kind::lasting) {
            marks.push_back(&mark);
            out.columns.push_back(left(mark.name));
            out.columns.back().unit = text(mark.current, style);
        }
    for (std::size_t i = 0; i < chart.devices.size(); ++i) {
        std::vector<std::string> row{chart.devices[i].name, chart.devices[i].what};
        for (const ChartMark* mark : marks) {
            std::string cell;
            for (const ChartOpening& one : mark->opens) {
                if (one.device != i) continue;
                cell = one.current ? opening_text(one.opens, style) : std::string(not_known);
                if (one.current && !(*one.current > Current{}))
                    cell = "sees nothing";
                else if (one.current && !about_equal(*one.current, mark->current))
                    cell += ", sees " + text(*one.current, style);
            }
            row.push_back(std::move(cell));
        }
        out.rows.push_back(std::move(row));
    }
    for (std::size_t i = 0; i < chart.conductors.size(); ++i) {
        const ChartConductor& one = chart.conductors[i];
        std::vector<std::string> row{one.name, one.what};
        for (const ChartMark* mark : marks) {
            const bool carries =
                std::find(mark->conductors.begin(), mark->conductors.end(), i) != mark->conductors.end();
            row.push_back(carries ? withstand_text(one, mark->current, style) : std::string());
        }
        out.rows.push_back(std::move(row));
    }
    return out;
}

} // namespace fl::listing
