#include "core/arrange/conductor_labels.h"

#include "core/arrange/captions.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace fl::arrange {
namespace {

using plan::Point;

constexpr double fine_mm = 0.625;    // how finely places are tried
constexpr double off_line_mm = 1.35; // from a conductor's middle to the box of its text
constexpr double off_bar_mm = 1.75;  // the same beside a bar in whose line it lies

struct Segment {
    int page;
    Point a, b;
    double length() const { return std::abs(a.x_mm - b.x_mm) + std::abs(a.y_mm - b.y_mm); }
    bool level() const { return a.y_mm == b.y_mm; }
};

class Writer {
public:
    Writer(const plan::Installation& in, const Chains& chains, Layout& out, std::vector<Room>& rooms)
        : in_(in)
        , out_(out)
        , rooms_(rooms) {
        for (const Chain& c : chains.all)
            for (const auto id : c.conductors) sides_[id] = c.side;
    }

    void write() {
        // short ways first: they have the fewest places
        std::vector<std::pair<double, const Wire*>> order;
        for (const Wire& w : out_.wires) {
            double longest = 0;
            for (const Segment& s : segments(w)) longest = std::max(longest, s.length());
            order.emplace_back(longest, &w);
        }
        std::stable_sort(order.begin(), order.end(),
                         [](const auto& a, const auto& b) { return a.first < b.first; });
        for (const auto& [length, wire] : order) conductor(*wire);
    }

private:
    static std::vector<Segment> segments(const Wire& w) {
        std::vector<Segment> all;
        for (const Stretch& s : w.stretches)
            for (std::size_t i = 1; i < s.points.size(); ++i)
                all.push_back({s.page, s.points[i - 1], s.points[i]});
        std::stable_sort(all.begin(), all.end(),
                         [](const Segment& a, const Segment& b) { return a.length() > b.length(); });
        return all;
    }
    Room& room(int page) { return rooms_[static_cast<std::size_t>(page)]; }

    bool put(int page, std::vector<Line> lines) {
        if (!std::all_of(lines.begin(), lines.end(), [&](const Line& l) { return room(page).free(l.box); }))
            return false;
        for (const Line& l : lines) room(page).take_text(l.box);
        out_.labels.push_back({subject_, page, std::move(lines), {}});
        return true;
    }

    void conductor(const Wire& wire) {
        const auto& w = *in_.conductors.find(wire.conductor);
        const Caption is = caption(in_, w, sides_[w.id]);
        subject_ = plan::Subject::of(w.id);
        const Text name{LineKind::designation, is.designation}, size{LineKind::data, is.data[0]},
            length{LineKind::data, is.data[1]};
        const auto all = segments(wire);
        const Rows one{{name, size, length}}, two{{name}, {size, length}}, three{{name}, {size}, {length}};
        for (const Segment& s : all) {
            if (s.length() < 7.5) continue;
            const bool roomy = s.length() >= width_mm(one) + 1.6;
            if (!s.level() ? beside(s, three)
                           : over(s, roomy ? std::vector{one, two, three} : std::vector{two, one, three}))
                return;
        }
        // a stack that juts out beyond a short stretch is still nearer than a leader
        for (const Segment& s : all)
            if (s.level() ? jutting(s, {two, three}) : beside_anywhere(s, {three, two})) return;
        if (all.empty()) return;
        const Segment& s = all.front();
        std::vector<Point> to;
        for (const double t : {0.5, 0.3, 0.7, 0.15, 0.85})
            to.push_back({s.a.x_mm + t * (s.b.x_mm - s.a.x_mm), s.a.y_mm + t * (s.b.y_mm - s.a.y_mm)});
        Rows rows = two;
        rows.push_back({{LineKind::figure, {}}});
        if (auto label = with_leader(rows, to, room(s.page))) {
            label->subject = subject_;
            label->page = s.page;
            out_.labels.push_back(std::move(*label));
        }
    }

    static std::vector<Line> with_figure(std::vector<Line> lines, double x, double top,
                                         bool from_right = false) {
        const auto figure = set_rows({{{LineKind::figure, {}}}}, x, top, from_right);
        lines.insert(lines.end(), figure.begin(), figure.end());
        return lines;
    }

    /// Above the line with the figure below; else the other way round; else all on one side.
    bool over(const Segment& s, const std::vector<Rows>& variants) {
        const double left = std::min(s.a.x_mm, s.b.x_mm), right = std::max(s.a.x_mm, s.b.x_mm), y = s.a.y_mm;
        for (const Manner manner : {Manner::above, Manner::below, Manner::stack_above, Manner::stack_below})
            for (const Rows& rows : variants) {
                const double wide = std::max(width_mm(rows), figure_mm), spare = right - left - wide;
                if (spare < -1) continue;
                const double first = left + std::clamp(spare / 2, -0.5, 1.2);
                for (double x = first; x <= first + std::max(0.0, spare - 2); x += 2.5)
                    if (put(s.page, set_along(rows, manner, x, y))) return true;
                if (spare > 0 && put(s.page, set_along(rows, manner, left + std::min(0.45, spare / 2), y)))
                    return true;
            }
        return false;
    }

    enum class Manner { above, below, stack_above, stack_below };
    static std::vector<Line> set_along(Rows rows, Manner manner, double x, double y) {
        if (manner == Manner::above)
            return with_figure(set_rows(rows, x, y - off_line_mm - height_mm(rows), false), x,
                               y + off_line_mm);
        if (manner == Manner::below)
            return with_figure(set_rows(rows, x, y + off_line_mm, false), x, y - off_line_mm - row_box_mm);
        rows.push_back({{LineKind::figure, {}}});
        return set_rows(rows, x,
                        manner == Manner::stack_above ? y - off_line_mm - height_mm(rows) : y + off_line_mm,
                        false);
    }

    bool jutting(const Segment& s, const std::vector<Rows>& variants) {
        const double left = std::min(s.a.x_mm, s.b.x_mm), right = std::max(s.a.x_mm, s.b.x_mm), y = s.a.y_mm;
        for (const Manner manner : {Manner::above, Manner::below, Manner::stack_above, Manner::stack_below})
            for (const Rows& rows : variants)
                for (double x = left - width_mm(rows) + 5; x <= right - 5; x += fine_mm)
                    if (put(s.page, set_along(rows, manner, x, y))) return true;
        return false;
    }

    /// A stack with the figure as its last row, on the left, else on the right.
    bool beside(const Segment& s, const Rows& rows) {
        Rows stack = rows;
        stack.push_back({{LineKind::figure, {}}});
        const double top = std::min(s.a.y_mm, s.b.y_mm), bottom = std::max(s.a.y_mm, s.b.y_mm), x = s.a.x_mm;
        const double high = height_mm(stack);
        if (bottom - top < high - 2) return false;
        for (const bool left : {true, false})
            for (double y = top + 0.5; y <= std::max(top + 0.6, bottom - high); y += fine_mm)
                if (put(s.page, set_rows(stack, left ? x - off_line_mm : x + off_line_mm, y, left)))
                    return true;
        return false;
    }

    bool beside_anywhere(const Segment& s, const std::vector<Rows>& variants) {
        const double top = std::min(s.a.y_mm, s.b.y_mm), bottom = std::max(s.a.y_mm, s.b.y_mm), x = s.a.x_mm;
        for (const Rows& rows : variants) {
            Rows stack = rows;
            stack.push_back({{LineKind::figure, {}}});
            for (double y = top - height_mm(stack) + 5; y <= bottom - 4; y += fine_mm)
                for (const bool left : {true, false})
                    for (const double off : {off_line_mm, off_bar_mm})
                        if (put(s.page, set_rows(stack, left ? x - off : x + off, y, left))) return true;
        }
        return false;
    }

    const plan::Installation& in_;
    Layout& out_;
    std::vector<Room>& rooms_;
    std::map<plan::ConductorId, Side> sides_;
    plan::Subject subject_;
};

} // namespace

void write_conductors(const plan::Installation& in, const Chains& chains, Layout& layout,
                      std::vector<Room>& rooms) {
    Writer(in, chains, layout, rooms).write();
}

namespace {

constexpr int directions = 24;

std::optional<Label> stand_off(const Rows& rows, Point to, Room& room, double from_mm, double nearest_mm,
                               double farthest_mm, double step_mm, bool may_cross) {
    static const auto turns = [] {
        std::array<Point, directions> all;
        for (std::size_t k = 0; k < all.size(); ++k) {
            const double turn = 2 * 3.14159265358979 * static_cast<double>(k) / directions;
            all[k] = {std::cos(turn), std::sin(turn)};
        }
        return all;
    }();
    const double wide = width_mm(rows), high = height_mm(rows);
    for (double r = nearest_mm; r <= farthest_mm; r += step_mm)
        for (const Point turn : turns) {
            const Point at{to.x_mm + r * turn.x_mm, to.y_mm + r * turn.y_mm};
            const bool from_right = at.x_mm < to.x_mm;
            const double left = from_right ? at.x_mm - wide : at.x_mm, top = at.y_mm - high / 2;
            const Rect all{left - 0.5, top - 0.5, left + wide + 0.5, top + high + 0.5};
            if (!room.free(all)) continue;
            const Point begin{at.x_mm + (from_right ? 0.5 : -0.5), at.y_mm};
            // the leader ends where the thing itself begins
            const double part = from_mm > 0 ? std::min(1.0, from_mm / r) : 0;
            const Point end{to.x_mm + (begin.x_mm - to.x_mm) * part, to.y_mm + (begin.y_mm - to.y_mm) * part};
            if (!may_cross && !room.clear(begin, end)) continue;
            Label label;
            label.lines = set_rows(rows, at.x_mm, top, from_right);
            for (const Line& l : label.lines) room.take_text(l.box);
            room.take_leader(begin, end);
            label.leader = {begin, end};
            return label;
        }
    return {};
}

} // namespace

std::optional<Label> with_leader(const Rows& rows, const std::vector<Point>& to, Room& room, double from_mm) {
    // near by, then farther off and less finely: a page that is full is soon known to be so
    struct Ring {
        double from, to, step;
    };
    for (const bool may_cross : {false, true})
        for (const Ring ring : {Ring{5, 30, 2.5}, Ring{32.5, 150, 7.5}, Ring{155, 400, 15}})
            for (const Point p : to)
                if (auto label = stand_off(rows, p, room, from_mm, from_mm + ring.from, from_mm + ring.to,
                                           ring.step, may_cross))
                    return label;
    return {};
}

} // namespace fl::arrange
