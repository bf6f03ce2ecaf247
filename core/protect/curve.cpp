#include "core/protect/curve.h"

#include "core/quantity/limit.h"
#include "core/quantity/unit.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace fl::protect {
namespace {

struct Point {
    double multiple, time_s;
};

std::vector<Point> edge(const std::vector<catalogue::Gate>& gates,
                        std::optional<Time> catalogue::Gate::*side) {
    std::vector<Point> points;
    for (const auto& g : gates)
        if (const auto& time = g.*side; time && g.multiple > 0 && time->si() > 0)
            points.push_back({g.multiple, time->si()});
    return points;
}

/// Time on an edge at this multiple of the rating, which is not below the first point.
double time_s(const std::vector<Point>& points, double multiple) {
    std::size_t i = 1;
    while (i < points.size() && above(multiple, points[i].multiple)) ++i;
    if (i >= points.size()) { // beyond the last gate I2t stays what it was there
        const double over = points.back().multiple / multiple;
        return points.back().time_s * (multiple > points.back().multiple ? over * over : 1);
    }
    const Point &low = points[i - 1], &high = points[i];
    const double share =
        std::clamp(std::log(multiple / low.multiple) / std::log(high.multiple / low.multiple), 0.0, 1.0);
    return low.time_s * std::pow(high.time_s / low.time_s, share);
}

} // namespace

Opening opening(const catalogue::FuseType& type, Current rating, Current current) {
    Opening out;
    if (!(rating > Current{}) || !(current > Current{})) return out;
    const double multiple = current / rating;
    const std::vector<catalogue::Gate> gates = catalogue::gates_for(type, rating);
    // Below the first gate a link takes at least as long as at the gate, and need not open at all.
    if (const auto least = edge(gates, &catalogue::Gate::least); !least.empty())
        out.least = Time::si(above(least.front().multiple, multiple) ? least.front().time_s
                                                                     : time_s(least, multiple));
    if (const auto greatest = edge(gates, &catalogue::Gate::greatest);
        !greatest.empty() && !above(greatest.front().multiple, multiple))
        out.greatest = Time::si(time_s(greatest, multiple));
    return out;
}

std::optional<Current> breaking_capacity(const catalogue::FuseType& type, Voltage at) {
    if (above(at, type.voltage)) return {};
    for (const auto& row : type.breaking) // by voltage, lowest first
        if (!above(at, row.at)) return row.capacity;
    return {};
}

std::optional<Joule> withstand(const catalogue::Insulation& insulation, Area area) {
    if (!insulation.k_A_sqrt_s_per_mm2) return {};
    const double k_S = *insulation.k_A_sqrt_s_per_mm2 * to_field(area);
    return Joule::si(k_S * k_S);
}

std::optional<Time> stands_for(const catalogue::Insulation& insulation, Area area, Current current) {
    const auto heat = withstand(insulation, area);
    if (!heat || current == Current{}) return {};
    const Time time = *heat / (current * current);
    return std::isfinite(time.si()) ? std::optional(time) : std::nullopt;
}

} // namespace fl::protect
