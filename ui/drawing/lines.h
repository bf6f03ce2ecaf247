#pragma once

#include "ui/look/look.h"

#include <QString>
#include <QStringList>

namespace fl::ui::drawing {

/// The words of a text, a number and its unit as one; control characters count as blanks.
QStringList words_of(const QString& text);
/// A text in lines of at most this width: broken at blanks, a number and its unit held together, a word that
/// is longer broken where it must be. Control characters count as blanks; at most `most` lines, the last then
/// ends in an ellipsis.
QStringList lines_of(const QString& text, double width_mm, double capital_mm,
                     look::Cut cut = look::Cut::regular, int most = 1000);

} // namespace fl::ui::drawing
