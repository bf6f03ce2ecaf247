#include "ui/drawing/lettering.h"

#include <QFontMetricsF>
#include <QPainter>
#include <QRegularExpression>
#include <algorithm>

namespace fl::ui::drawing {
namespace {

// Sizes of fonts are whole pixels, so text is set this much larger and the painter scaled down.
constexpr double finer = 40;

// Space between letters, however little, keeps Qt from joining "ti" or "fi" to one sign, which a search of
// the PDF would not find. In hundredths of an advance, since Qt takes an absolute one for another on each
// device; it counts in 64ths.
QFont set_in(double capital_mm, look::Cut cut) {
    QFont font = look::font_for_capitals(capital_mm * finer, cut);
    font.setHintingPreference(QFont::PreferNoHinting);
    font.setLetterSpacing(QFont::PercentageSpacing, 100 + 1.0 / 64);
    return font;
}

} // namespace

double letter_width(const QString& text, double capital_mm, look::Cut cut) {
    return QFontMetricsF(set_in(capital_mm, cut)).horizontalAdvance(text) / finer;
}

void letter(QPainter& painter, QPointF base, const QString& text, double capital_mm, const QColor& ink,
            look::Cut cut, From from, double most_mm) {
    // Most text begins at its base and has room: its width is nobody's business.
    const double full = from == From::left && most_mm <= 0 ? 0 : letter_width(text, capital_mm, cut);
    const double narrow = most_mm > 0 && full > most_mm ? most_mm / full : 1;
    const double width = from == From::left ? 0 : full * narrow;
    painter.save();
    painter.translate(base.x() - (from == From::middle ? width / 2 : width), base.y());
    painter.scale(narrow / finer, 1 / finer);
    painter.setFont(set_in(capital_mm, cut));
    painter.setPen(ink);
    painter.drawText(QPointF(0, 0), text);
    painter.restore();
}

void letter_formula(QPainter& painter, QPointF base, const QString& text, double capital_mm,
                    const QColor& ink, look::Cut cut) {
    static const QRegularExpression index(QStringLiteral("_([A-Za-z0-9]+)"));
    // never smaller than what is legible on paper, docs/look.md 3
    const double low_mm = std::max(1.9, 0.72 * capital_mm);
    const auto put = [&](const QString& part, double high_mm, double lower_mm) {
        if (part.isEmpty()) return;
        letter(painter, base + QPointF(0, lower_mm), part, high_mm, ink, cut);
        base.rx() += letter_width(part, high_mm, cut);
    };
    qsizetype from = 0;
    for (auto found = index.globalMatch(text); found.hasNext();) {
        const auto match = found.next();
        put(text.mid(from, match.capturedStart() - from), capital_mm, 0);
        put(match.captured(1), low_mm, 0.25 * capital_mm);
        from = match.capturedEnd();
    }
    put(text.mid(from), capital_mm, 0);
}

} // namespace fl::ui::drawing
