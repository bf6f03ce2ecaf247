#pragma once

#include <QPointF>
#include <QRectF>
#include <optional>
#include <utility>
#include <vector>

/// Lines and areas cut off at a rectangle by arithmetic: the clip of a painter is lost in an SVG.
namespace fl::ui::drawing {

/// The part of a line within; empty where there is none.
std::optional<std::pair<QPointF, QPointF>> clipped(const QPointF& from, const QPointF& to,
                                                   const QRectF& within);
/// The parts of a line of several points within.
std::vector<std::vector<QPointF>> clipped(const std::vector<QPointF>& points, const QRectF& within);
/// The part of an area within.
std::vector<QPointF> clipped_area(std::vector<QPointF> corners, const QRectF& within);

} // namespace fl::ui::drawing
