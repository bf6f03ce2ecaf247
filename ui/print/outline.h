#pragma once

#include "core/base/result.h"
#include "ui/print/page.h"

#include <QByteArray>
#include <string>
#include <vector>

namespace fl::ui::print {

struct Bookmark {
    std::string title;
    int page = 0; ///< index
};

/// The PDF with bookmarks and properties, and without anything that differs from one run to the next
/// (docs/decisions/0013). Code: export.pdf.
Result<QByteArray> with_outline(const QByteArray& pdf, const Properties& properties,
                                const std::vector<Bookmark>& bookmarks);

} // namespace fl::ui::print
