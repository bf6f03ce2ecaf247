#pragma once

#include "core/assess/assess.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What would put a finding right, tried before it is offered.
namespace fl::cure {

/// One edit of the document, in a sentence and done.
struct Cure {
    std::string code; ///< cure.put-in, cure.put-before, cure.change-rating, cure.change-type, cure.move
    std::string of;   ///< code of the finding
    std::vector<plan::Subject> subjects;         ///< of the document before; the first is its place
    std::map<std::string, derive::Value> values; ///< the sentence's parameters
    plan::Installation after;
};

/// The nearest one: of the devices and ratings that fit, in order of preference, the first after which a new
/// assessment has this finding no more and no other one that is new or worse; else the first where what is
/// new is good practice. Empty where none of those tried does, and for findings that no device or rating
/// cures. Assesses each that it tries, at most eight.
std::optional<Cure> cure(const assess::Assessment& assessment, const rules::Finding& finding);

/// True when `after` lacks this finding of `before`, and has none that is new or worse, but for good
/// practice.
bool is_better(const assess::Assessment& before, const rules::Finding& finding,
               const assess::Assessment& after);

/// One cure after another, worst finding first, each leaving a finding fewer, until each finding that is left
/// was tried in vain. What is accepted stays.
struct Done {
    Cure cure;
    plan::Installation before; ///< the document that the last one left
};
struct Mended {
    plan::Installation installation;
    std::vector<Done> done;
};
Mended mend(const plan::Installation& installation);

/// All codes a cure can carry, for the walk over wording.
const std::vector<std::string_view>& codes();

} // namespace fl::cure
