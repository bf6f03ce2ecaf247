#include "ui/print/blocks.h"

#include "ui/drawing/lettering.h"

#include <QPainter>
#include <algorithm>

namespace fl::ui::print {
namespace {

constexpr double name_mm = 45; // width of the names of pairs

double pitch_of(double capital_mm) {
    return capital_mm * pitch_mm / body_mm;
}

} // namespace

void add_space(Pieces& to, double height_mm) {
    if (to.empty()) return;
    to.push_back({height_mm, {}, to.back().with_next, {}});
}

void add_heading(Pieces& to, const QString& text) {
    add_space(to, 4);
    to.push_back({7,
                  [text](QPainter& painter, double top) {
                      drawing::letter(painter, {left_mm, top + 4.5}, text, heading_mm, look::light().ink,
                                      look::Cut::semibold, drawing::From::left, text_mm);
                  },
                  true,
                  {}});
}

namespace {

/// How a line is set: plain, or with indices.
enum class Set { plain, formula };

void add_lines(Pieces& to, const QString& text, double indent_mm, double capital_mm, look::Cut cut,
               bool with_next, Set set) {
    const QStringList lines = lines_of(text, text_mm - indent_mm, capital_mm, cut);
    const double pitch = pitch_of(capital_mm);
    const QColor ink = capital_mm < body_mm ? look::light().ink2 : look::light().ink;
    for (qsizetype i = 0; i < lines.size(); ++i) {
        const bool first = i == 0 && lines.size() > 1, last_but_one = i == lines.size() - 2;
        const bool last = i == lines.size() - 1;
        to.push_back({pitch,
                      [=, line = lines[i]](QPainter& painter, double top) {
                          const QPointF base(left_mm + indent_mm, top + pitch * 0.75);
                          if (set == Set::formula)
                              drawing::letter_formula(painter, base, line, capital_mm, ink, cut);
                          else
                              drawing::letter(painter, base, line, capital_mm, ink, cut);
                      },
                      first || last_but_one || (last && with_next),
                      {}});
    }
}

} // namespace

void add_paragraph(Pieces& to, const QString& text, double indent_mm, double capital_mm, look::Cut cut,
                   bool with_next) {
    add_lines(to, text, indent_mm, capital_mm, cut, with_next, Set::plain);
}

void add_formula(Pieces& to, const QString& text, double indent_mm, look::Cut cut, bool with_next) {
    add_lines(to, text, indent_mm, body_mm, cut, with_next, Set::formula);
}

void with_dot(Piece& piece, bool filled) {
    piece.paint = [filled, paint = piece.paint](QPainter& painter, double top) {
        painter.setPen(QPen(look::light().ink, 0.3));
        painter.setBrush(filled ? QBrush(look::light().ink) : QBrush(Qt::NoBrush));
        painter.drawEllipse(QPointF(left_mm + 1.2, top + 2.5), 0.7, 0.7);
        paint(painter, top);
    };
}

void add_pair(Pieces& to, const QString& name, const QString& text) {
    const QStringList lines = lines_of(text, text_mm - name_mm, body_mm);
    const qsizetype count = std::max<qsizetype>(1, lines.size());
    to.push_back(
        {pitch_mm * static_cast<double>(count) + 0.8,
         [name, lines](QPainter& painter, double top) {
             drawing::letter(painter, {left_mm, top + pitch_mm * 0.75}, name, body_mm, look::light().ink2);
             for (qsizetype i = 0; i < lines.size(); ++i)
                 drawing::letter(painter,
                                 {left_mm + name_mm, top + pitch_mm * (static_cast<double>(i) + 0.75)},
                                 lines[i], body_mm, look::light().ink);
         },
         false,
         {}});
}

} // namespace fl::ui::print
