#pragma once

#include "core/base/result.h"
#include "ui/print/page.h"

#include <string_view>
#include <vector>

namespace fl::ui::print {

/// Indices of the pages that a list names, in their own order and each once: numbers from 1, ranges and names
/// of parts, with commas between them ("1,3-5,cables"); empty = all. Code: export.pages.
Result<std::vector<std::size_t>> chosen(const std::vector<Page>& pages, std::string_view list);

} // namespace fl::ui::print
