#include "core/catalogue/lie.h"
#include "core/quantity/print.h"
#include "ui/drawing/lettering.h"
#include "ui/drawing/paint.h"
#include "ui/look/text.h"

#include <QPainter>
#include <QRectF>
#include <cmath>
#include <string>

namespace fl::ui::drawing {
namespace {

constexpr double outer_mm = 5;   // width of the strip of zones, ISO 5457
constexpr double field_mm = 50;  // length of a field, counted from the middle, ISO 5457
constexpr double block_mm = 180; // title block, ISO 7200

QPen pen(double width) {
    return {look::light().ink, width, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin};
}

// Zones along one side: field borders and the sign in the middle of each, on both strips. They count from the
// middle of the sheet, which the wider margin on the left makes another one than the frame's, and take their
// signs from where marks take theirs.
void zones(QPainter& painter, const arrange::Page& paper, const QRectF& frame, bool across) {
    const double from = across ? frame.left() : frame.top(), to = across ? frame.right() : frame.bottom();
    const double middle = (across ? paper.width_mm : paper.height_mm) / 2;
    const int before = static_cast<int>(std::ceil((middle - from) / field_mm - 1e-9));
    const int after = static_cast<int>(std::ceil((to - middle) / field_mm - 1e-9));
    for (int i = -before; i < after; ++i) {
        const double a = std::max(from, middle + i * field_mm), b = std::min(to, middle + (i + 1) * field_mm);
        const QString zone = of(arrange::zone(paper, across ? plan::Point{(a + b) / 2, frame.top()}
                                                            : plan::Point{frame.left(), (a + b) / 2}));
        const QString sign = across ? zone.mid(1) : zone.left(1);
        for (const bool near : {true, false}) {
            const double strip = across ? (near ? frame.top() - outer_mm : frame.bottom())
                                        : (near ? frame.left() - outer_mm : frame.right());
            const double m = (a + b) / 2;
            painter.setPen(pen(0.35));
            if (i > -before)
                painter.drawLine(across ? QPointF(a, strip) : QPointF(strip, a),
                                 across ? QPointF(a, strip + outer_mm) : QPointF(strip + outer_mm, a));
            letter(painter,
                   across ? QPointF(m, strip + outer_mm / 2 + small_mm / 2)
                          : QPointF(strip + outer_mm / 2, m + small_mm / 2),
                   sign, small_mm, look::light().ink, look::Cut::regular, From::middle);
        }
    }
}

struct Cell {
    double left, width;
    int row;
    QString caption, text;
    bool title = false;
};
constexpr double tops_mm[] = {0, 10, 20, 34, 44}; // of the rows; the last is the block's height

// One line as high as it can be within the width, then up to a fifth narrower; what is too long even so ends
// in an ellipsis, and the whole stands on the cover.
void put(QPainter& painter, QPointF base, QString text, double width, double capital, look::Cut cut) {
    if (letter_width(text, capital, cut) > width && capital > small_mm) capital = small_mm;
    constexpr double narrowest = 0.8;
    if (letter_width(text, capital, cut) * narrowest <= width)
        return letter(painter, base, text, capital, look::light().ink, cut, From::left, width);
    while (text.size() > 1 && letter_width(text, capital, cut) > width)
        text = text.chopped(text.endsWith(QChar(0x2026)) ? 2 : 1) + QChar(0x2026);
    letter(painter, base, text, capital, look::light().ink, cut);
}

// The title in one line of 5 mm, or in two.
void put_title(QPainter& painter, const QRectF& box, const QString& text) {
    constexpr double high = 5;
    const double width = box.width() - 3;
    const look::Cut cut = look::Cut::semibold;
    if (letter_width(text, high, cut) <= width)
        return letter(painter, box.topLeft() + QPointF(1.5, 11.6), text, high, look::light().ink, cut);
    qsizetype at = text.size(); // where it is broken: the last blank that leaves the first line room
    while (at > 0 && (letter_width(text.left(at), large_mm, cut) > width ||
                      (at < text.size() && text[at] != QLatin1Char(' '))))
        --at;
    if (at <= 0) at = text.size();
    if (at == text.size())
        return put(painter, box.topLeft() + QPointF(1.5, 10.8), text, width, large_mm, cut);
    put(painter, box.topLeft() + QPointF(1.5, 8.2), text.left(at), width, large_mm, cut);
    put(painter, box.topLeft() + QPointF(1.5, 12.95), text.mid(at).trimmed(), width, large_mm, cut);
}

void title_block(QPainter& painter, const Scene& scene, const QRectF& frame, int page) {
    const plan::Job& job = scene.installation.job;
    const catalogue::RuleSet& rules = catalogue::rules_of(scene.installation);
    const QString system =
        QStringLiteral("%1 V DC").arg(of(significant(catalogue::nominal_of(scene.installation).si(), 3)));
    const QString sheet =
        QStringLiteral("%1 / %2").arg(page + 1).arg(static_cast<int>(scene.layout.pages.size()));
    // Fields of ISO 7200; the empty one is signed by hand. "Page" is that of the pack the sheet lies in.
    const Cell cells[] = {
        {0, 90, 0, QStringLiteral("Vehicle or craft"), of(job.vehicle)},
        {90, 30, 0, QStringLiteral("System"), system},
        {120, 60, 0, QStringLiteral("Job rules"), of(rules.name)},
        {0, 60, 1, QStringLiteral("Customer"), of(job.customer)},
        {60, 60, 1, QStringLiteral("Legal owner, created by"), of(job.installer)},
        {120, 60, 1, QStringLiteral("Approved by"), QString()},
        {0, 120, 2, QStringLiteral("Title"), of(job.title), true},
        {120, 60, 2, QStringLiteral("Document type"), QStringLiteral("Circuit diagram")},
        {0, 54, 3, QStringLiteral("Identification number"), of(job.reference)},
        {54, 40, 3, QStringLiteral("Date of issue"), of(job.date)},
        {94, 26, 3, QStringLiteral("Revision"), of(job.revision)},
        {120, 34, 3, QStringLiteral("Page"), of(scene.page_of)},
        {154, 26, 3, QStringLiteral("Sheet"), sheet},
    };
    const QRectF block(frame.right() - block_mm, frame.bottom() - tops_mm[4], block_mm, tops_mm[4]);
    painter.fillRect(block, QColor(look::paper));
    for (const Cell& cell : cells) {
        const double top = tops_mm[cell.row], bottom = tops_mm[cell.row + 1];
        const QRectF box(block.left() + cell.left, block.top() + top, cell.width, bottom - top);
        painter.setBrush(Qt::NoBrush);
        painter.setPen(pen(0.35));
        painter.drawRect(box);
        letter(painter, box.topLeft() + QPointF(1.5, 3.7), cell.caption, small_mm, look::light().ink2);
        if (cell.title)
            put_title(painter, box, cell.text);
        else
            put(painter, box.topLeft() + QPointF(1.5, bottom - top - 1.4), cell.text, cell.width - 3,
                large_mm, look::Cut::regular);
    }
    painter.setPen(pen(0.7));
    painter.drawRect(block);
}

// Where the middle of each side lies, for who folds, copies or photographs the sheet: across the strip of
// zones, so that nothing of the drawing has to keep off them.
void centring_marks(QPainter& painter, const arrange::Page& paper, const QRectF& frame) {
    const double x = paper.width_mm / 2, y = paper.height_mm / 2;
    painter.setPen(pen(0.7));
    painter.drawLine(QPointF(x, frame.top() - outer_mm), QPointF(x, frame.top()));
    painter.drawLine(QPointF(x, frame.bottom() + outer_mm), QPointF(x, frame.bottom()));
    painter.drawLine(QPointF(frame.left() - outer_mm, y), QPointF(frame.left(), y));
    painter.drawLine(QPointF(frame.right() + outer_mm, y), QPointF(frame.right(), y));
}

} // namespace

void paint_frame(QPainter& painter, const Scene& scene, int page) {
    const arrange::Page& paper = scene.layout.pages[static_cast<std::size_t>(page)];
    painter.fillRect(QRectF(0, 0, paper.width_mm, paper.height_mm), QColor(look::paper));
    const QRectF frame(QPointF(paper.frame.left_mm, paper.frame.top_mm),
                       QPointF(paper.frame.right_mm, paper.frame.bottom_mm));
    zones(painter, paper, frame, true);
    zones(painter, paper, frame, false);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(pen(0.35));
    painter.drawRect(frame.adjusted(-outer_mm, -outer_mm, outer_mm, outer_mm));
    painter.setPen(pen(0.7));
    painter.drawRect(frame);
    centring_marks(painter, paper, frame);
    title_block(painter, scene, frame, page);
    if (!scene.heading.empty())
        letter(painter, frame.topRight() + QPointF(-3, 7), of(scene.heading), large_mm,
               scene.stale ? look::light().ink2 : look::light().copper, look::Cut::italic, From::right);
}

} // namespace fl::ui::drawing
