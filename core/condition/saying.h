#pragma once

#include "core/condition/condition.h"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace fl::condition {

/// What is to be said of one condition's operating point, without words: who, which numbers. Sentences are
/// made by core/wording alone; never a finding, which is for core/rules to judge.
struct Saying {
    std::string code;                    ///< stable: "solve.starved"
    std::vector<plan::Subject> subjects; ///< the first is its place
    std::map<std::string, derive::Value> values;
    std::string condition; ///< its name
    bool operator==(const Saying&) const = default;
};

/// Everything a solved condition has to say: verdicts of the operating point, what lets go, what hunts or has
/// two steady states, what gets too much voltage, banks that share unevenly. In a fixed order.
std::vector<Saying> sayings(const Drawn& drawn, const Solved& solved);

/// Every code there is.
std::vector<std::string_view> saying_codes();

} // namespace fl::condition
