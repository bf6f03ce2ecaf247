#include "ui/diagram/whereabouts.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace fl::ui::whereabouts {

double distance(const plan::Point& a, const plan::Point& b) {
    return std::hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm);
}

namespace {

bool holds(const arrange::Rect& r, const plan::Point& p) {
    return p.x_mm >= r.left_mm && p.x_mm <= r.right_mm && p.y_mm >= r.top_mm && p.y_mm <= r.bottom_mm;
}

// From a point to a horizontal or vertical line.
double to_line(const plan::Point& p, const plan::Point& a, const plan::Point& b) {
    const plan::Point nearest{std::clamp(p.x_mm, std::min(a.x_mm, b.x_mm), std::max(a.x_mm, b.x_mm)),
                              std::clamp(p.y_mm, std::min(a.y_mm, b.y_mm), std::max(a.y_mm, b.y_mm))};
    return distance(p, nearest);
}

// A terminal that carries nothing yet has no pin of its own on a bar; the symbol's drawing knows it.
std::vector<Terminal> terminals_of(const arrange::Symbol& symbol) {
    std::vector<Terminal> all;
    for (const arrange::Pin& pin : symbol.pins)
        all.push_back({{symbol.component, pin.terminal}, {symbol.page, pin.at}});
    for (const catalogue::SymbolTerminal& one : symbol.drawing.terminals) {
        const plan::Point local = catalogue::turned(one.at, symbol.quarter_turns, symbol.mirrored);
        all.push_back({{symbol.component, one.name},
                       {symbol.page, {symbol.at.x_mm + local.x_mm, symbol.at.y_mm + local.y_mm}}});
    }
    return all;
}

void nearer(std::optional<Terminal>& best, const Terminal& other, const plan::Point& to) {
    if (!best || distance(other.where.at, to) < distance(best->where.at, to)) best = other;
}

// The middle of a conductor's way, where its label stands too.
plan::Point middle_of(const std::vector<plan::Point>& points) {
    double left = 0;
    for (std::size_t i = 1; i < points.size(); ++i) left += distance(points[i - 1], points[i]);
    left /= 2;
    for (std::size_t i = 1; i < points.size(); ++i) {
        const plan::Point &a = points[i - 1], &b = points[i];
        const double length = distance(a, b);
        if (left <= length && length > 0)
            return {a.x_mm + (b.x_mm - a.x_mm) * left / length, a.y_mm + (b.y_mm - a.y_mm) * left / length};
        left -= length;
    }
    return points.empty() ? plan::Point{} : points.back();
}

} // namespace

std::optional<Terminal> terminal_near(const arrange::Layout& layout, const Where& where, double reach_mm,
                                      double inner_mm) {
    std::optional<Terminal> best;
    for (const arrange::Symbol& symbol : layout.symbols) {
        if (symbol.page != where.page) continue;
        const double reach = holds(symbol.box, where.at) ? std::min(inner_mm, reach_mm) : reach_mm;
        for (const Terminal& one : terminals_of(symbol))
            if (distance(one.where.at, where.at) <= reach) nearer(best, one, where.at);
    }
    return best;
}

std::optional<Terminal> terminal_for_end(const arrange::Layout& layout, const Where& where, double reach_mm) {
    if (auto near = terminal_near(layout, where, reach_mm, reach_mm)) return near;
    std::optional<Terminal> best;
    for (const arrange::Symbol& symbol : layout.symbols)
        if (symbol.page == where.page && holds(symbol.box, where.at))
            for (const Terminal& one : terminals_of(symbol)) nearer(best, one, where.at);
    return best;
}

std::optional<plan::Subject> subject_at(const arrange::Layout& layout, const Where& where, double reach_mm) {
    for (const arrange::Symbol& symbol : layout.symbols)
        if (symbol.page == where.page && holds(symbol.box, where.at))
            return plan::Subject::of(symbol.component);
    std::optional<plan::Subject> best;
    double nearest = reach_mm;
    for (const arrange::Wire& wire : layout.wires)
        for (const arrange::Stretch& stretch : wire.stretches)
            for (std::size_t i = 0; stretch.page == where.page && i + 1 < stretch.points.size(); ++i)
                if (const double d = to_line(where.at, stretch.points[i], stretch.points[i + 1]);
                    d <= nearest)
                    nearest = d, best = plan::Subject::of(wire.conductor);
    if (best) return best;
    for (const arrange::Label& label : layout.labels)
        for (const arrange::Line& line : label.lines)
            if (label.page == where.page && holds(line.box, where.at))
                return plan::Subject{label.subject.kind, label.subject.id, {}};
    return {};
}

std::vector<plan::Subject> inside(const arrange::Layout& layout, int page, const QRectF& rect) {
    std::vector<plan::Subject> all;
    const auto within = [&](const plan::Point& p) { return rect.contains(QPointF(p.x_mm, p.y_mm)); };
    for (const arrange::Symbol& one : layout.symbols)
        if (one.page == page && one.part.empty() && within({one.box.left_mm, one.box.top_mm}) &&
            within({one.box.right_mm, one.box.bottom_mm}))
            all.push_back(plan::Subject::of(one.component));
    for (const arrange::Wire& one : layout.wires)
        if (!one.stretches.empty() &&
            std::all_of(one.stretches.begin(), one.stretches.end(), [&](const arrange::Stretch& stretch) {
                return stretch.page == page &&
                       std::all_of(stretch.points.begin(), stretch.points.end(), within);
            }))
            all.push_back(plan::Subject::of(one.conductor));
    return all;
}

std::vector<plan::Subject> in_reading_order(const arrange::Layout& layout) {
    constexpr double line_mm = 20; // what lies in one strip of this height is read from left to right
    std::vector<std::tuple<int, double, double, plan::Subject>> all;
    const auto add = [&](int page, const plan::Point& at, const plan::Subject& subject) {
        all.emplace_back(page, std::floor(at.y_mm / line_mm), at.x_mm, subject);
    };
    for (const arrange::Symbol& one : layout.symbols)
        if (one.part.empty())
            add(one.page,
                {(one.box.left_mm + one.box.right_mm) / 2, (one.box.top_mm + one.box.bottom_mm) / 2},
                plan::Subject::of(one.component));
    for (const arrange::Wire& one : layout.wires)
        if (!one.stretches.empty())
            add(one.stretches.front().page, middle_of(one.stretches.front().points),
                plan::Subject::of(one.conductor));
    std::sort(all.begin(), all.end());
    std::vector<plan::Subject> order;
    for (const auto& one : all) order.push_back(std::get<plan::Subject>(one));
    return order;
}

bool goes_in_series(const plan::Component& part) {
    using enum plan::Kind;
    const plan::Kind kind = part.kind();
    return kind == fuse || kind == breaker || kind == switch_ || kind == relay || kind == shunt;
}

} // namespace fl::ui::whereabouts
