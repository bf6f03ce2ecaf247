#include "core/edit/curve.h"

#include "core/quantity/print.h"

#include <optional>

namespace fl::edit {
namespace {

using plan::CurvePoint;
using plan::Entered;

/// The time of the last point before this one that has this edge.
std::optional<Time> before(const std::vector<CurvePoint>& curve, std::size_t point,
                           Entered<Time> CurvePoint::*edge) {
    while (point-- > 0)
        if (const auto& time = curve[point].*edge) return *time;
    return {};
}

} // namespace

std::vector<CurveFault> curve_faults(const std::vector<CurvePoint>& curve) {
    std::vector<CurveFault> out;
    for (std::size_t i = 0; i < curve.size(); ++i) {
        const CurvePoint& p = curve[i];
        const auto say = [&](std::string wrong, std::string right) {
            out.push_back({static_cast<std::uint32_t>(i + 1), std::move(wrong), std::move(right)});
        };
        if (!p.current) {
            say("the point has no current", "the current in A at which these times hold");
            continue;
        }
        if (!(*p.current > Current{})) say("its current is " + text(*p.current), "a current above 0 A");
        if (!p.least && !p.greatest)
            say("the point has no time", "the least or the greatest operating time, or both");
        for (const auto& time : {p.least, p.greatest})
            if (time && !(*time > Time{})) say("its time is " + text(*time), "a time above 0 s");
        if (p.least && p.greatest && *p.least > *p.greatest)
            say("the least time, " + text(*p.least) + ", is above the greatest, " + text(*p.greatest),
                "the least time first");
        if (i == 0) continue;
        if (const auto& last = curve[i - 1].current; last && !(*p.current > *last))
            say("its current, " + text(*p.current) + ", is not above that of the point before, " +
                    text(*last),
                "points by rising current");
        for (const auto edge : {&CurvePoint::least, &CurvePoint::greatest})
            if (const auto last = before(curve, i, edge); last && p.*edge && *(p.*edge) > *last)
                say("it takes longer, " + text(*(p.*edge)) + ", than at less current, " + text(*last),
                    "times that do not rise with current");
    }
    if (curve.size() == 1)
        out.push_back({1, "a curve of one point says nothing between", "at least two points"});
    return out;
}

} // namespace fl::edit
