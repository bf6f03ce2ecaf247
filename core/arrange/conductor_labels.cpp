#include "core/arrange/conductor_labels.h"

#include "core/arrange/captions.h"
#include "core/arrange/leader.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace fl::arrange {
namespace {

using plan::Point;

constexpr double fine_mm = 0.625;    // how finely places are tried
constexpr double off_line_mm = 1.35; // from a conductor's middle to the box of its text
constexpr double long_mm = 60;       // a stretch that has a place for its text somewhere
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
        // What needs a leader waits until the short ones have their places beside their lines; the long ones
        // find a place anyhow.
        std::vector<const Wire*> waiting;
        const auto leaders = [&] {
            for (const Wire* wire : waiting) by_leader(*wire);
            waiting.clear();
        };
        for (const auto& [length, wire] : order) {
            if (length > long_mm) leaders();
            if (!beside_its_line(*wire)) waiting.push_back(wire);
        }
        leaders();
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

    /// The same text in one, two and three rows.
    std::array<Rows, 3> rows_of(const Wire& wire) {
        const auto& w = *in_.conductors.find(wire.conductor);
        const Caption is = caption(in_, w, sides_[w.id]);
        const Text name{LineKind::designation, is.designation}, size{LineKind::data, is.data[0]},
            length{LineKind::data, is.data[1]};
        return {Rows{{name, size, length}}, Rows{{name}, {size, length}}, Rows{{name}, {size}, {length}}};
    }

    bool beside_its_line(const Wire& wire) {
        subject_ = plan::Subject::of(wire.conductor);
        const auto all = segments(wire);
        const auto [one, two, three] = rows_of(wire);
        for (const Segment& s : all) {
            if (s.length() < 7.5) continue;
            const bool roomy = s.length() >= width_mm(one) + 1.6;
            if (!s.level() ? beside(s, three)
                           : over(s, roomy ? std::vector{one, two, three} : std::vector{two, one, three}))
                return true;
        }
        // a stack that juts out beyond a short stretch is still nearer than a leader
        for (const Segment& s : all)
            if (s.level() ? jutting(s, {two, three}) : beside_anywhere(s, {three, two})) return true;
        return false;
    }

    void by_leader(const Wire& wire) {
        const auto all = segments(wire);
        if (all.empty()) return;
        subject_ = plan::Subject::of(wire.conductor);
        // a leader may point at any stretch on the page where the longest one is
        std::vector<Point> to;
        for (const Segment& s : all)
            if (s.page == all.front().page)
                for (const double t : {0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9})
                    to.push_back(
                        {s.a.x_mm + t * (s.b.x_mm - s.a.x_mm), s.a.y_mm + t * (s.b.y_mm - s.a.y_mm)});
        auto [one, two, three] = rows_of(wire);
        for (Rows* rows : {&two, &three}) rows->push_back({{LineKind::figure, {}}});
        if (auto label = with_leader({two, three}, to, room(all.front().page))) {
            label->subject = subject_;
            label->page = all.front().page;
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

} // namespace fl::arrange
