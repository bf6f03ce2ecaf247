#include "core/arrange/labels.h"

#include "core/arrange/block.h"
#include "core/arrange/captions.h"
#include "core/arrange/conductor_labels.h"
#include "core/arrange/leader.h"
#include "core/arrange/room.h"
#include "core/arrange/symbol_labels.h"

#include <algorithm>

namespace fl::arrange {
namespace {

using plan::Kind;
using plan::Point;

/// A terminal's name as it is written.
std::string written(const std::string& terminal) {
    if (terminal.ends_with('-')) return terminal.substr(0, terminal.size() - 1) + "−";
    return terminal;
}

class Writer {
public:
    Writer(const plan::Installation& in, const Chains& chains, Layout& out)
        : in_(in)
        , chains_(chains)
        , out_(out) {
        for (const Page& page : out.pages) rooms_.emplace_back(page);
        for (const Symbol& s : out.symbols) {
            // a little air, less than between texts; a bar's box is wider than its line as it is
            const auto kind = in.components.find(s.component)->kind();
            const double by = kind == Kind::busbar || s.part == "-" ? 0 : 0.3;
            room(s.page).take(
                {s.box.left_mm - by, s.box.top_mm - by, s.box.right_mm + by, s.box.bottom_mm + by});
        }
        for (const Wire& w : out.wires)
            for (const Stretch& s : w.stretches) room(s.page).take(s.points, 0.7);
        for (const Lead& l : out.leads) {
            room(l.page).take(l.points, 0.7);
            for (const Point p : l.dots) room(l.page).take({p.x_mm - 1, p.y_mm - 1, p.x_mm + 1, p.y_mm + 1});
        }
    }

    void write() {
        for (Mark& m : out_.marks) mark(m);
        for (const Symbol& s : out_.symbols) terminals(s);
        for (const bool in_series : {false, true})
            for (const Symbol& s : out_.symbols)
                if (chains_.in_series(s.component) == in_series)
                    write_symbol(in_, chains_, s, out_, room(s.page));
        write_conductors(in_, chains_, out_, rooms_);
        std::stable_sort(out_.labels.begin(), out_.labels.end(),
                         [](const Label& a, const Label& b) { return a.subject < b.subject; });
    }

private:
    Room& room(int page) { return rooms_[static_cast<std::size_t>(page)]; }

    bool put(const plan::Subject& subject, int page, std::vector<Line> lines) {
        if (!std::all_of(lines.begin(), lines.end(), [&](const Line& l) { return room(page).free(l.box); }))
            return false;
        keep(subject, page, std::move(lines));
        return true;
    }
    void keep(const plan::Subject& subject, int page, std::vector<Line> lines) {
        for (const Line& l : lines) room(page).take_text(l.box);
        out_.labels.push_back({subject, page, std::move(lines), {}});
    }

    void mark(Mark& m) {
        const double wide = text_width_mm(m.text, capital_mm), half = row_box_mm / 2;
        const auto box = [&](Direction d) {
            const Point p =
                catalogue::moved(m.at, d, m.bar && d != m.direction ? 1.8 : 1.2); // off a bar's edge
            switch (d) {
            case Direction::left:
                return Rect{p.x_mm - wide, p.y_mm - half, p.x_mm, p.y_mm + half};
            case Direction::right:
                return Rect{p.x_mm, p.y_mm - half, p.x_mm + wide, p.y_mm + half};
            case Direction::up:
                return Rect{p.x_mm - wide / 2, p.y_mm - 2 * half, p.x_mm + wide / 2, p.y_mm};
            default:
                return Rect{p.x_mm - wide / 2, p.y_mm, p.x_mm + wide / 2, p.y_mm + 2 * half};
            }
        };
        for (const Direction d :
             {m.direction, Direction::up, Direction::down, Direction::right, Direction::left})
            if (m.box = box(d); d != catalogue::opposite(m.direction) && room(m.page).free(m.box))
                return room(m.page).take_text(m.box);
        if (const auto away = with_leader({Rows{{{LineKind::data, m.text}}}}, {m.at}, room(m.page), 1)) {
            m.box = away->lines.front().box;
            m.leader = away->leader;
            return;
        }
        room(m.page).take_text(m.box);
    }

    void terminals(const Symbol& s) {
        const auto& c = *in_.components.find(s.component);
        if (!s.part.empty()) return;
        if (const auto* box = std::get_if<plan::FuseBox>(&c.with)) ways(s, *box);
        if (!marks_terminals(c.kind())) return;
        for (const Pin& pin : s.pins) {
            const Rows rows{{{LineKind::terminal, written(pin.terminal)}}};
            const double wide = width_mm(rows), high = 1.25 * small_capital_mm;
            const auto subject = plan::Subject::of(s.component, pin.terminal);
            const auto at = [&](double left, double top) {
                return std::vector<Line>{
                    {LineKind::terminal, rows[0][0].text, {left, top, left + wide, top + high}, false}};
            };
            const Point p = pin.at;
            if (c.kind() == Kind::unit) { // inside its box, at its lead
                keep(subject, s.page,
                     at(pin.direction == Direction::left ? p.x_mm + 3.2 : p.x_mm - 3.2 - wide,
                        p.y_mm - high / 2));
                continue;
            }
            const double above = p.y_mm - 0.9 - high, below = p.y_mm + 0.9;
            const double before = p.x_mm - 0.9 - wide, after = p.x_mm + 0.9;
            switch (pin.direction) {
            case Direction::left:
                put(subject, s.page, at(before, below)) || put(subject, s.page, at(before, above));
                break;
            case Direction::right:
                put(subject, s.page, at(after, below)) || put(subject, s.page, at(after, above));
                break;
            case Direction::up:
                put(subject, s.page, at(before, above)) || put(subject, s.page, at(after, above));
                break;
            case Direction::down:
                put(subject, s.page, at(after, below)) || put(subject, s.page, at(before, below));
                break;
            }
        }
    }

    /// Ratings inside the box above each fuse-link, numbers outside at the terminals.
    void ways(const Symbol& s, const plan::FuseBox& box) {
        for (const Pin& pin : s.pins) {
            std::size_t way = 0;
            for (const char digit : pin.terminal)
                way = digit >= '0' && digit <= '9' ? way * 10 + static_cast<std::size_t>(digit - '0') : 0;
            if (way < 1 || way > box.ways.size()) continue;
            const auto subject = plan::Subject::of(s.component, pin.terminal);
            const Rows rating{{{LineKind::data, caption(box.ways[way - 1])}}};
            const double inside =
                (s.box.left_mm + s.box.right_mm) / 2 + (pin.direction == Direction::right ? 2.5 : -2.5);
            if (level(pin.direction))
                keep(subject, s.page, centred(rating, inside, pin.at.y_mm - 2.05 - capital_mm));
        }
    }
    static bool level(Direction d) { return d == Direction::left || d == Direction::right; }

    const plan::Installation& in_;
    const Chains& chains_;
    Layout& out_;
    std::vector<Room> rooms_;
};

} // namespace

void put_labels(const plan::Installation& in, const Chains& chains, Layout& layout) {
    Writer(in, chains, layout).write();
}

} // namespace fl::arrange
