#pragma once

#include "core/assess/assess.h"

#include <string_view>

namespace fl::app {

/// What `--why ID` asks for: `W3.current`, `W3.may-carry`, `E1.drop`, `G2.+.fault`, each with `@CONDITION` if
/// the worst of all is not meant. Codes: why.id, why.subject.
Result<assess::Question> question(const assess::Assessment& assessment, std::string_view id);

/// The finding of this number, as `check` counts them from 1; null when the text is no such number.
const rules::Finding* numbered(const assess::Assessment& assessment, std::string_view number);

} // namespace fl::app
