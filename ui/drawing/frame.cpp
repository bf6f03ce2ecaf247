#include "core/catalogue/lie.h"
#include "core/quantity/print.h"
#include "ui/drawing/lettering.h"
#include "ui/drawing/paint.h"

#include <QPainter>
#include <QRectF>
#include <cmath>
#include <string>

namespace fl::ui::drawing {
namespace {

constexpr double outer_mm = 5;   // width of the strip of zones, ISO 5457
constexpr double field_mm = 50;  // length of a field, counted from the middle, ISO 5457
constexpr double block_mm = 180; // title block, ISO 7200
constexpr double cell_mm = 11;

QPen pen(double width) {
    return {look::light().ink, width, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin};
}

QString of(const std::string& text) {
    return QString::fromStdString(text);
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
                   across ? QPointF(m, strip + outer_mm / 2 + 1.25) : QPointF(strip + outer_mm / 2, m + 1.25),
                   sign, 2.5, look::light().ink, look::Cut::regular, From::middle);
        }
    }
}

struct Cell {
    double left, width;
    int row;
    QString caption, text;
    double capital = 2.5;
};

void title_block(QPainter& painter, const Scene& scene, const QRectF& frame, int page) {
    const plan::Job& job = scene.installation.job;
    const catalogue::RuleSet& rules = catalogue::rules_of(scene.installation);
    const QString system =
        QStringLiteral("%1 V DC").arg(of(significant(catalogue::nominal_of(scene.installation).si(), 3)));
    const QString sheet =
        QStringLiteral("%1 / %2").arg(page + 1).arg(static_cast<int>(scene.layout.pages.size()));
    const Cell cells[] = {
        {0, 90, 0, QStringLiteral("Vehicle or craft"), of(job.vehicle)},
        {90, 40, 0, QStringLiteral("System"), system},
        {130, 50, 0, QStringLiteral("Job rules"), of(rules.name)},
        {0, 60, 1, QStringLiteral("Customer"), of(job.customer)},
        {60, 60, 1, QStringLiteral("Created by"), of(job.installer)},
        {120, 60, 1, QStringLiteral("Document type"), QStringLiteral("Circuit diagram")},
        {0, 90, 2, QStringLiteral("Title"), of(job.title), 3.5},
        {90, 50, 2, QStringLiteral("Identification number"), of(job.reference)},
        {140, 40, 2, QStringLiteral("Document status"), QStringLiteral("In work")},
        {0, 60, 3, QStringLiteral("Date of issue"), of(job.date)},
        {60, 40, 3, QStringLiteral("Revision"), of(job.revision)},
        {100, 40, 3, QStringLiteral("Language"), QStringLiteral("en")},
        {140, 40, 3, QStringLiteral("Sheet"), sheet},
    };
    const QRectF block(frame.right() - block_mm, frame.bottom() - 4 * cell_mm, block_mm, 4 * cell_mm);
    painter.fillRect(block, QColor(look::paper));
    for (const Cell& cell : cells) {
        const QRectF box(block.left() + cell.left, block.top() + cell.row * cell_mm, cell.width, cell_mm);
        painter.setBrush(Qt::NoBrush);
        painter.setPen(pen(0.35));
        painter.drawRect(box);
        letter(painter, box.topLeft() + QPointF(1.5, 3.9), cell.caption, 2.5, look::light().ink2);
        // What is too long for its cell ends in an ellipsis; the whole stands in the document's properties.
        QString text = cell.text;
        while (text.size() > 1 && letter_width(text, cell.capital) > cell.width - 3)
            text = text.chopped(text.endsWith(QChar(0x2026)) ? 2 : 1) + QChar(0x2026);
        letter(painter, box.topLeft() + QPointF(1.5, 9.4), text, cell.capital, look::light().ink,
               cell.capital > 3 ? look::Cut::semibold : look::Cut::regular);
    }
    painter.setPen(pen(0.7));
    painter.drawRect(block);
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
    title_block(painter, scene, frame, page);
    if (!scene.heading.empty())
        letter(painter, frame.topRight() + QPointF(-3, 7), of(scene.heading), 3.5,
               scene.stale ? look::light().ink2 : look::light().copper, look::Cut::italic, From::right);
}

} // namespace fl::ui::drawing
