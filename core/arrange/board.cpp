#include "core/arrange/board.h"

#include <algorithm>
#include <array>
#include <queue>
#include <tuple>

namespace fl::arrange {
namespace {

// In tenths of a step. A bend is worth a detour of five steps, a crossing one of three.
constexpr int one_step = 10, bend = 50, crossing = 30, beside_line = 7, near_line = 3, beside_symbol = 4;
constexpr std::array<Direction, 4> all_directions{Direction::left, Direction::up, Direction::right,
                                                  Direction::down};

Direction towards(Cell a, Cell b) {
    if (a.x != b.x) return a.x < b.x ? Direction::right : Direction::left;
    return a.y < b.y ? Direction::down : Direction::up;
}
int distance(Cell a, Cell b) {
    return std::abs(a.x - b.x) + std::abs(a.y - b.y);
}

} // namespace

Board::Board(int width, int height)
    : width_(width)
    , height_(height)
    , marks_(static_cast<std::size_t>(width) * static_cast<std::size_t>(height))
    , costs_(marks_.size() * 4)
    , from_(marks_.size() * 4)
    , stamps_(marks_.size() * 4)
    , seen_(marks_.size() * 4) {}

void Board::block(const Area& a) {
    for (int y = std::max(a.top, 0); y <= std::min(a.bottom, height_ - 1); ++y)
        for (int x = std::max(a.left, 0); x <= std::min(a.right, width_ - 1); ++x)
            marks_[index({x, y})] |= covered;
}

void Board::fix(Cell c) {
    if (holds(c)) marks_[index(c)] |= fixed_point;
}

void Board::keep_open(Cell c) {
    if (holds(c)) marks_[index(c)] |= way_out;
}

void Board::mark(const std::vector<Cell>& corners, bool on) {
    for (std::size_t i = 1; i < corners.size(); ++i) {
        const Direction d = towards(corners[i - 1], corners[i]), back = catalogue::opposite(d);
        for (Cell c = corners[i - 1]; c != corners[i];) {
            const Cell next = c + step(d);
            for (const auto& [at, way] : {std::pair{c, d}, std::pair{next, back}}) {
                if (!holds(at)) continue;
                auto& m = marks_[index(at)];
                m = static_cast<std::uint8_t>(on ? m | bit(way) : m & ~bit(way));
            }
            c = next;
        }
    }
}

void Board::draw(const std::vector<Cell>& corners) {
    mark(corners, true);
}

void Board::erase(const std::vector<Cell>& corners) {
    mark(corners, false);
}

bool Board::crossable(Cell c, Direction d) const {
    if (fixed(c)) return false;
    const int m = marks_[index(c)] & lines;
    if (m == 0) return true;
    const int across =
        level(d) ? bit(Direction::up) | bit(Direction::down) : bit(Direction::left) | bit(Direction::right);
    return m == across;
}

int Board::cost_of_passing(Cell c, Direction d) const {
    int cost = one_step + (empty(c) ? 0 : crossing);
    const Direction side = level(d) ? Direction::up : Direction::left;
    for (const Direction s : {side, catalogue::opposite(side)}) {
        const Cell one = c + step(s), two = c + step(s, 2);
        if (blocked(one)) {
            cost += beside_symbol;
        } else if (runs(one, d)) {
            cost += beside_line;
        } else if (holds(two) && runs(two, d)) {
            cost += near_line;
        }
    }
    return cost;
}

bool Board::shut_in(const Spike& dock, Cell goal) {
    constexpr std::size_t small = 600;
    const Cell first = dock.at + step(dock.out);
    std::vector<std::pair<Cell, Direction>> open{{first, dock.out}};
    for (std::size_t i = 0; i < open.size() && i < small; ++i) {
        const auto [c, d] = open[i];
        if (c == goal) return false;
        for (const Direction next : all_directions) {
            const Cell to = next == d ? c + step(d) : c;
            if (next == catalogue::opposite(d) || (next != d && !empty(c))) continue;
            if (next == d && (!holds(to) || blocked(to) || !crossable(to, d))) continue;
            auto& seen = seen_[index(to) * 4 + static_cast<std::size_t>(next)];
            if (seen != stamp_) open.emplace_back(to, next);
            seen = stamp_;
        }
    }
    return open.size() <= small;
}

std::optional<std::vector<Cell>> Board::way(const Spike& from, const Spike& to) {
    if (!holds(from.at) || !holds(to.at)) return {};
    ++stamp_;
    const Direction arrive = catalogue::opposite(to.out);
    const Cell before = to.at + step(to.out); // the last point before the dock
    const auto guess = [&](Cell c, Direction d) {
        int least = distance(c, before) * one_step;
        const Cell left = before - c;
        const bool straight = d == arrive && (level(d) ? left.y == 0 : left.x == 0) &&
                              (level(d) ? left.x * step(d).x >= 0 : left.y * step(d).y >= 0);
        if (!straight) least += d == arrive ? 2 * bend : bend;
        return least;
    };
    struct Open {
        int total, cost;
        std::uint32_t state;
        bool operator<(const Open& o) const {
            return std::tie(o.total, cost, o.state) < std::tie(total, o.cost, state);
        }
    };
    std::priority_queue<Open> open;
    const auto push = [&](Cell c, Direction d, int cost, Direction came) {
        const auto state = index(c) * 4 + static_cast<std::size_t>(d);
        if (stamps_[state] == stamp_ && costs_[state] <= cost) return;
        stamps_[state] = stamp_;
        costs_[state] = cost;
        from_[state] = static_cast<std::uint8_t>(came);
        open.push({cost + guess(c, d), cost, static_cast<std::uint32_t>(state)});
    };
    // a step may end at a free point, or at the point before the dock when that is the dock's own neighbour
    const auto may_stop = [&](Cell c) { return holds(c) && !blocked(c) && !fixed(c); };
    const Cell first = from.at + step(from.out);
    if (first == to.at && from.at == before) return std::vector{from.at, to.at};
    if (!may_stop(first) || !may_stop(before)) return {};
    if (!crossable(first, from.out) || !crossable(before, arrive)) return {};
    if (shut_in(to, first)) return {};
    push(first, from.out, one_step, from.out);
    while (!open.empty()) {
        const Open now = open.top();
        open.pop();
        const auto state = static_cast<std::size_t>(now.state);
        if (now.cost != costs_[state]) continue;
        const auto d = static_cast<Direction>(state % 4);
        const auto at = state / 4;
        const Cell c{static_cast<int>(at % static_cast<std::size_t>(width_)),
                     static_cast<int>(at / static_cast<std::size_t>(width_))};
        if (c == before && d == arrive) {
            std::vector<Cell> corners{to.at};
            Cell walk = c;
            Direction way = d;
            while (true) {
                const auto came =
                    static_cast<Direction>(from_[index(walk) * 4 + static_cast<std::size_t>(way)]);
                if (walk == first && way == from.out &&
                    costs_[index(walk) * 4 + static_cast<std::size_t>(way)] == one_step)
                    break;
                if (came != way) {
                    corners.push_back(walk);
                    way = came;
                } else {
                    walk = walk - step(way);
                }
            }
            corners.push_back(from.at);
            std::reverse(corners.begin(), corners.end());
            return corners;
        }
        for (const Direction next : all_directions) {
            if (next == catalogue::opposite(d)) continue;
            if (next != d) {
                // a bend stands only where no other line is
                const bool open_for_others = (marks_[index(c)] & way_out) != 0 && c != first && c != before;
                if (empty(c) && !open_for_others) push(c, next, now.cost + bend, d);
                continue;
            }
            const Cell ahead = c + step(d);
            if (!holds(ahead) || blocked(ahead) || !crossable(ahead, d)) continue;
            push(ahead, d, now.cost + cost_of_passing(ahead, d), d);
        }
    }
    return {};
}

} // namespace fl::arrange
