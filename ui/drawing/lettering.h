#pragma once

#include "ui/look/look.h"

#include <QPointF>
#include <QString>

class QPainter;

namespace fl::ui::drawing {

/// Heights of capitals on a sheet, docs/look.md 3; the smaller is 1.8 mm still when A3 is printed on A4.
inline constexpr double large_mm = 3.5, small_mm = 2.6;
/// From one line of small text to the next.
inline constexpr double small_pitch_mm = 4.2;

enum class From { left, middle, right };

/// A line of text on its base line, with capitals of this height in millimetres; stays text in a PDF. One
/// wider than `most_mm` (0 = any width) is set narrower, as high as it is.
void letter(QPainter& painter, QPointF base, const QString& text, double capital_mm, const QColor& ink,
            look::Cut cut = look::Cut::regular, From from = From::left, double most_mm = 0);
/// The same from its left end, with what stands behind "_" set low and smaller: "I_table" as on a blackboard.
void letter_formula(QPainter& painter, QPointF base, const QString& text, double capital_mm,
                    const QColor& ink, look::Cut cut = look::Cut::regular);
/// Its width in millimetres.
double letter_width(const QString& text, double capital_mm, look::Cut cut = look::Cut::regular);

} // namespace fl::ui::drawing
