#pragma once

#include "core/base/result.h"
#include "ui/drawing/paint.h"

#include <string>

class QImage;

namespace fl::ui::drawing {

/// One page as pixels.
QImage picture(const Scene& scene, int page, double dots_per_inch);
/// The same as a PNG, written in one step. Code: file.write.
Result<void> save_png(const Scene& scene, int page, double dots_per_inch, const std::string& path);

} // namespace fl::ui::drawing
