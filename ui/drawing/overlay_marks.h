#pragma once

class QPainter;
class QRectF;

namespace fl::ui::drawing {

struct Scene;

/// The band behind conductors that tells the share of what they may carry: wider and darker in four steps,
/// with teeth above the last (docs/look.md 2).
void paint_bands(QPainter& painter, const Scene& scene, int page);
/// What the bands mean, in one row below the heading of a page with this frame.
void paint_scale(QPainter& painter, const Scene& scene, const QRectF& frame);
/// Arrowheads of the current, over everything that lies on the lines; grey when older than the drawing.
void paint_arrows(QPainter& painter, const Scene& scene, int page);

} // namespace fl::ui::drawing
