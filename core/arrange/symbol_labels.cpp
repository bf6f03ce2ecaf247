#include "core/arrange/symbol_labels.h"

#include "core/arrange/captions.h"
#include "core/arrange/leader.h"

#include <algorithm>
#include <cmath>

namespace fl::arrange {
namespace {

using plan::Kind;
using plan::Point;

bool level(Direction d) {
    return d == Direction::left || d == Direction::right;
}

class Writer {
public:
    Writer(const plan::Installation& in, const Chains& chains, Layout& out, Room& room)
        : in_(in)
        , chains_(chains)
        , out_(out)
        , room_(room) {}

    void write(const Symbol& s) {
        const auto& c = *in_.components.find(s.component);
        Caption is = caption(c);
        if (s.part.starts_with("/")) is = {is.designation, {}, {}};
        if (s.part == "-") is = {is.designation + " −", {}, {}};
        const auto subject = plan::Subject::of(s.component, s.part);
        const bool bar = !s.part.empty() || c.kind() == Kind::busbar || c.kind() == Kind::joint;
        const bool lies = s.pins.empty() || level(s.pins.front().direction);
        if (bar) return beside_bar(s, is, subject);
        const bool device = chains_.in_series(s.component);
        auto all = variants(is, device);
        // a tall part on a level line has room above for its name and its figures in rows of their own
        if (lies && !device && s.box.bottom_mm - s.box.top_mm > 15) {
            if (all.size() > 1) std::swap(all[0], all[1]);
            if (c.kind() == Kind::fuse_box && !is.name.empty())
                for (const double wider : {0.0, 6.0}) // not more than two rows if they need not be
                    if (const Rows rows = stack(is, s.box.right_mm - s.box.left_mm + wider);
                        wider == 0 || rows.size() < all.front().size())
                        all.insert(all.begin(), rows);
        }
        // a part in a column leaves the space above and below to its conductors
        const auto first = [&](const Rows& rows) {
            if (!lies) return beside(s, rows, subject);
            return device ? over_and_under(s, rows, subject)
                          : over(s, rows, subject) || under(s, rows, subject);
        };
        const auto second = [&](const Rows& rows) {
            if (lies) return beside(s, rows, subject);
            return over(s, rows, subject) || under(s, rows, subject);
        };
        // before its name is left out, the side of its leads that their own texts leave free
        const auto named =
            std::find_if(all.begin(), all.end(), [](const Rows& rows) { return !has_name(rows); });
        for (auto rows = all.begin(); rows != named; ++rows)
            if (first(*rows)) return;
        if (!lies && !device)
            for (auto rows = all.begin(); rows != named; ++rows)
                if (right_of_leads(s, *rows, subject)) return;
        for (auto rows = named; rows != all.end(); ++rows)
            if (first(*rows)) return;
        for (const Rows& rows : all)
            if (second(rows)) return;
        stand_off(s, variants(is, device).back(), subject);
    }

private:
    bool put(const plan::Subject& subject, int page, std::vector<Line> lines) {
        if (!std::all_of(lines.begin(), lines.end(), [&](const Line& l) { return room_.free(l.box); }))
            return false;
        for (const Line& l : lines) room_.take_text(l.box);
        out_.labels.push_back({subject, page, std::move(lines), {}});
        return true;
    }

    /// Designation and name below each other, no wider than this.
    static Rows stack(const Caption& is, double width) {
        Rows rows{{{LineKind::designation, is.designation}}};
        for (const std::string& line : wrapped(words_of(is.name), width))
            rows.push_back({{LineKind::name, line}});
        for (const std::string& line : wrapped(is.data, width)) rows.push_back({{LineKind::data, line}});
        return rows;
    }

    /// From all that can be said down to what must be.
    static std::vector<Rows> variants(const Caption& is, bool device) {
        const Text designation{LineKind::designation, is.designation}, name{LineKind::name, is.name};
        std::string joined;
        for (const std::string& d : is.data) joined += (joined.empty() ? "" : " ") + d;
        const Text data{LineKind::data, joined};
        const auto with_data = [&](Rows rows, bool own_row) {
            if (!joined.empty() && own_row) rows.push_back({data});
            if (!joined.empty() && !own_row) rows.back().push_back(data);
            return rows;
        };
        std::vector<Rows> all;
        if (!is.name.empty() && !device) {
            all.push_back(with_data({{designation, name}}, false));
            all.push_back(with_data({{designation, name}}, true));
            all.push_back(stack(is, 26));
            all.push_back(stack(is, 17));
        }
        all.push_back(with_data({{designation}}, true));
        all.push_back(with_data({{designation}}, false));
        all.push_back({{designation}});
        return all;
    }

    static bool has_name(const Rows& rows) {
        return std::any_of(rows.begin(), rows.end(), [](const auto& row) {
            return std::any_of(row.begin(), row.end(),
                               [](const Text& t) { return t.kind == LineKind::name; });
        });
    }

    bool over(const Symbol& s, const Rows& rows, const plan::Subject& subject) {
        // a flat part keeps the same distance as the others of its row
        const double line = level_of(s), head = std::min(s.box.top_mm, line - 5);
        const double top = head - 1 - height_mm(rows), middle = (s.box.left_mm + s.box.right_mm) / 2;
        // what is wider than a box leaves the side to its ways
        const bool fits = in_.components.find(s.component)->kind() != Kind::fuse_box ||
                          width_mm(rows) <= s.box.right_mm - s.box.left_mm;
        for (double up = 0; up <= 10; up += 2.5)
            if ((fits && put(subject, s.page, set_rows(rows, s.box.left_mm, top - up, false))) ||
                (fits && put(subject, s.page, centred(rows, middle, top - up))) ||
                put(subject, s.page, set_rows(rows, s.box.right_mm, top - up, true)))
                return true;
        return false;
    }
    static double level_of(const Symbol& s) {
        for (const Pin& p : s.pins)
            if (level(p.direction)) return p.at.y_mm;
        return s.box.top_mm + 5;
    }
    bool under(const Symbol& s, const Rows& rows, const plan::Subject& subject) {
        const double top = s.box.bottom_mm + 1, middle = (s.box.left_mm + s.box.right_mm) / 2;
        for (double down = 0; down <= 10; down += 2.5)
            if (put(subject, s.page, centred(rows, middle, top + down)) ||
                put(subject, s.page, set_rows(rows, s.box.left_mm, top + down, false)))
                return true;
        return false;
    }
    /// A stack beside a part, as near to its middle as there is room: of a device on the left, where its
    /// conductor's is; of a part on its free side, the right.
    bool beside(const Symbol& s, const Rows& rows, const plan::Subject& subject) {
        const bool left_first = chains_.in_series(s.component);
        const double middle = (s.box.top_mm + s.box.bottom_mm - height_mm(rows)) / 2;
        // hardly beyond the part's own height, which is its conductors'
        const double most = std::abs(s.box.bottom_mm - s.box.top_mm - height_mm(rows)) / 2 + 2.5;
        for (double off = 0; off <= most; off += 1.25)
            for (const double top : {middle + off, middle - off})
                for (const bool left : {left_first, !left_first})
                    if (put(subject, s.page,
                            set_rows(rows, left ? s.box.left_mm - 1 : s.box.right_mm + 1, top, left)))
                        return true;
        return false;
    }
    /// Right of the upright line above a part, else below it.
    bool right_of_leads(const Symbol& s, const Rows& rows, const plan::Subject& subject) {
        for (const Direction side : {Direction::up, Direction::down})
            for (const Pin& pin : s.pins) {
                if (pin.direction != side) continue;
                const double top =
                    side == Direction::up ? s.box.top_mm - 1 - height_mm(rows) : s.box.bottom_mm + 1;
                if (put(subject, s.page, set_rows(rows, pin.at.x_mm + 1.35, top, false))) return true;
            }
        return false;
    }
    /// A device that lies: its designation above, its rating below.
    bool over_and_under(const Symbol& s, const Rows& rows, const plan::Subject& subject) {
        const double middle = (s.box.left_mm + s.box.right_mm) / 2;
        if (rows.size() == 2) {
            auto lines = centred({rows[0]}, middle, s.box.top_mm - 0.6 - row_box_mm);
            const auto below = centred({rows[1]}, middle, s.box.bottom_mm + 0.6);
            lines.insert(lines.end(), below.begin(), below.end());
            if (put(subject, s.page, std::move(lines))) return true;
        }
        return over(s, rows, subject) || under(s, rows, subject);
    }

    static std::size_t up(const Symbol& s) {
        return static_cast<std::size_t>(std::count_if(
            s.pins.begin(), s.pins.end(), [](const Pin& p) { return p.direction == Direction::up; }));
    }

    void beside_bar(const Symbol& s, const Caption& is, const plan::Subject& subject) {
        for (const Rows& rows : variants(is, false)) {
            const double high = height_mm(rows), wide = width_mm(rows);
            if (s.quarter_turns % 2 == 1) {
                // above its upper end, clear of what is written along the topmost line
                for (const double up : {3.6, 9.0, 1.0})
                    if (put(subject, s.page,
                            set_rows(rows, s.box.right_mm, s.box.top_mm - high - up, true)) ||
                        put(subject, s.page,
                            set_rows(rows, s.box.left_mm - 1, s.box.top_mm - high - up, false)))
                        return;
                for (double y = s.box.top_mm; y <= s.box.bottom_mm + 1; y += 2.5)
                    if (put(subject, s.page, set_rows(rows, s.box.right_mm + 1, y, false))) return;
            }
            const double above = s.box.top_mm - 1 - high, below = s.box.bottom_mm + 1;
            // what comes down to a minus bar that goes on from another sheet is short and needs its label
            const bool below_first = s.part.starts_with("/") && s.pins.size() == up(s);
            for (const double top : {below_first ? below : above, above, above - row_mm, below})
                for (double x = s.box.left_mm; x <= std::max(s.box.left_mm, s.box.right_mm - wide / 2);
                     x += 2.5)
                    if (put(subject, s.page, set_rows(rows, x, top, false))) return;
            for (const double top : {s.box.top_mm - high / 2, s.box.top_mm - 1 - high, s.box.bottom_mm + 1})
                if (put(subject, s.page, set_rows(rows, s.box.right_mm + 1.5, top, false)) ||
                    put(subject, s.page, set_rows(rows, s.box.left_mm - 1.5, top, true)))
                    return;
        }
        stand_off(s, variants(is, false).back(), subject);
    }

    void stand_off(const Symbol& s, const Rows& rows, const plan::Subject& subject) {
        const Point middle{(s.box.left_mm + s.box.right_mm) / 2, (s.box.top_mm + s.box.bottom_mm) / 2};
        if (auto label = with_leader({rows}, {middle}, room_,
                                     std::max(s.box.right_mm - middle.x_mm, s.box.bottom_mm - middle.y_mm))) {
            label->subject = subject;
            label->page = s.page;
            out_.labels.push_back(std::move(*label));
        }
    }

    const plan::Installation& in_;
    const Chains& chains_;
    Layout& out_;
    Room& room_;
};

} // namespace

void write_symbol(const plan::Installation& in, const Chains& chains, const Symbol& symbol, Layout& layout,
                  Room& room) {
    Writer(in, chains, layout, room).write(symbol);
}

} // namespace fl::arrange
