#pragma once

#include <QSizeF>
#include <QString>
#include <functional>
#include <string>
#include <vector>

class QPainter;

/// What leaves the workshop: the drawing and its lists, as pages of paper.
namespace fl::ui::print {

/// One page: its size and what is painted on it, in millimetres from its upper left corner.
struct Page {
    QSizeF size_mm;
    std::string part; ///< what it is called where pages are chosen: "drawing", "cables"
    QString bookmark; ///< empty = it goes on from the page before
    std::function<void(QPainter&, const QString& number)> paint;
    QString number; ///< "3 of 8", of the whole pack
};

/// What stands in the file's own properties.
struct Properties {
    QString title, author, subject;
};

} // namespace fl::ui::print
