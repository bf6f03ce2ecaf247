#pragma once

#include "core/derive/derivation.h"
#include "core/plan/ids.h"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

/// What is to be said about an installation, without words: code, grade, subjects, parameters. Sentences are
/// made by core/wording alone.
namespace fl::rules {

/// Says what happens, worst first.
enum class Grade : std::uint8_t { burn, fail, against_rules, practice };

struct Finding {
    std::string code; ///< stable: "device-above-conductor"
    Grade grade = Grade::practice;
    std::vector<plan::Subject> subjects;         ///< the first is its place; the others are touched
    std::map<std::string, derive::Value> values; ///< the sentence's parameters
    std::string condition;                       ///< name of the one that governs; empty = any
    std::string source;                          ///< rule and clause it follows; "common practice"
    bool must = false;                           ///< a must of the chosen rule set
    std::optional<plan::ExceptionId> accepted;
    bool operator==(const Finding&) const = default;
};

/// A value that is assumed or missing and could change a result.
struct OpenQuestion {
    std::string code; ///< "assumed", "missing"
    plan::Subject subject;
    std::string field; ///< its name in plan ("length")
    std::optional<derive::Value> assumed;
    bool decides = false; ///< can change a finding
    bool operator==(const OpenQuestion&) const = default;
};

/// What no drawing can answer; a tick box on paper.
struct SiteCheck {
    std::string code;
    std::vector<plan::Subject> subjects;
    std::map<std::string, derive::Value> values;
    bool operator==(const SiteCheck&) const = default;
};

} // namespace fl::rules
