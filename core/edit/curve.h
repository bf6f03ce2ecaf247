#pragma once

#include "core/plan/kinds.h"

#include <cstdint>
#include <string>
#include <vector>

// Shared inside this room only.
namespace fl::edit {

/// What is wrong with one point of a device's own operating times.
struct CurveFault {
    std::uint32_t point = 0; ///< from 1
    std::string wrong, right;
};
/// A curve has at least two points, their currents rise, no edge rises with current, and the least time is
/// not above the greatest. An empty one is none.
std::vector<CurveFault> curve_faults(const std::vector<plan::CurvePoint>& curve);

} // namespace fl::edit
