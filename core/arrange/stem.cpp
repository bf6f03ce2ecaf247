#include "core/arrange/stem.h"

#include <algorithm>
#include <map>

namespace fl::arrange {
namespace {

/// Seen along the lead: how far out, and how far to the side (right is positive).
struct Seen {
    int out = 0, side = 0;
    bool level = false;    ///< lies beside the lead and looks at it: wants its very height
    bool straight = false; ///< lies in the lead's own line
    bool behind = false;   ///< hangs from a level of the lead: the nearest takes the lowest
};

class Brancher {
public:
    Brancher(const Spike& pin, const std::vector<std::optional<Spike>>& aims,
             const std::function<bool(Cell)>& blocked)
        : pin_(pin)
        , right_(static_cast<Direction>((static_cast<int>(pin.out) + 1) % 4))
        , blocked_(blocked) {
        for (const auto& aim : aims) seen_.push_back(aim ? look(*aim) : Seen{4, 1 << 10, false, false, true});
        made_.end = pin.at;
        made_.docks.resize(aims.size());
    }

    Branching branch() {
        while (most_ < 300 && !blocked_(at(most_ + 1))) ++most_;
        std::vector<std::size_t> sides[2]; // left, right
        std::optional<std::size_t> straight;
        for (std::size_t i = 0; i < seen_.size(); ++i) {
            if (seen_[i].straight && !straight)
                straight = i;
            else
                sides[seen_[i].side < 0 ? 0 : 1].push_back(i);
        }
        // a long lead is worth it for several that lie beside it
        const auto beside = std::count_if(seen_.begin(), seen_.end(), [](const Seen& s) { return s.level; });
        int top = 0;
        for (Seen& s : seen_)
            if (s.level && s.out > (beside > 1 ? most_ : 16))
                s.level = false;
            else if (s.level)
                top = std::max(top, s.out);
        const int count = static_cast<int>(seen_.size());
        // a line that comes down beside the lead turns into it below its own end
        for (const Seen& s : seen_)
            if (s.behind && s.out >= 0 && s.out <= 16) top = std::max(top, s.out + 2);
        if (top == 0 || top > most_) top = std::min(most_, std::max(2, 4 * (count - 1)));
        top = std::min(most_, std::max(top, count - 1));
        if (top < 1) return std::move(made_);
        alone_ = straight.has_value();
        left_ = count - (alone_ ? 1 : 0);
        for (auto& side : sides) assign(side, top, straight.has_value());
        if (straight) made_.docks[*straight] = Spike{at(top_), pin_.out};
        rest();
        made_.end = at(top_);
        std::map<Cell, int> lines;
        for (const auto& dock : made_.docks)
            if (dock) ++lines[dock->at];
        for (const auto& [c, n] : lines)
            if (n > 1 || c != made_.end) made_.dots.push_back(c);
        return std::move(made_);
    }

private:
    Cell at(int out, int side = 0) const { return pin_.at + step(pin_.out, out) + step(right_, side); }

    Seen look(const Spike& aim) const {
        const Cell d = aim.at - pin_.at;
        const Cell o = step(pin_.out), r = step(right_);
        Seen s{d.x * o.x + d.y * o.y, d.x * r.x + d.y * r.y};
        const Direction back = catalogue::opposite(pin_.out);
        s.straight = s.side == 0 && s.out > 0 && aim.out == back;
        s.level = s.out > 0 && ((s.side > 0 && aim.out == catalogue::opposite(right_)) ||
                                (s.side < 0 && aim.out == right_));
        s.behind = !s.level && aim.out == pin_.out;
        return s;
    }

    /// Levels of one side: those that want their own height first, then the nearest hanging one lowest.
    void assign(std::vector<std::size_t>& side, int top, bool straight) {
        std::vector<std::size_t> loose;
        for (const std::size_t i : side)
            if (!(seen_[i].level && seen_[i].out <= most_ && dock(i, seen_[i].out))) loose.push_back(i);
        std::stable_sort(loose.begin(), loose.end(), [&](std::size_t a, std::size_t b) {
            return std::abs(seen_[a].side) < std::abs(seen_[b].side);
        });
        const bool top_taken = std::any_of(side.begin(), side.end(), [&](std::size_t i) {
            return made_.docks[i] && made_.docks[i]->at == at(top);
        });
        // the farthest shares the end of the lead with one from the other side
        const int levels = static_cast<int>(loose.size()) + (top_taken || straight ? 1 : 0);
        int k = 0;
        for (const std::size_t i : loose) {
            ++k;
            const Seen& s = seen_[i];
            const int below = s.behind && s.out < top ? s.out + 2 : 1;
            const int wanted = std::min(most_, std::max(below, top * k / std::max(1, levels)));
            for (int off = 0; off <= most_; ++off)
                if ((wanted - off >= 1 && dock(i, wanted - off)) ||
                    (wanted + off <= most_ && dock(i, wanted + off)))
                    break;
        }
    }

    /// Takes a level for a conductor when no line would be the fourth in one point.
    bool dock(std::size_t i, int out) {
        const bool right = seen_[i].side >= 0;
        int& taken = levels_[out];
        const int bit = right ? 2 : 1;
        if ((taken & bit) != 0) return false;
        // a second line in one point only at the end of the lead, and when all others find room before it
        if (taken != 0) {
            const auto below = std::count_if(levels_.begin(), levels_.end(),
                                             [&](const auto& l) { return l.first < out && l.second != 0; });
            if (out < top_ || alone_ || out - 1 - below < left_ - 1) return false;
        }
        if (out > top_ && levels_[top_] == 3) return false;
        if (blocked_(at(out, right ? 1 : -1)) || blocked_(at(out, right ? 2 : -2))) return false;
        taken |= bit;
        --left_;
        top_ = std::max(top_, out);
        made_.docks[i] = Spike{at(out), right ? right_ : catalogue::opposite(right_)};
        return true;
    }

    /// What found no level on its side takes any on either; shut in by a hand, the terminal itself.
    void rest() {
        for (std::size_t i = 0; i < seen_.size(); ++i) {
            for (int out = 1; !made_.docks[i] && out <= most_; ++out)
                if (!dock(i, out)) {
                    seen_[i].side = -seen_[i].side - 1;
                    if (!dock(i, out)) seen_[i].side = -seen_[i].side - 1;
                }
            for (const Direction d : {right_, catalogue::opposite(right_)}) {
                const auto taken = [&](const auto& other) {
                    return other && other->at == pin_.at && other->out == d;
                };
                if (!made_.docks[i] && !blocked_(pin_.at + step(d)) &&
                    std::none_of(made_.docks.begin(), made_.docks.end(), taken))
                    made_.docks[i] = Spike{pin_.at, d};
            }
        }
    }

    const Spike& pin_;
    const Direction right_;
    const std::function<bool(Cell)>& blocked_;
    std::vector<Seen> seen_;
    std::map<int, int> levels_; // bit 1: one to the left, bit 2: one to the right
    int most_ = 0, top_ = 0;
    std::ptrdiff_t left_ = 0; ///< conductors without a dock
    bool alone_ = false;      ///< a line goes straight on from the end: no two join there
    Branching made_;
};

} // namespace

Branching branch(const Spike& pin, const std::vector<std::optional<Spike>>& aims,
                 const std::function<bool(Cell)>& blocked) {
    return Brancher(pin, aims, blocked).branch();
}

} // namespace fl::arrange
