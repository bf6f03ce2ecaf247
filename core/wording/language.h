#pragma once

#include "core/wording/pattern.h"

#include <map>
#include <string>
#include <string_view>
#include <vector>

/// One language's file, read. Private to this room.
namespace fl::wording {

struct Language {
    std::string code;
    std::string plural;                                     ///< name of the rule for counted forms
    std::map<std::string, Sentence, std::less<>> sentences; ///< by code
    std::map<std::string, std::string, std::less<>> titles; ///< by code
    std::map<std::string, std::string, std::less<>>
        words;                                           ///< "grade.burn", "field.length", "condition.cruise"
    std::map<std::string, Pattern, std::less<>> phrases; ///< "conductor", "way", "when", "summary"
    std::vector<std::string> cautions;
    std::vector<std::string> faults;

    std::size_t form(long long count) const;
    const std::string* word(std::string_view key) const;
};

/// The language of this code, else English.
const Language& language(std::string_view code);

} // namespace fl::wording
