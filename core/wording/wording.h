#pragma once

#include "core/base/result.h"
#include "core/quantity/print.h"
#include "core/rules/finding.h"

#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace fl::plan {
struct Installation;
}
namespace fl::condition {
struct Saying;
}
namespace fl::cure {
struct Cure;
}

/// One sentence for everything that can be said, in each language, from resources/wording/*.json. Command
/// line, window and paper all use it.
namespace fl::wording {

/// Codes of the languages there are; the first is English, which also serves where another is asked for.
std::vector<std::string_view> languages();

/// Place, what happens, number, cure: "F4 Fridge: ... Fit 10 A."
std::string sentence(const rules::Finding& finding, const plan::Installation& in, const Style& style = {},
                     std::string_view language = "en");
std::string sentence(const rules::OpenQuestion& question, const plan::Installation& in,
                     const Style& style = {}, std::string_view language = "en");
std::string sentence(const rules::SiteCheck& check, const plan::Installation& in, const Style& style = {},
                     std::string_view language = "en");
std::string sentence(const condition::Saying& saying, const plan::Installation& in, const Style& style = {},
                     std::string_view language = "en");
/// What is done: "Put in 15 A, blade standard, 0.2 m from G1 Starter battery."
std::string sentence(const cure::Cure& cure, const plan::Installation& in, const Style& style = {},
                     std::string_view language = "en");
/// `where: wrong: right`, in the language if it has words for the problem's code, else in the problem's own.
std::string sentence(const Problem& problem, std::string_view language = "en");
/// "9 values assumed or not known, 2 can change a result"; empty when there are none.
std::string summary(const std::vector<rules::OpenQuestion>& questions, std::string_view language = "en");

/// What everybody who works on such an installation has to know, a sentence or two each.
std::vector<std::string> cautions(std::string_view language = "en");
/// A heading for a code: "Fuse too far from its source".
std::string title(std::string_view code, std::string_view language = "en");
/// "can burn or hurt"
std::string grade(rules::Grade grade, std::string_view language = "en");
/// A condition's name; those of the user's own stay as they are.
std::string condition(std::string_view name, std::string_view language = "en");
/// What a field of the plan is called: "length", "way 3: rating".
std::string field(std::string_view name, std::string_view language = "en");
/// What a word of the plan is called, in this field: "lifepo4" -> "lithium iron phosphate"; itself where the
/// language has none.
std::string choice(std::string_view word, std::string_view field = {}, std::string_view language = "en");
/// "F4 Fridge", "F5 way 3 Fridge", "W2 (G2 to Q1)".
std::string name(const plan::Subject& subject, const plan::Installation& in,
                 std::string_view language = "en");
/// A value as sentences show it.
std::string text(const derive::Value& value, const Style& style = {}, std::string_view language = "en");

/// The placeholders that the sentences of this code use; for tests and translators.
std::set<std::string> placeholders(std::string_view code, std::string_view language = "en");
/// Everything wrong with a language's file (for tests; a released build has none).
std::vector<std::string> faults(std::string_view language);

} // namespace fl::wording
