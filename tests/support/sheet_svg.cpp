#include "tests/support/sheet_svg.h"

#include "core/base/resource.h"
#include "core/quantity/print.h"

namespace fl::test {
namespace {

using arrange::Rect;
using plan::Point;

constexpr const char* ink = "#22272B";

std::string n(double x) {
    return fixed(x, 3).starts_with("−") ? "-" + fixed(-x, 3) : fixed(x, 3);
}

std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (static_cast<unsigned char>(c) < 32)
            out += ' ';
        else if (c == '&')
            out += "&amp;";
        else if (c == '<')
            out += "&lt;";
        else
            out += c;
    }
    return out;
}

class Picture {
public:
    void line(Point a, Point b, double width, std::string_view colour) {
        out += "<line x1=\"" + n(a.x_mm) + "\" y1=\"" + n(a.y_mm) + "\" x2=\"" + n(b.x_mm) + "\" y2=\"" +
               n(b.y_mm) + "\" stroke=\"" + std::string(colour) + "\" stroke-width=\"" + n(width) + "\"/>\n";
    }
    void polyline(const std::vector<Point>& points, double width, std::string_view colour) {
        out += "<polyline fill=\"none\" points=\"";
        for (const Point p : points) out += n(p.x_mm) + "," + n(p.y_mm) + " ";
        out += "\" stroke=\"" + std::string(colour) + "\" stroke-width=\"" + n(width) + "\"/>\n";
    }
    void rect(const Rect& r, double width, std::string_view colour, std::string_view fill = "none") {
        out += "<rect x=\"" + n(r.left_mm) + "\" y=\"" + n(r.top_mm) + "\" width=\"" +
               n(r.right_mm - r.left_mm) + "\" height=\"" + n(r.bottom_mm - r.top_mm) + "\" fill=\"" +
               std::string(fill) + "\" stroke=\"" + std::string(colour) + "\" stroke-width=\"" + n(width) +
               "\"/>\n";
    }
    void dot(Point at, double radius) {
        out += "<circle cx=\"" + n(at.x_mm) + "\" cy=\"" + n(at.y_mm) + "\" r=\"" + n(radius) + "\" fill=\"" +
               ink + "\"/>\n";
    }
    void text(const arrange::Line& line) {
        const bool small = line.kind == arrange::LineKind::terminal;
        const double size = (small ? 2.5 : 3.5) / 0.7165;
        const bool bold = line.kind == arrange::LineKind::designation;
        const double base = line.box.bottom_mm - (line.box.bottom_mm - line.box.top_mm) / 5;
        out += "<text font-family=\"Lato\" font-size=\"" + n(size) + "\" fill=\"" + ink + "\" x=\"" +
               n(line.from_right ? line.box.right_mm : line.box.left_mm) + "\" y=\"" + n(base) + "\"" +
               (bold ? " font-weight=\"600\"" : "") + (line.from_right ? " text-anchor=\"end\"" : "") + ">" +
               escaped(line.text) + "</text>\n";
    }
    void symbol(const arrange::Symbol& s) {
        const std::string turn =
            " rotate(" + n(90.0 * s.quarter_turns) + ")" + (s.mirrored ? " scale(-1,1)" : "");
        for (const auto& piece : s.drawing.pieces) {
            const Point at = catalogue::turned(piece.at, s.quarter_turns, s.mirrored);
            const auto svg = *resource("symbols/" + piece.svg + ".svg");
            const auto body = svg.substr(svg.find("<g"), svg.rfind("</svg>") - svg.find("<g"));
            out += "<g transform=\"translate(" + n(s.at.x_mm + at.x_mm) + "," + n(s.at.y_mm + at.y_mm) + ")" +
                   (piece.upright ? "" : turn) + "\">" + std::string(body) + "</g>\n";
        }
        for (const auto& stroke : s.drawing.strokes) {
            const Point a = catalogue::turned(stroke.from, s.quarter_turns, s.mirrored);
            const Point b = catalogue::turned(stroke.to, s.quarter_turns, s.mirrored);
            line({s.at.x_mm + a.x_mm, s.at.y_mm + a.y_mm}, {s.at.x_mm + b.x_mm, s.at.y_mm + b.y_mm},
                 stroke.width_mm, ink);
        }
        const bool bar = s.drawing.strokes.size() == 1 && s.drawing.strokes[0].width_mm > 1;
        if (bar)
            for (const auto& pin : s.pins) { // a line that ends at the bar's end goes on as the bar
                const bool level = pin.direction == catalogue::Direction::left ||
                                   pin.direction == catalogue::Direction::right;
                if (level == (s.quarter_turns % 2 == 1)) dot(pin.at, 1.05);
            }
    }

    std::string out;
};

std::string_view wire_ink(std::string_view colour) {
    if (colour == "RD") return "#BE1E2D";
    if (colour == "BK") return "#101315";
    if (colour == "VT") return "#73499F";
    return "#868D92";
}

} // namespace

std::string sheet_svg(const plan::Installation& in, const arrange::Layout& layout, int page, bool boxes) {
    const auto& paper = layout.pages.at(static_cast<std::size_t>(page));
    Picture p;
    p.out = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + n(paper.width_mm) + "mm\" height=\"" +
            n(paper.height_mm) + "mm\" viewBox=\"0 0 " + n(paper.width_mm) + " " + n(paper.height_mm) +
            "\">\n";
    p.rect({0, 0, paper.width_mm, paper.height_mm}, 0, "none", "#FFFFFF");
    p.rect(paper.frame, 0.7, ink);
    p.rect(
        {paper.frame.right_mm - 180, paper.frame.bottom_mm - 44, paper.frame.right_mm, paper.frame.bottom_mm},
        0.7, ink);
    for (const auto& wire : layout.wires) {
        const auto& w = *in.conductors.find(wire.conductor);
        for (const auto& s : wire.stretches)
            if (s.page == page)
                p.polyline(s.points, w.role == plan::Role::signal ? 0.35 : 0.7, wire_ink(w.colour));
    }
    for (const auto& lead : layout.leads)
        if (lead.page == page) {
            p.polyline(lead.points, 0.7, ink);
            for (const Point dot : lead.dots) p.dot(dot, 0.9);
        }
    for (const auto& s : layout.symbols)
        if (s.page == page) {
            p.symbol(s);
            if (boxes) p.rect(s.box, 0.1, "#00A000");
        }
    for (const auto& mark : layout.marks)
        if (mark.page == page) {
            p.dot(mark.at, 0.6);
            if (!mark.leader.empty()) p.polyline(mark.leader, 0.25, "#565E64");
            p.text({arrange::LineKind::data, mark.text, mark.box, false});
            if (boxes) p.rect(mark.box, 0.1, "#A00000");
        }
    for (const auto& label : layout.labels)
        if (label.page == page) {
            if (!label.leader.empty()) p.polyline(label.leader, 0.25, "#565E64");
            for (const auto& line : label.lines) {
                p.text(line);
                if (boxes) p.rect(line.box, 0.1, "#0000C0");
                if (line.kind == arrange::LineKind::figure) p.rect(line.box, 0.1, "#D9A679");
            }
        }
    return p.out + "</svg>\n";
}

} // namespace fl::test
