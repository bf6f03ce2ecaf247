#include "tests/support/sheet_faults.h"

#include <algorithm>
#include <map>
#include <set>

namespace fl::test {
namespace {

using arrange::Rect;
using plan::Point;

/// One straight piece of what is drawn as a line.
struct Piece {
    int page;
    Point a, b;
    std::string what;
    std::uint32_t line; ///< pieces of one line share it
    bool level() const { return a.y_mm == b.y_mm; }
    Rect rect() const {
        return {std::min(a.x_mm, b.x_mm), std::min(a.y_mm, b.y_mm), std::max(a.x_mm, b.x_mm),
                std::max(a.y_mm, b.y_mm)};
    }
};

bool on(const Piece& p, Point c) {
    const Rect r = p.rect();
    return c.x_mm >= r.left_mm && c.x_mm <= r.right_mm && c.y_mm >= r.top_mm && c.y_mm <= r.bottom_mm;
}
bool within(const Rect& r, const Rect& o) {
    return r.left_mm >= o.left_mm && r.right_mm <= o.right_mm && r.top_mm >= o.top_mm &&
           r.bottom_mm <= o.bottom_mm;
}

class Measure {
public:
    Measure(const plan::Installation& in, const arrange::Layout& layout)
        : in_(in)
        , layout_(layout) {}

    std::vector<std::string> faults() {
        symbols();
        gather();
        wires();
        lines_meet();
        texts();
        return std::move(found_);
    }

private:
    std::string name(plan::ComponentId id) const { return in_.components.find(id)->designation; }
    std::string name(plan::ConductorId id) const { return in_.conductors.find(id)->designation; }
    void fault(const std::string& text) { found_.push_back(text); }
    const arrange::Page& page(int i) const { return layout_.pages.at(static_cast<std::size_t>(i)); }

    void symbols() {
        std::map<plan::ComponentId, int> seen;
        for (const auto& s : layout_.symbols) {
            if (s.part.empty()) ++seen[s.component];
            if (!within(s.box, page(s.page).frame) && !oversize(s))
                fault(name(s.component) + " leaves the frame");
        }
        for (const auto& c : in_.components)
            if (seen[c.id] != 1) fault(c.designation + " is drawn " + std::to_string(seen[c.id]) + " times");
        for (std::size_t i = 0; i < layout_.symbols.size(); ++i)
            for (std::size_t k = 0; k < i; ++k) {
                const auto &a = layout_.symbols[i], &b = layout_.symbols[k];
                if (a.page == b.page && !(a.by_hand && b.by_hand) && a.box.overlaps(b.box))
                    fault(name(a.component) + " lies on " + name(b.component));
            }
    }
    bool oversize(const arrange::Symbol& s) const {
        return s.by_hand || s.box.bottom_mm - s.box.top_mm > page(s.page).height_mm - 100;
    }

    void gather() {
        std::uint32_t line = 0;
        const auto add = [&](int at, const std::vector<Point>& points, const std::string& what) {
            ++line;
            for (std::size_t i = 1; i < points.size(); ++i) {
                if (points[i] == points[i - 1]) continue;
                if (points[i].x_mm != points[i - 1].x_mm && points[i].y_mm != points[i - 1].y_mm)
                    fault(what + " slants");
                pieces_.push_back({at, points[i - 1], points[i], what, line});
            }
        };
        for (const auto& w : layout_.wires)
            for (const auto& s : w.stretches) add(s.page, s.points, name(w.conductor));
        for (const auto& l : layout_.leads)
            add(l.page, l.points, "the lead of " + plan::text(in_, l.terminal));
    }

    /// A pin of the terminal, or a dot or the end of its lead.
    bool reaches(const plan::TerminalRef& at, int on_page, Point p) const {
        for (const auto& s : layout_.symbols)
            if (s.component == at.component && s.page == on_page)
                for (const auto& pin : s.pins)
                    if (pin.terminal == at.terminal && pin.at == p) return true;
        for (const auto& l : layout_.leads)
            if (l.terminal == at && l.page == on_page)
                if (l.points.back() == p || std::find(l.dots.begin(), l.dots.end(), p) != l.dots.end())
                    return true;
        return false;
    }
    bool marked(plan::ConductorId id, int on_page, Point p) const {
        return std::any_of(layout_.marks.begin(), layout_.marks.end(), [&](const auto& m) {
            return id && m.conductor == id && m.page == on_page && m.at == p && m.text.starts_with("/");
        });
    }

    void wires() {
        for (const auto& w : in_.conductors) {
            const auto* wire = layout_.wire(w.id);
            if (!wire || wire->stretches.empty() || wire->stretches.size() > 2) {
                fault(w.designation + " is not drawn");
                continue;
            }
            const auto &first = wire->stretches.front(), &last = wire->stretches.back();
            if (!reaches(w.from, first.page, first.points.front()))
                fault(w.designation + " does not begin at " + plan::text(in_, w.from));
            if (!reaches(w.to, last.page, last.points.back()))
                fault(w.designation + " does not end at " + plan::text(in_, w.to));
            if (wire->stretches.size() == 2 && (!marked(w.id, first.page, first.points.back()) ||
                                                !marked(w.id, last.page, last.points.front())))
                fault(w.designation + " is broken without marks");
        }
        for (const auto& p : pieces_)
            for (const auto& s : layout_.symbols) {
                if (s.page != p.page) continue;
                // along or through it; an end on its edge touches only
                const double by = 0.01;
                const Rect r = p.rect(),
                           line{r.left_mm - by, r.top_mm - by, r.right_mm + by, r.bottom_mm + by};
                const Rect inner{s.box.left_mm + 0.1, s.box.top_mm + 0.1, s.box.right_mm - 0.1,
                                 s.box.bottom_mm - 0.1};
                if (inner.left_mm < inner.right_mm && inner.top_mm < inner.bottom_mm &&
                    line.overlaps(inner)) {
                    const bool bar = !s.pins.empty() && s.drawing.box.bottom_mm - s.drawing.box.top_mm < 3;
                    if (!bar || passes_bar(p, s)) fault(p.what + " runs through " + name(s.component));
                }
            }
    }
    /// A bar's box is as wide as its line: a tap ends in its middle.
    static bool passes_bar(const Piece& p, const arrange::Symbol& s) {
        return std::none_of(s.pins.begin(), s.pins.end(),
                            [&](const auto& pin) { return pin.at == p.a || pin.at == p.b; });
    }

    bool joined(const Piece& p, const Piece& q, Point c) const {
        // lines that meet in a dot or an end of a lead, or in one pin, belong together there
        for (const auto& l : layout_.leads)
            if (l.page == p.page &&
                (l.points.back() == c || std::find(l.dots.begin(), l.dots.end(), c) != l.dots.end()))
                return true;
        for (const auto& s : layout_.symbols)
            if (s.page == p.page)
                for (const auto& pin : s.pins)
                    if (pin.at == c) return true;
        return p.line == q.line;
    }

    void lines_meet() {
        for (std::size_t i = 0; i < pieces_.size(); ++i)
            for (std::size_t k = 0; k < i; ++k) {
                const Piece &p = pieces_[i], &q = pieces_[k];
                if (p.page != q.page) continue;
                const Rect a = p.rect(), b = q.rect();
                const double x = std::min(a.right_mm, b.right_mm) - std::max(a.left_mm, b.left_mm);
                const double y = std::min(a.bottom_mm, b.bottom_mm) - std::max(a.top_mm, b.top_mm);
                if (x < 0 || y < 0) continue;
                if (p.level() == q.level()) {
                    if (x > 0 || y > 0) fault(p.what + " lies on " + q.what);
                    continue;
                }
                for (const Point c : {p.a, p.b, q.a, q.b})
                    if (on(p, c) && on(q, c) && !joined(p, q, c)) fault(p.what + " touches " + q.what);
            }
        // never four lines in one point that is joined
        for (const auto& l : layout_.leads)
            for (const Point c : l.dots) {
                int arms = 0;
                for (const auto& p : pieces_)
                    if (p.page == l.page && on(p, c)) arms += (p.a == c || p.b == c) ? 1 : 2;
                if (arms > 3) fault("four lines meet in one dot of " + plan::text(in_, l.terminal));
            }
    }

    void texts() {
        struct Text {
            int page;
            Rect box;
            std::string what;
            const arrange::Symbol* owner;
        };
        std::vector<Text> all;
        for (const auto& label : layout_.labels)
            for (const auto& line : label.lines) {
                const arrange::Symbol* owner = nullptr;
                if (label.subject.kind == plan::Subject::Kind::component && !label.subject.part.empty())
                    owner = layout_.symbol(
                        plan::ComponentId{label.subject.id}); // ways and terminals stand in its box
                all.push_back({label.page, line.box, "\"" + line.text + "\"", owner});
            }
        for (const auto& m : layout_.marks) all.push_back({m.page, m.box, "\"" + m.text + "\"", nullptr});
        for (std::size_t i = 0; i < all.size(); ++i) {
            const Text& t = all[i];
            if (!within(t.box, page(t.page).frame)) fault(t.what + " leaves the frame");
            for (std::size_t k = 0; k < i; ++k)
                if (all[k].page == t.page && all[k].box.overlaps(t.box))
                    fault(t.what + " lies on " + all[k].what);
            for (const auto& p : pieces_) {
                const Rect r = p.rect();
                if (p.page == t.page &&
                    Rect{r.left_mm - 0.35, r.top_mm - 0.35, r.right_mm + 0.35, r.bottom_mm + 0.35}.overlaps(
                        t.box))
                    fault(t.what + " lies on " + p.what);
            }
            for (const auto& s : layout_.symbols)
                if (s.page == t.page && &s != t.owner && s.box.overlaps(t.box))
                    fault(t.what + " lies on " + name(s.component));
        }
    }

    const plan::Installation& in_;
    const arrange::Layout& layout_;
    std::vector<Piece> pieces_;
    std::vector<std::string> found_;
};

} // namespace

std::vector<std::string> sheet_faults(const plan::Installation& in, const arrange::Layout& layout) {
    return Measure(in, layout).faults();
}

} // namespace fl::test
