#pragma once

#include "ui/drawing/paint.h"

class QImage;

namespace fl::ui::drawing {

/// One page as pixels.
QImage picture(const Scene& scene, int page, double dots_per_inch);

} // namespace fl::ui::drawing
