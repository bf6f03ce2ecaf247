#pragma once

#include "ui/drawing/chart.h"

/// Private to this room: where the labels of a diagram stand.
namespace fl::ui::drawing {

/// A label at its own lines, or within its own area where that has room: it covers no line, no mark and no
/// other label, keeps clear of other lines so that nobody takes it for theirs, and has a thin line of its own
/// where it had to stand off. The short text is taken where that finds a much better place. Its text is empty
/// where there is no room at all.
struct Own {
    std::vector<std::vector<QPointF>> lines;
    std::vector<QPointF> area; ///< may be empty
};
ChartDrawing::Label label_at(const QString& text, const QString& brief, const Own& own,
                             const std::vector<ChartDrawing::Line>& lines,
                             const std::vector<ChartDrawing::Label>& labels, const QRectF& plot,
                             double capital_mm);

/// What a mark says, in rows above the plot, to the right or to the left of its line, so that no line that
/// leads up to one crosses another's text; only its current where there is no room for its name.
struct MarkLabel {
    struct Place {
        double left = 0, width = 0;
        bool brief = false;
    };
    double at = 0;             ///< of its line
    std::vector<Place> places; ///< where its text may stand, the best first; afterwards where it does
    int row = 0;               ///< 0 = next to the plot
};
void set_rows(std::vector<MarkLabel>& marks, double gap_mm);

} // namespace fl::ui::drawing
