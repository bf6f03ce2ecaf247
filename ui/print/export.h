#pragma once

#include "core/assess/assess.h"
#include "core/base/result.h"
#include "core/listing/chart.h"

#include <string>
#include <string_view>

namespace fl::ui::print {

/// Writes the paper of a document in one step: as PDF, SVG or PNG by how `path` ends. `pages` as in
/// choose.h; empty = all in a PDF, the first sheet in a picture, which holds one page. Needs a Qt
/// application. Codes: export.kind, export.pages, export.pdf, export.svg, export.png, file.write.
Result<void> save(const assess::Assessment& assessment, const std::string& path, std::string_view pages);
/// The same for one diagram of operating times alone; a picture holds its first page.
Result<void> save(const assess::Assessment& assessment, const listing::Chart& chart, const std::string& path);

} // namespace fl::ui::print
