#include "ui/drawing/paint.h"

#include "core/base/resource.h"
#include "ui/drawing/as_found.h"
#include "ui/drawing/lettering.h"
#include "ui/drawing/overlay_marks.h"

#include <QPainter>
#include <QPolygonF>
#include <QSvgRenderer>
#include <algorithm>
#include <cmath>
#include <memory>
#include <utility>

namespace fl::ui::drawing {
namespace {

using plan::Point;

// Line widths, docs/look.md 4.
constexpr double power_mm = 0.7, signal_mm = 0.35, casing_mm = 0.3, leader_mm = 0.25, dot_mm = 1.8;

QPointF at(Point p) {
    return {p.x_mm, p.y_mm};
}
QRectF rect_of(const arrange::Rect& r) {
    return {at({r.left_mm, r.top_mm}), at({r.right_mm, r.bottom_mm})};
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

// Dashes as lines of their own, so that every device and program shows the same ones; what is begun goes on
// round a corner.
void draw_dashed(QPainter& painter, const std::vector<Point>& points, double dash_mm = 6,
                 double gap_mm = 1.5) {
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

// A line of this width; what was found is half as wide and long-dashed.
void draw_line(QPainter& painter, const std::vector<Point>& points, const QColor& ink, double width,
               bool found) {
    painter.setPen(pen(ink, found ? width / 2 : width));
    if (found)
        draw_dashed(painter, points);
    else
        painter.drawPolyline(line_of(points));
}

QSvgRenderer& piece(const std::string& svg, bool found) {
    static std::map<std::pair<std::string, bool>, std::unique_ptr<QSvgRenderer>> read;
    auto& one = read[{svg, found}];
    if (!one) {
        const std::string_view text = resource("symbols/" + svg + ".svg").value_or("");
        const QByteArray bytes(text.data(), static_cast<qsizetype>(text.size()));
        one = std::make_unique<QSvgRenderer>(found ? drawn_as_found(bytes) : bytes);
    }
    return *one;
}

// The second colour of a striped wire; empty for a plain one.
std::string_view stripe(std::string_view code) {
    return code.size() >= 4 ? code.substr(code.size() - 2) : std::string_view{};
}

} // namespace

void paint_symbol(QPainter& painter, const Scene& scene, const arrange::Symbol& symbol) {
    const bool found = is_found(scene.installation, symbol.component);
    painter.save();
    painter.translate(at(symbol.at));
    for (const catalogue::SymbolPiece& one : symbol.drawing.pieces) {
        QSvgRenderer& svg = piece(one.svg, found);
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
        draw_line(painter,
                  {catalogue::turned(stroke.from, symbol.quarter_turns, symbol.mirrored),
                   catalogue::turned(stroke.to, symbol.quarter_turns, symbol.mirrored)},
                  look::light().ink, stroke.width_mm, found);
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
    const double whole = c->role == plan::Role::signal ? signal_mm : power_mm,
                 width = found ? whole / 2 : whole;
    const std::string_view second = stripe(code);
    for (const arrange::Stretch& stretch : wire.stretches) {
        if (stretch.page != page) continue;
        painter.setBrush(Qt::NoBrush);
        if (look::cased(code) || !second.empty()) {
            painter.setPen(pen(look::light().ink, width + 2 * casing_mm));
            painter.drawPolyline(line_of(stretch.points));
        }
        draw_line(painter, stretch.points, look::wire_ink(code), whole, found);
        if (second.empty()) continue;
        painter.setPen(pen(look::wire_ink(second), width));
        draw_dashed(painter, stretch.points, 2, 3);
    }
}

void paint_lead(QPainter& painter, const Scene& scene, const arrange::Lead& lead) {
    painter.setBrush(Qt::NoBrush);
    draw_line(painter, lead.points, look::light().ink, power_mm,
              is_found(scene.installation, lead.terminal.component));
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
                  const FigureLine& line, bool from_right) {
    const QColor ink = scene.stale || one.nothing ? look::light().ink2 : look::light().copper;
    const auto found = scene.letters.find(one.condition);
    const QString letter_of =
        found == scene.letters.end() ? QString() : QString::fromStdString(found->second);
    constexpr double apart = 0.9;
    const double room = line.box.width(), base = line.box.bottom() - line.box.height() / 5;
    const double small =
        letter_of.isEmpty() ? 0 : apart + letter_width(letter_of, small_mm, look::Cut::italic);
    const double wide = std::min(letter_width(line.text, large_mm, look::Cut::italic), room - small);
    const double left = from_right ? line.box.right() - small - wide : line.box.left();
    if (scene.overlay == listing::Overlay::share) painter.fillRect(line.box, QColor(look::paper));
    letter(painter, {left, base}, line.text, large_mm, ink, look::Cut::italic, From::left, room - small);
    if (small > 0) letter(painter, {left + wide + apart, base}, letter_of, small_mm, ink, look::Cut::italic);
}

// Where the scene says, else in the room that the label keeps.
void paint_figure(QPainter& painter, const Scene& scene, const arrange::Label& label,
                  const arrange::Line& line) {
    const QString text = figure_text(scene, label);
    if (text.isEmpty()) return;
    const auto& one = scene.figures.at(plan::ConductorId{label.subject.id});
    const auto spread = scene.spread.find(&label);
    if (spread == scene.spread.end())
        return paint_figure(painter, scene, one, {text, rect_of(line.box)}, line.from_right);
    painter.setPen(pen(look::light().ink2, leader_mm));
    if (!spread->second.leader.isNull()) painter.drawLine(spread->second.leader);
    for (const FigureLine& row : spread->second.lines)
        paint_figure(painter, scene, one, row, line.from_right);
}

} // namespace

void paint_label(QPainter& painter, const Scene& scene, const arrange::Label& label) {
    painter.setPen(pen(look::light().ink2, leader_mm));
    painter.setBrush(Qt::NoBrush);
    painter.drawPolyline(line_of(label.leader));
    if (const auto found = scene.found.find(&label); found != scene.found.end())
        letter(painter, found->second, as_found_tag(), small_mm, look::light().ink2);
    for (const arrange::Line& line : label.lines) {
        const double base = line.box.bottom_mm - (line.box.bottom_mm - line.box.top_mm) / 5;
        if (line.kind == arrange::LineKind::figure) {
            paint_figure(painter, scene, label, line);
            continue;
        }
        // A band may be wider than what labels keep clear of.
        if (scene.overlay == listing::Overlay::share)
            painter.fillRect(rect_of(line.box), QColor(look::paper));
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
    paint_scale(painter, scene, rect_of(scene.layout.pages[static_cast<std::size_t>(page)].frame));
    paint_bands(painter, scene, page);
    for (const auto& wire : scene.layout.wires) paint_wire(painter, scene, wire, page);
    for (const auto& lead : scene.layout.leads)
        if (lead.page == page) paint_lead(painter, scene, lead);
    for (const auto& symbol : scene.layout.symbols)
        if (symbol.page == page) paint_symbol(painter, scene, symbol);
    paint_arrows(painter, scene, page);
    for (const auto& mark : scene.layout.marks)
        if (mark.page == page) paint_mark(painter, mark);
    for (const auto& label : scene.layout.labels)
        if (label.page == page) paint_label(painter, scene, label);
}

} // namespace fl::ui::drawing
