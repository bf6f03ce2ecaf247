#include "ui/drawing/overlay_marks.h"

#include "ui/drawing/lettering.h"
#include "ui/drawing/paint.h"

#include <QPainter>
#include <QPolygonF>
#include <array>
#include <cmath>

namespace fl::ui::drawing {
namespace {

// docs/look.md, "Share of what a conductor may carry".
struct Step {
    double to;
    QRgb colour;
    double width_mm;
    const char* said;
};
constexpr std::array<Step, 4> steps{{{0.5, 0xFFF0D9C6, 2.2, "to 50 %"},
                                     {0.8, 0xFFDDAE84, 3.2, "to 80 %"},
                                     {1.0, 0xFFB4703A, 4.2, "to 100 %"},
                                     {0, 0xFF7A370C, 5.2, "above"}}};

QPointF at(plan::Point p) {
    return {p.x_mm, p.y_mm};
}

const Step& step_of(double share) {
    for (const Step& one : steps)
        if (share <= one.to * (1 + 1e-6)) return one;
    return steps.back();
}

void band(QPainter& painter, const QPolygonF& line, const Step& step, bool stale) {
    const QColor ink = stale ? look::light().hairline : QColor(step.colour);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(ink, step.width_mm, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin));
    painter.drawPolyline(line);
    if (&step != &steps.back()) return;
    constexpr double pitch = 2.5, tooth = 1.2;
    painter.setPen(QPen(ink, 0.32));
    for (qsizetype i = 1; i < line.size(); ++i) {
        const QPointF d = line[i] - line[i - 1];
        const double length = std::hypot(d.x(), d.y());
        if (length <= 0) continue;
        const QPointF along = d / length, across(-along.y(), along.x());
        for (double s = pitch / 2; s < length; s += pitch)
            for (const double side : {-1.0, 1.0}) {
                const QPointF root = line[i - 1] + along * s + across * (side * step.width_mm / 2);
                painter.drawLine(root, root + across * (side * tooth) + along * (tooth / 2));
            }
    }
}

// An arrowhead in the middle of the longest piece, with an edge of paper round it.
void arrow(QPainter& painter, const arrange::Stretch& stretch, int direction, const QColor& ink) {
    std::size_t longest = 0;
    double length = 0;
    for (std::size_t i = 0; i + 1 < stretch.points.size(); ++i) {
        const QPointF d = at(stretch.points[i + 1]) - at(stretch.points[i]);
        if (const double l = std::hypot(d.x(), d.y()); l > length) longest = i, length = l;
    }
    if (length < 4) return;
    const QPointF a = at(stretch.points[longest]), b = at(stretch.points[longest + 1]);
    const QPointF along = (b - a) / length * direction, across(-along.y(), along.x());
    const QPointF tip = (a + b) / 2 + along * 1.6;
    painter.setPen(QPen(QColor(look::paper), 0.4, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin));
    painter.setBrush(ink);
    painter.drawPolygon(QPolygonF({tip, tip - along * 3.2 + across * 1.1, tip - along * 3.2 - across * 1.1}));
}

template <class Use>
void each_stretch(const Scene& scene, int page, Use use) {
    for (const auto& wire : scene.layout.wires) {
        const auto found = scene.figures.find(wire.conductor);
        if (found == scene.figures.end()) continue;
        for (const auto& stretch : wire.stretches)
            if (stretch.page == page) use(stretch, found->second);
    }
}

} // namespace

void paint_bands(QPainter& painter, const Scene& scene, int page) {
    if (scene.overlay != listing::Overlay::share) return;
    each_stretch(scene, page, [&](const arrange::Stretch& stretch, const listing::OverlayFigure& one) {
        if (!one.share || one.nothing) return;
        QPolygonF line;
        for (const plan::Point& p : stretch.points) line << at(p);
        band(painter, line, step_of(one.share->si()), scene.stale);
    });
}

void paint_scale(QPainter& painter, const Scene& scene, const QRectF& frame) {
    if (scene.overlay != listing::Overlay::share || scene.heading.empty()) return;
    constexpr double sample = 10, gap = 1.5, apart = 5, capital = small_mm;
    const double base = frame.top() + 14;
    double right = frame.right() - 3;
    for (auto step = steps.rbegin(); step != steps.rend(); ++step) {
        const QString said = QString::fromUtf8(step->said);
        letter(painter, {right, base}, said, capital, look::light().ink2, look::Cut::regular, From::right);
        right -= letter_width(said, capital) + gap;
        const double y = base - capital / 2;
        const QPolygonF line(QVector<QPointF>{{right - sample, y}, {right, y}});
        band(painter, line, *step, scene.stale);
        right -= sample + apart;
    }
}

void paint_arrows(QPainter& painter, const Scene& scene, int page) {
    if (scene.overlay != listing::Overlay::current) return;
    const QColor ink = scene.stale ? look::light().ink2 : look::light().copper;
    each_stretch(scene, page, [&](const arrange::Stretch& stretch, const listing::OverlayFigure& one) {
        if (one.direction != 0) arrow(painter, stretch, one.direction, ink);
    });
}

} // namespace fl::ui::drawing
