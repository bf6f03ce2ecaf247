#pragma once

#include "ui/look/look.h"

#include <QPointF>
#include <QString>

class QPainter;

namespace fl::ui::drawing {

enum class From { left, middle, right };

/// A line of text on its base line, with capitals of this height in millimetres; stays text in a PDF. One
/// wider than `most_mm` (0 = any width) is set narrower, as high as it is.
void letter(QPainter& painter, QPointF base, const QString& text, double capital_mm, const QColor& ink,
            look::Cut cut = look::Cut::regular, From from = From::left, double most_mm = 0);
/// Its width in millimetres.
double letter_width(const QString& text, double capital_mm, look::Cut cut = look::Cut::regular);

} // namespace fl::ui::drawing
