#pragma once

#include "core/listing/chart.h"

#include <QPointF>
#include <QRectF>
#include <QString>
#include <optional>
#include <vector>

class QPainter;

/// The diagram of operating times over current, log-log: the one drawing code of window and paper.
namespace fl::ui::drawing {

/// Laid out once for a box and a height of capitals, in millimetres; everything in it scales with the
/// capitals. Told apart by dashes, widths and labels at the lines, never by colour.
class ChartDrawing {
public:
    ChartDrawing(const listing::Chart& chart, const QRectF& box_mm, double capital_mm);

    /// With `reading` also a line at this current through all that is drawn, in the accent, with a ring where
    /// it meets an edge.
    void paint(QPainter& painter, std::optional<Current> reading = {}) const;

    /// Where the lines are, without their labels outside.
    const QRectF& plot() const { return plot_; }
    double x_of(Current current) const;
    double y_of(Time time) const;
    /// Of a place in the box, within what is drawn.
    Current current_at(double x_mm) const;

    struct Line {
        std::vector<QPointF> points;
        double width_mm = 0;
        std::vector<double> dashes; ///< in widths; empty = solid
    };
    struct Label {
        QString text;
        QPointF base;     ///< left end of its base line
        QRectF box;       ///< what it fills
        QPointF from, to; ///< of the line that leads to it; none where they are equal
        bool strong = false;
    };
    const std::vector<Label>& labels() const { return labels_; }
    const std::vector<Line>& lines() const { return lines_; } ///< edges of bands and conductors
    const std::vector<Line>& marks() const { return marks_; }

private:
    void paint_reading(QPainter& painter, Current current) const;
    void lay_out_axes();
    void add_ticks(bool upright);
    void add_marks();
    void add_devices();
    void add_conductors();
    void add_labels();
    void add_line(const std::vector<QPointF>& points, double width_mm, const std::vector<double>& dashes);
    std::vector<QPointF> placed(const std::vector<listing::ChartPoint>& points) const;

    struct Tick {
        QString text;
        double at = 0;
        bool decade = false, upright = false;
    };
    struct Dot {
        QPointF at;
        bool filled = false;
    };
    const listing::Chart chart_;
    QRectF box_, plot_;
    double capital_;
    std::vector<Tick> ticks_;
    std::vector<std::vector<QPointF>> bands_;
    std::vector<Line> lines_, marks_;
    std::vector<Label> labels_;
    std::vector<Dot> dots_;
};

} // namespace fl::ui::drawing
