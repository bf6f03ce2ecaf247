#pragma once

#include "core/base/result.h"
#include "ui/print/page.h"

#include <QByteArray>
#include <vector>

namespace fl::ui::print {

/// The pages as one PDF: lines and text, fonts embedded, a bookmark for each page that has one. The same
/// pages give the same bytes: no date of printing stands in it. Code: export.pdf.
Result<QByteArray> pdf(const std::vector<Page>& pages, const Properties& properties);

} // namespace fl::ui::print
