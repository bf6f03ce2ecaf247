#include "ui/drawing/figure_room.h"

#include "ui/drawing/lettering.h"

#include <QStringList>
#include <algorithm>
#include <optional>

namespace fl::ui::drawing {
namespace {

constexpr double capital_mm = 3.5, lean_mm = 0.8; // an italic letter leans out of its advance
constexpr double line_mm = 0.6;                   // half a conductor, and air

QRectF rect_of(const arrange::Rect& r) {
    return {QPointF(r.left_mm, r.top_mm), QPointF(r.right_mm, r.bottom_mm)};
}

double width_of(const QString& text) {
    return letter_width(text, capital_mm, look::Cut::italic) + lean_mm;
}

QRectF widened(QRectF box, double width, bool from_right) {
    if (from_right)
        box.setLeft(box.right() - width);
    else
        box.setRight(box.left() + width);
    return box;
}

// Words that stay on one line: a unit goes with its number.
QStringList words_of(const QString& text) {
    QStringList words;
    for (const QString& word : text.split(QLatin1Char(' ')))
        if (!words.isEmpty() && words.back().back().isDigit() && word.size() <= 2)
            words.back() += QLatin1Char(' ') + word;
        else
            words << word;
    return words;
}

// At most so wide, unless a word alone is wider.
QStringList wrapped(const QStringList& words, double width) {
    QStringList lines;
    for (const QString& word : words)
        if (!lines.isEmpty() && width_of(lines.back() + QLatin1Char(' ') + word) <= width)
            lines.back() += QLatin1Char(' ') + word;
        else
            lines << word;
    return lines;
}

} // namespace

struct FigureRoom::Wish {
    const arrange::Label& label;
    QRectF box;
    bool from_right;
    QString text;
};

FigureRoom::FigureRoom(const arrange::Layout& layout)
    : layout_(layout) {
    for (const arrange::Page& page : layout.pages) frames_.push_back(rect_of(page.frame));
    const auto add_lines = [&](int page, const std::vector<plan::Point>& points, plan::ConductorId wire) {
        for (std::size_t i = 1; i < points.size(); ++i)
            things_.push_back({page,
                               QRectF(QPointF(points[i - 1].x_mm, points[i - 1].y_mm),
                                      QPointF(points[i].x_mm, points[i].y_mm))
                                   .normalized()
                                   .adjusted(-line_mm, -line_mm, line_mm, line_mm),
                               wire});
    };
    for (const auto& symbol : layout.symbols) things_.push_back({symbol.page, rect_of(symbol.box), {}});
    for (const auto& lead : layout.leads) add_lines(lead.page, lead.points, {});
    for (const auto& wire : layout.wires)
        for (const auto& stretch : wire.stretches) add_lines(stretch.page, stretch.points, wire.conductor);
    for (const auto& mark : layout.marks) things_.push_back({mark.page, rect_of(mark.box), {}});
    for (const auto& label : layout.labels)
        for (const auto& line : label.lines) things_.push_back({label.page, rect_of(line.box), {}});
}

bool FigureRoom::is_free(int page, const QRectF& wanted, const QRectF& own) const {
    return frames_[static_cast<std::size_t>(page)].contains(wanted) &&
           std::none_of(things_.begin(), things_.end(), [&](const Thing& one) {
               return one.page == page && one.box != own && one.box.intersects(wanted);
           });
}

// A leader may cross lines, but no text and no symbol.
bool FigureRoom::is_clear(int page, const QLineF& leader, const Wish& wish) const {
    const int steps = std::max(1, static_cast<int>(leader.length()));
    for (int i = 0; i <= steps; ++i) {
        const QPointF at = leader.pointAt(static_cast<double>(i) / steps);
        for (const Thing& one : things_)
            if (one.page == page && !one.wire && one.box != wish.box && one.box.contains(at)) return false;
    }
    return true;
}

std::vector<FigureLine> FigureRoom::beside(const Wish& wish, double narrow) const {
    const double width = std::max(wish.box.width(), width_of(wish.text) * narrow);
    const QRectF wide = widened(wish.box, width, wish.from_right);
    if (!is_free(wish.label.page, wide, wish.box)) return {};
    return {{wish.text, wide}};
}

// As few lines as can be, each no wider than its paper allows.
std::vector<FigureLine> FigureRoom::in_lines(const Wish& wish, double narrow) const {
    constexpr int most_lines = 3;
    const QStringList words = words_of(wish.text);
    for (double width = width_of(wish.text); width > wish.box.width() / 2; width -= 1) {
        const QStringList lines = wrapped(words, width);
        if (lines.size() < 2) continue;
        if (lines.size() > most_lines) break;
        // A step aside leaves a device on the same line alone.
        for (int way = 0; way < 2 * lines.size(); ++way) {
            const auto up = way / 2;
            const double aside = (way % 2) * catalogue::grid_mm * (wish.from_right ? -1 : 1);
            std::vector<FigureLine> made;
            for (int i = 0; i < lines.size(); ++i) {
                const QRectF row = wish.box.translated(aside, (i - up) * wish.box.height());
                made.push_back({lines[i], widened(row, width_of(lines[i]) * narrow, wish.from_right)});
            }
            if (std::all_of(made.begin(), made.end(), [&](const FigureLine& one) {
                    return is_free(wish.label.page, one.box, wish.box);
                }))
                return made;
        }
    }
    return {};
}

// In the nearest free paper, with a leader to the conductor.
FigurePlace FigureRoom::standing_off(const Wish& wish) const {
    constexpr int reach = 16; // steps of the grid
    std::optional<QPointF> foot;
    for (const Thing& one : things_) {
        if (one.page != wish.label.page || !one.wire || one.wire.value != wish.label.subject.id) continue;
        const QRectF line = one.box.adjusted(line_mm, line_mm, -line_mm, -line_mm);
        const QPointF wanted = wish.box.center();
        const QPointF at(std::clamp(wanted.x(), line.left(), line.right()),
                         std::clamp(wanted.y(), line.top(), line.bottom()));
        if (!foot || QLineF(at, wanted).length() < QLineF(*foot, wanted).length()) foot = at;
    }
    if (!foot) return {};
    const QSizeF size(width_of(wish.text), wish.box.height());
    FigurePlace best;
    double nearest = reach * catalogue::grid_mm;
    for (int x = -reach; x <= reach; ++x)
        for (int y = -reach; y <= reach; ++y) {
            const QPointF middle = *foot + QPointF(x, y) * catalogue::grid_mm;
            const QRectF block(middle - QPointF(size.width(), size.height()) / 2, size);
            const QPointF edge(std::clamp(foot->x(), block.left(), block.right()),
                               foot->y() < middle.y() ? block.top() : block.bottom());
            const QLineF leader(edge, *foot);
            if (leader.length() >= nearest || !is_free(wish.label.page, block) ||
                !is_clear(wish.label.page, leader, wish))
                continue;
            nearest = leader.length();
            best = {{{wish.text, block}}, leader};
        }
    return best;
}

// Set narrower, in as much paper as there is.
std::vector<FigureLine> FigureRoom::squeezed(const Wish& wish) const {
    QRectF most = wish.box;
    for (double width = wish.box.width() + 1; width < width_of(wish.text); width += 1) {
        const QRectF next = widened(wish.box, width, wish.from_right);
        if (!is_free(wish.label.page, next, wish.box)) break;
        most = next;
    }
    return {{wish.text, most}};
}

FigurePlace FigureRoom::place(const arrange::Label& label, const arrange::Line& line, const QString& text) {
    constexpr double legible = 0.8; // so much narrower nobody minds
    const Wish wish{label, rect_of(line.box), line.from_right, text};
    FigurePlace made;
    if (width_of(text) - lean_mm <= wish.box.width()) return {{{text, wish.box}}, {}};
    for (const double narrow : {1.0, legible}) {
        if (made.lines.empty()) made.lines = beside(wish, narrow);
        if (made.lines.empty()) made.lines = in_lines(wish, narrow);
    }
    if (made.lines.empty()) made = standing_off(wish);
    if (made.lines.empty()) made.lines = squeezed(wish);
    for (const FigureLine& one : made.lines) things_.push_back({label.page, one.box, {}});
    return made;
}

QPointF FigureRoom::tag(const arrange::Label& label, const arrange::Line& designation, double width_mm) {
    constexpr double gap_mm = 1.2;
    const QRectF box = rect_of(designation.box);
    QRectF row = box, all = box; // with what stands beside the designation, and below it
    for (const arrange::Line& line : label.lines) {
        if (line.box.top_mm == designation.box.top_mm) row |= rect_of(line.box);
        all |= rect_of(line.box);
    }
    const double width =
        letter_width(QString::fromStdString(designation.text), capital_mm, look::Cut::semibold);
    const bool right = designation.from_right;
    const double text_left = right ? box.right() - width : box.left();
    const double edge = right ? all.right() - width_mm : all.left();
    QRectF best;
    for (const QPointF at :
         {QPointF(right ? text_left - gap_mm - width_mm : text_left + width + gap_mm, box.top()),
          QPointF(row.right() + gap_mm, box.top()), QPointF(row.left() - gap_mm - width_mm, box.top()),
          QPointF(edge, all.bottom()), QPointF(edge, all.top() - box.height())}) {
        const QRectF wanted(at, QSizeF(width_mm, box.height()));
        if (best.isNull()) best = wanted;
        if (!is_free(label.page, wanted.adjusted(-gap_mm / 2, 0, gap_mm / 2, 0), box)) continue;
        best = wanted;
        break;
    }
    things_.push_back({label.page, best, {}});
    return {best.left(), best.bottom() - best.height() / 5};
}

} // namespace fl::ui::drawing
