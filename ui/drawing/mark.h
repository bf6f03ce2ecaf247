#pragma once

#include "core/rules/finding.h"

#include <QColor>
#include <QPointF>

class QPainter;

namespace fl::ui::drawing {

/// Paints the mark of a grade (docs/look.md 7) this wide: solid octagon, solid diamond, open diamond, open
/// circle. `number` stands in it; 0 = none.
void paint_grade(QPainter& painter, rules::Grade grade, QPointF centre, double width, int number, QColor ink,
                 QColor ground);

/// The same on paper, in graphite: all lengths in millimetres.
void paint_grade_mm(QPainter& painter, rules::Grade grade, QPointF centre, double width_mm, int number);

/// A finding's mark on paper: of its grade, or the ticked box of one that was accepted.
void paint_finding_mm(QPainter& painter, const rules::Finding& finding, QPointF centre, double width_mm,
                      int number);

} // namespace fl::ui::drawing
