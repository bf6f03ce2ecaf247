#pragma once

#include <QRectF>
#include <QString>
#include <QStringList>
#include <vector>

/// What other people's programs see in a PDF.
namespace fl::test {

/// Standard output of a program; the test fails when it does not end with 0.
QByteArray output_of(const QString& program, const QStringList& arguments);

/// A word where poppler finds it, in millimetres: `box` is as high as the font's em.
struct Word {
    QString text;
    QRectF box;
    /// Height of capitals of Lato (docs/look.md 3).
    double capital_mm() const { return 0.7165 * box.height(); }
    /// What its ink fills: of Lato's em 0.805 are above the base line; capitals and figures take 0.725 of it,
    /// letters with a stem 0.75, and what has no tail ends at the base line.
    QRectF ink() const;
};
struct PdfPage {
    double width_pt = 0, height_pt = 0;
    std::vector<Word> words;
    bool is_drawing() const { return width_pt > height_pt; }
};
std::vector<PdfPage> pages_of(const QString& pdf);

} // namespace fl::test
