#pragma once

#include "core/rules/finding.h"

#include <array>
#include <optional>
#include <string_view>

namespace fl::rules {

/// Names of the grades in files and on the command line, worst first.
inline constexpr std::array<std::string_view, 4> grade_names{"burn", "fail", "against", "practice"};

constexpr std::string_view name(Grade grade) {
    return grade_names[static_cast<std::size_t>(grade)];
}

} // namespace fl::rules
