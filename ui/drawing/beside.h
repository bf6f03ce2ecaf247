#pragma once

#include "ui/drawing/paint.h"

#include <QRectF>
#include <functional>
#include <vector>

/// What a printed sheet says beside its drawing: notes, the signs it explains, operating points, and the
/// marks of findings. Each finds a place that is free once everything is drawn.
namespace fl::ui::drawing {

/// Something of a known size that can stand anywhere.
struct Block {
    double width_mm = 0, height_mm = 0;
    std::function<void(QPainter&, QPointF corner)> paint; ///< with its upper left corner there
};

struct PlacedBlock {
    int page = 0;
    QPointF corner;
    Block block;
};
struct Pin {
    int page = 0;
    QPointF centre, at; ///< `at`: the thing it belongs to
    std::size_t finding = 0;
};

struct Beside {
    std::vector<PlacedBlock> blocks;
    std::vector<Pin> pins;
    std::vector<Block> left_over; ///< found no place on any sheet
};
/// Numbers of pins are places in the assessment's list; points of good practice have none. Blocks keep
/// references to the scene and the assessment.
Beside beside(const Scene& scene, const assess::Assessment& assessment);
void paint_beside(QPainter& painter, const Beside& beside, const assess::Assessment& assessment, int page);

/// A block in several shapes, the one wanted most first.
using Shapes = std::vector<Block>;
Shapes notes(const Scene& scene);
/// Signs of this page that are not in the standard, kinds of line, marks; empty when there are none.
Shapes legend(const Scene& scene, const assess::Assessment& assessment, const std::vector<Pin>& pins,
              int page);
/// The conditions that set a figure of the drawing, with the points that matter most; empty without any.
Shapes operating_points(const Scene& scene, const assess::Assessment& assessment);

} // namespace fl::ui::drawing
