#pragma once

#include "core/base/result.h"
#include "ui/print/page.h"

#include <QByteArray>

namespace fl::ui::print {

/// One page as SVG: lines and text, in millimetres. Code: export.svg.
Result<QByteArray> svg(const Page& page, const Properties& properties);
/// One page as a PNG of this resolution. Code: export.png.
Result<QByteArray> png(const Page& page, double dots_per_inch);

} // namespace fl::ui::print
