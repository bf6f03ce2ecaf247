#include "ui/drawing/paint.h"

#include "core/base/resource.h"
#include "core/listing/tables.h"
#include "core/wording/wording.h"
#include "ui/drawing/lettering.h"

#include <QPainter>
#include <QPolygonF>
#include <QSvgRenderer>
#include <algorithm>
#include <cmath>
#include <memory>
#include <unordered_map>

namespace fl::ui::drawing {
namespace {

using plan::Point;

// Line widths, docs/look.md 4.
constexpr double power_mm = 0.7, signal_mm = 0.35, casing_mm = 0.3, leader_mm = 0.25, dot_mm = 1.8;

QPointF at(Point p) {
    return {p.x_mm, p.y_mm};
}
QPolygonF line_of(const std::vector<Point>& points) {
    QPolygonF line;
    for (const Point p : points) line << at(p);
    return line;
}
QPen pen(const QColor& ink, double width) {
    return {ink, width, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin};
}
void dot(QPainter& painter, Point p, double diameter) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(look::light().ink);
    painter.drawEllipse(at(p), diameter / 2, diameter / 2);
}

// Long dashes as lines of their own, so that every device and program shows the same ones; what is begun goes
// on round a corner.
void draw_dashed(QPainter& painter, const std::vector<Point>& points) {
    constexpr double dash_mm = 6, gap_mm = 1.5;
    double left = dash_mm; // of the dash or gap begun
    bool inked = true;
    for (std::size_t i = 1; i < points.size(); ++i) {
        const QPointF from = at(points[i - 1]), way = at(points[i]) - from;
        const double length = std::hypot(way.x(), way.y());
        for (double done = 0; length - done > 1e-6;) {
            const double now = std::min(left, length - done);
            if (inked) painter.drawLine(from + way * (done / length), from + way * ((done + now) / length));
            done += now;
            left -= now;
            if (left > 1e-6) continue;
            inked = !inked;
            left = inked ? dash_mm : gap_mm;
        }
    }
}

QSvgRenderer& piece(const std::string& svg) {
    static std::unordered_map<std::string, std::unique_ptr<QSvgRenderer>> read;
    auto& one = read[svg];
    if (!one) {
        const std::string_view bytes = resource("symbols/" + svg + ".svg").value_or("");
        one = std::make_unique<QSvgRenderer>(QByteArray(bytes.data(), static_cast<qsizetype>(bytes.size())));
    }
    return *one;
}

// An arrowhead in the middle of the longest stretch, with an edge of paper round it.
void arrow(QPainter& painter, const arrange::Stretch& stretch, int direction) {
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
    painter.setPen(pen(QColor(look::paper), 0.4));
    painter.setBrush(look::light().copper);
    painter.drawPolygon(QPolygonF({tip, tip - along * 3.2 + across * 1.1, tip - along * 3.2 - across * 1.1}));
}

const listing::OverlayFigure* figure(const Scene& scene, plan::ConductorId id) {
    const auto found = scene.figures.find(id);
    return found == scene.figures.end() ? nullptr : &found->second;
}

// What the figures are; they belong to the drawing itself where no condition sets them.
std::string heading_of(listing::Overlay overlay, std::string_view condition) {
    const std::string of =
        ", " + (condition.empty() ? "worst of all conditions" : wording::condition(condition));
    switch (overlay) {
    case listing::Overlay::current:
        return "Current" + of;
    case listing::Overlay::voltage:
        return "Voltage" + of;
    case listing::Overlay::share:
        return "Share of what each may carry" + of;
    case listing::Overlay::drop:
        return "Voltage drop" + of;
    case listing::Overlay::fault:
        return "Largest fault current";
    case listing::Overlay::protected_by:
        return "Protected by";
    }
    return {};
}

} // namespace

Scene scene(const plan::Installation& installation, const arrange::Layout& layout,
            const assess::Assessment* assessment, listing::Overlay overlay, std::string_view condition,
            bool stale) {
    Scene made{installation, layout, {}, {}, {}, stale, {}, {}};
    if (assessment) made.colours = listing::colours(*assessment);
    for (const plan::Conductor& c : installation.conductors)
        if (std::string& colour = made.colours[c.id]; !c.colour.empty()) colour = c.colour;
    if (!assessment) return made;
    for (listing::OverlayFigure& one : listing::overlay(*assessment, overlay, condition))
        made.figures.emplace(one.conductor, std::move(one));
    made.heading = heading_of(overlay, condition);
    return made;
}

void paint_symbol(QPainter& painter, const Scene& scene, const arrange::Symbol& symbol) {
    const plan::Component* component = scene.installation.components.find(symbol.component);
    const bool found = component && component->origin == plan::Origin::as_found;
    painter.save();
    painter.translate(at(symbol.at));
    for (const catalogue::SymbolPiece& one : symbol.drawing.pieces) {
        QSvgRenderer& svg = piece(one.svg);
        painter.save();
        painter.translate(at(catalogue::turned(one.at, symbol.quarter_turns, symbol.mirrored)));
        if (!one.upright) {
            painter.rotate(90.0 * symbol.quarter_turns);
            if (symbol.mirrored) painter.scale(-1, 1);
        }
        svg.render(&painter, svg.viewBoxF());
        painter.restore();
    }
    for (const catalogue::SymbolStroke& stroke : symbol.drawing.strokes) {
        painter.setPen(pen(look::light().ink, found ? stroke.width_mm / 2 : stroke.width_mm));
        painter.drawLine(at(catalogue::turned(stroke.from, symbol.quarter_turns, symbol.mirrored)),
                         at(catalogue::turned(stroke.to, symbol.quarter_turns, symbol.mirrored)));
    }
    painter.restore();
    if (symbol.drawing.strokes.size() != 1 || symbol.drawing.strokes[0].width_mm <= 1) return;
    for (const arrange::Pin& pin : symbol.pins) { // a line that ends at the bar's own end goes on as the bar
        const bool level =
            pin.direction == catalogue::Direction::left || pin.direction == catalogue::Direction::right;
        if (level == (symbol.quarter_turns % 2 == 1)) dot(painter, pin.at, 2.1);
    }
}

void paint_wire(QPainter& painter, const Scene& scene, const arrange::Wire& wire, int page) {
    const plan::Conductor* c = scene.installation.conductors.find(wire.conductor);
    if (!c) return;
    const auto colour = scene.colours.find(c->id);
    const std::string code = colour == scene.colours.end() ? std::string() : colour->second;
    const bool found = c->origin == plan::Origin::as_found;
    const double width = (c->role == plan::Role::signal ? signal_mm : power_mm) / (found ? 2 : 1);
    for (const arrange::Stretch& stretch : wire.stretches) {
        if (stretch.page != page) continue;
        painter.setBrush(Qt::NoBrush);
        if (look::cased(code)) {
            painter.setPen(pen(look::light().ink, width + 2 * casing_mm));
            painter.drawPolyline(line_of(stretch.points));
        }
        painter.setPen(pen(look::wire_ink(code), width));
        if (found)
            draw_dashed(painter, stretch.points);
        else
            painter.drawPolyline(line_of(stretch.points));
        const listing::OverlayFigure* one = figure(scene, c->id);
        if (one && one->direction != 0 && !scene.stale) arrow(painter, stretch, one->direction);
    }
}

void paint_lead(QPainter& painter, const arrange::Lead& lead) {
    painter.setBrush(Qt::NoBrush);
    painter.setPen(pen(look::light().ink, power_mm));
    painter.drawPolyline(line_of(lead.points));
    for (const Point p : lead.dots) dot(painter, p, dot_mm);
}

void paint_mark(QPainter& painter, const arrange::Mark& mark) {
    dot(painter, mark.at, 1.2);
    painter.setPen(pen(look::light().ink2, leader_mm));
    painter.setBrush(Qt::NoBrush);
    painter.drawPolyline(line_of(mark.leader));
    const double base = mark.box.bottom_mm - (mark.box.bottom_mm - mark.box.top_mm) / 5;
    letter(painter, {mark.box.left_mm, base}, QString::fromStdString(mark.text), 3.5, look::light().ink);
}

namespace {

// "88.1 A" and, on paper, the letter of the condition that sets it.
void paint_figure(QPainter& painter, const Scene& scene, const listing::OverlayFigure& one,
                  const arrange::Line& line, double base) {
    QString text = QString::fromStdString(one.text);
    if (scene.stale) text = QStringLiteral("(%1)").arg(text);
    const QColor ink = scene.stale ? look::light().ink2 : look::light().copper;
    const auto found = scene.letters.find(one.condition);
    const QString letter_of =
        found == scene.letters.end() ? QString() : QString::fromStdString(found->second);
    constexpr double apart = 0.9;
    const double room = line.box.right_mm - line.box.left_mm;
    const double small =
        letter_of.isEmpty() ? 0 : apart + letter_width(letter_of, small_mm, look::Cut::italic);
    const double wide = std::min(letter_width(text, large_mm, look::Cut::italic), room - small);
    const double left = line.from_right ? line.box.right_mm - small - wide : line.box.left_mm;
    letter(painter, {left, base}, text, large_mm, ink, look::Cut::italic, From::left, room - small);
    if (small > 0) letter(painter, {left + wide + apart, base}, letter_of, small_mm, ink, look::Cut::italic);
}

} // namespace

void paint_label(QPainter& painter, const Scene& scene, const arrange::Label& label) {
    painter.setPen(pen(look::light().ink2, leader_mm));
    painter.setBrush(Qt::NoBrush);
    painter.drawPolyline(line_of(label.leader));
    for (const arrange::Line& line : label.lines) {
        const double base = line.box.bottom_mm - (line.box.bottom_mm - line.box.top_mm) / 5;
        if (line.kind == arrange::LineKind::figure) {
            const auto* one = label.subject.kind == plan::Subject::Kind::conductor
                                  ? figure(scene, plan::ConductorId{label.subject.id})
                                  : nullptr;
            if (one) paint_figure(painter, scene, *one, line, base);
            continue;
        }
        const bool small = line.kind == arrange::LineKind::terminal;
        letter(painter, {line.from_right ? line.box.right_mm : line.box.left_mm, base},
               QString::fromStdString(line.text), small ? small_mm : large_mm,
               small ? look::light().ink2 : look::light().ink,
               line.kind == arrange::LineKind::designation ? look::Cut::semibold : look::Cut::regular,
               line.from_right ? From::right : From::left, line.box.right_mm - line.box.left_mm);
    }
}

void paint_page(QPainter& painter, const Scene& scene, int page) {
    paint_frame(painter, scene, page);
    for (const auto& wire : scene.layout.wires) paint_wire(painter, scene, wire, page);
    for (const auto& lead : scene.layout.leads)
        if (lead.page == page) paint_lead(painter, lead);
    for (const auto& symbol : scene.layout.symbols)
        if (symbol.page == page) paint_symbol(painter, scene, symbol);
    for (const auto& mark : scene.layout.marks)
        if (mark.page == page) paint_mark(painter, mark);
    for (const auto& label : scene.layout.labels)
        if (label.page == page) paint_label(painter, scene, label);
}

} // namespace fl::ui::drawing
