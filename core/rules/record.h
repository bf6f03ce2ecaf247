#pragma once

#include "core/catalogue/catalogue.h"
#include "core/rules/rules.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What resources/rules/rules.json says about each code: grade, whose rule it is, which values its sentence
/// may use.
namespace fl::rules {

/// One text that a rule follows, for some rule sets.
struct Follows {
    std::vector<std::string> sets; ///< ids of rule sets; empty = all
    std::string limit;             ///< id of a limit of the rule set, which then gives source and strength
    catalogue::Source source;
    std::string clause;
    bool must = false;
    std::optional<Grade> grade; ///< in place of the record's
};

enum class RecordList : std::uint8_t { findings, open_questions, site_checks };

struct Record {
    std::string code;
    RecordList list = RecordList::findings;
    Grade grade = Grade::practice;
    std::string family;
    std::vector<std::string> values; ///< parameters its sentence may use
    std::vector<Follows> follows;    ///< the first that fits the chosen set speaks
    // of a site check: where it is asked
    std::vector<std::string> kinds; ///< kinds of component
    std::string where;              ///< further condition, see site_checks.cpp
};

/// All records, in the order of the file.
const std::vector<Record>& records();
/// The record of a code; asserts that there is one.
const Record& record(std::string_view code);

/// A finding of this code with grade, source and must as the chosen rule set has them. A rule of common
/// practice never breaks the chosen rules: it is good practice. `passed` names the limit that was passed
/// where the record's own is only the usual one.
Finding make(const Facts& facts, std::string_view code, std::string_view passed = {});

/// Everything wrong with the file (for tests; a released build has none).
std::vector<std::string> record_faults();

} // namespace fl::rules
