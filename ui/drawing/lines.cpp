#include "ui/drawing/lines.h"

#include "ui/drawing/lettering.h"

#include <QRegularExpression>

namespace fl::ui::drawing {

QStringList words_of(const QString& text) {
    static const QRegularExpression blanks(QStringLiteral("[\\s\\x{0000}-\\x{001F}\\x{007F}-\\x{009F}]+"));
    static const QRegularExpression number(QStringLiteral("^[(−-]?[0-9][0-9.,/]*$"));
    constexpr qsizetype longest_unit = 4;
    QStringList words;
    bool joins = false;
    for (const QString& word : text.split(blanks, Qt::SkipEmptyParts)) {
        if (joins && word.size() <= longest_unit)
            words.last() += QLatin1Char(' ') + word;
        else
            words << word;
        joins = number.match(word).hasMatch();
    }
    return words;
}

QStringList lines_of(const QString& text, double width_mm, double capital_mm, look::Cut cut, int most) {
    const auto fits = [&](const QString& line) { return letter_width(line, capital_mm, cut) <= width_mm; };
    QStringList lines;
    for (QString word : words_of(text)) {
        if (!lines.isEmpty() && fits(lines.last() + QLatin1Char(' ') + word)) {
            lines.last() += QLatin1Char(' ') + word;
            continue;
        }
        while (!fits(word) && word.size() > 1) {
            qsizetype part = word.size() - 1;
            while (part > 1 && !fits(word.left(part))) --part;
            lines << word.left(part);
            word = word.mid(part);
        }
        lines << word;
    }
    if (lines.size() <= most) return lines;
    lines = lines.mid(0, most);
    QString& last = lines.last();
    last += QChar(0x2026);
    while (!fits(last) && last.size() > 1) last = last.chopped(2) + QChar(0x2026);
    return lines;
}

} // namespace fl::ui::drawing
