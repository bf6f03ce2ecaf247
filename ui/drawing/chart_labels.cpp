#include "ui/drawing/chart_labels.h"

#include "ui/drawing/clip.h"
#include "ui/drawing/lettering.h"

#include <QPolygonF>
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>

namespace fl::ui::drawing {
namespace {

using Points = std::vector<QPointF>;

/// Places along a line, this far apart.
Points places(const std::vector<Points>& own, double apart) {
    Points all;
    for (const Points& points : own)
        for (std::size_t i = 1; i < points.size(); ++i) {
            const QPointF step = points[i] - points[i - 1];
            const int count = std::max(1, static_cast<int>(std::hypot(step.x(), step.y()) / apart));
            for (int k = 0; k <= count; ++k) all.push_back(points[i - 1] + step * (double(k) / count));
        }
    return all;
}

bool meets(const Points& points, const QRectF& box) {
    for (std::size_t i = 1; i < points.size(); ++i)
        if (clipped(points[i - 1], points[i], box)) return true;
    return false;
}

/// True where a line meets the stretch between two places, near enough for the eye.
bool crosses(const Points& points, const QPointF& from, const QPointF& to) {
    constexpr int steps = 12;
    for (int k = 1; k <= steps; ++k) {
        const QPointF a = from + (to - from) * (double(k - 1) / steps),
                      b = from + (to - from) * (double(k) / steps);
        if (meets(points, QRectF(a, b).normalized())) return true;
    }
    return false;
}

bool is_within(const QRectF& box, const QPolygonF& area) {
    for (const QPointF& corner : {box.topLeft(), box.topRight(), box.bottomLeft(), box.bottomRight()})
        if (!area.containsPoint(corner, Qt::OddEvenFill)) return false;
    return true;
}

/// Tries places and keeps the best.
class Search {
public:
    Search(const Own& own, const std::vector<ChartDrawing::Line>& lines,
           const std::vector<ChartDrawing::Label>& labels, const QRectF& plot, double capital)
        : lines_(lines)
        , labels_(labels)
        , plot_(plot)
        , capital_(capital) {
        for (const QPointF& p : own.area) area_ << p;
        for (const Points& points : own.lines) own_.push_back(points);
    }

    /// `box` stands `away` capitals from its line at `at`.
    void judge(const QPointF& at, const QRectF& box, double away) {
        if (!plot_.contains(box)) return;
        const QPointF off = box.center() - plot_.center();
        double cost = away * 2 * capital_ + 0.3 * std::fabs(off.y()) + 0.1 * std::fabs(off.x());
        const bool within = !area_.isEmpty() && is_within(box, area_);
        if (!within) cost += 30 * capital_;
        if (cost >= least_) return;
        const double near = 1.6 * capital_;
        const QRectF wide = box.adjusted(-near, -near, near, near);
        for (const auto& line : lines_) {
            if (!meets(line.points, wide)) continue;
            if (meets(line.points, box)) return;
            if (!is_own(line.points)) cost += 8 * capital_;
        }
        if (cost >= least_) return;
        const double apart = 0.3 * capital_;
        const QPointF to(std::clamp(at.x(), box.left(), box.right()),
                         std::clamp(at.y(), box.top(), box.bottom()));
        const bool leads = !within && away > 1;
        if (leads)
            for (const auto& line : lines_)
                if (!is_own(line.points) && crosses(line.points, at, to)) cost += 10 * capital_;
        if (cost >= least_) return;
        for (const auto& other : labels_)
            if (other.box.intersects(box.adjusted(-apart, -apart, apart, apart)) ||
                (leads && clipped(at, to, other.box)))
                return;
        least_ = cost;
        box_ = box;
        from_ = leads ? at : QPointF();
        to_ = leads ? to : QPointF();
    }
    double cost() const { return least_; }
    ChartDrawing::Label best(const QString& text) const {
        if (!std::isfinite(least_)) return {};
        return {text, {box_.left() + 0.3 * capital_, box_.bottom() - 0.35 * capital_}, box_, from_, to_,
                true};
    }

private:
    // Lines are cut off at the plot, so they are known by a place that both have.
    bool is_own(const Points& points) const {
        const QPointF middle = (points.front() + points[1]) / 2;
        return std::any_of(own_.begin(), own_.end(), [&](const Points& own) {
            return meets(own, QRectF(middle - QPointF(0.05, 0.05), QSizeF(0.1, 0.1)));
        });
    }

    const std::vector<ChartDrawing::Line>& lines_;
    const std::vector<ChartDrawing::Label>& labels_;
    QRectF plot_;
    double capital_;
    QPolygonF area_;
    std::vector<Points> own_;
    double least_ = std::numeric_limits<double>::infinity();
    QRectF box_;
    QPointF from_, to_;
};

} // namespace

ChartDrawing::Label label_at(const QString& text, const QString& brief, const Own& own,
                             const std::vector<ChartDrawing::Line>& lines,
                             const std::vector<ChartDrawing::Label>& labels, const QRectF& plot,
                             double capital) {
    const auto searched = [&](const QString& tried) {
        const double stems_and_tails = 0.6 * capital;
        const QSizeF size(letter_width(tried, capital, look::Cut::semibold) + 0.6 * capital,
                          capital + stems_and_tails);
        Search search(own, lines, labels, plot, capital);
        for (const double away : {0.5, 1.5, 3.0, 5.0, 8.0, 12.0})
            for (const QPointF& at : places(own.lines, capital))
                for (const auto& [x, y] : std::array<std::pair<int, int>, 6>{
                         {{1, -1}, {1, 1}, {-1, -1}, {-1, 1}, {1, 0}, {-1, 0}}}) {
                    const double d = away * capital;
                    const QPointF corner(x > 0 ? at.x() + d : at.x() - d - size.width(),
                                         y > 0   ? at.y() + d * 0.7
                                         : y < 0 ? at.y() - d * 0.7 - size.height()
                                                 : at.y() - size.height() / 2);
                    search.judge(at, {corner, size}, away);
                }
        return search;
    };
    const Search whole = searched(text);
    if (brief == text) return whole.best(text);
    const Search less = searched(brief);
    const double worth = 12 * capital; // the rest of the text
    return less.cost() + worth < whole.cost() ? less.best(brief) : whole.best(text);
}

void set_rows(std::vector<MarkLabel>& marks, double gap) {
    // Few marks, so all orders and sides are tried: no crossing, then the least height, then the best sides.
    using Place = MarkLabel::Place;
    const auto overlap = [&](const Place& x, const Place& y) {
        return x.left < y.left + y.width + gap && y.left < x.left + x.width + gap;
    };
    const auto crosses = [&](const MarkLabel& line, const MarkLabel& text) { // on its way up
        const Place& place = text.places[0];
        return line.at > place.left - gap / 2 && line.at < place.left + place.width + gap / 2;
    };
    std::size_t ways = 1;
    for (const MarkLabel& mark : marks) ways *= mark.places.size();
    std::vector<MarkLabel> best = marks;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t way = 0; way < ways; ++way) {
        auto sided = marks;
        double asides = 0;
        std::size_t rest = way;
        for (MarkLabel& mark : sided) {
            const std::size_t side = rest % mark.places.size();
            rest /= mark.places.size();
            mark.places = {mark.places[side]};
            constexpr double nameless = 20;
            asides += 0.1 * static_cast<double>(side) + (mark.places[0].brief ? nameless : 0);
        }
        std::vector<std::size_t> order(marks.size());
        std::iota(order.begin(), order.end(), 0U);
        do {
            auto tried = sided;
            for (std::size_t k = 0; k < order.size(); ++k) {
                MarkLabel& here = tried[order[k]];
                here.row = 0;
                for (bool moved = true; moved;) { // above all that was put before and is in the way
                    moved = false;
                    for (std::size_t j = 0; j < k; ++j) {
                        const MarkLabel& other = tried[order[j]];
                        const bool same = here.row == other.row && overlap(here.places[0], other.places[0]);
                        const bool cut = here.row < other.row && crosses(other, here);
                        if (!same && !cut) continue;
                        here.row = cut ? other.row : other.row + 1;
                        moved = true;
                    }
                }
            }
            double cost = asides;
            for (const MarkLabel& a : tried) {
                cost += a.row;
                for (const MarkLabel& b : tried)
                    if (a.row > b.row && crosses(a, b)) cost += 1000;
            }
            if (cost < least) least = cost, best = tried;
        } while (std::next_permutation(order.begin(), order.end()));
    }
    marks = best;
}

} // namespace fl::ui::drawing
