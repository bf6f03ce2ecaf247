#include "core/arrange/wires.h"

#include "core/arrange/paper.h"

#include <algorithm>
#include <tuple>

namespace fl::arrange {
namespace {

using plan::ConductorId;

class Leader {
public:
    Leader(const plan::Installation& in, const Shapes& shapes, const Settled& settled, const Docks& docks)
        : in_(in)
        , settled_(settled)
        , docks_(docks) {
        for (const Page& page : settled.pages) boards_.push_back(board(page));
        for (const auto& [id, place] : settled.places)
            if (const auto kind = shapes.kind(id); kind != plan::Kind::busbar && kind != plan::Kind::joint)
                at(place.page).block(shapes.area(id, place));
        for (const Rail& rail : docks.rails) at(rail.page).block(rail.area());
        for (const Stem& stem : docks.stems) {
            at(stem.page).draw({stem.from, stem.to});
            for (const Cell dot : stem.dots) at(stem.page).fix(dot);
        }
        for (const auto& [id, ends] : docks.of)
            for (const Dock& dock : ends)
                if (dock.page >= 0) {
                    at(dock.page).fix(dock.at);
                    at(dock.page).keep_open(dock.at + step(dock.out));
                }
    }

    Wires lead() {
        std::vector<ConductorId> order;
        for (const auto& w : in_.conductors) {
            Wire wire;
            wire.conductor = w.id;
            ways_[w.id] = {};
            if (const auto* corners = by_hand(w.id)) {
                hand(w.id, *corners);
                wire.by_hand = true;
            } else if (on_one_page(w.id)) {
                order.push_back(w.id);
            }
            out_.wires.push_back(std::move(wire));
        }
        std::stable_sort(order.begin(), order.end(),
                         [&](ConductorId a, ConductorId b) { return key(a) < key(b); });
        for (const auto id : order) route(id);
        // once more with all others there: what was led early may find a better way, what found none may get
        // one
        bool better = true;
        for (int pass = 0; pass < 2 && better; ++pass) {
            better = false;
            for (const auto id : order)
                if (const auto before = ways_[id]; before.size() != 2) {
                    at(ends(id)[0].page).erase(before);
                    route(id);
                    better = better || ways_[id] != before;
                }
        }
        for (Wire& wire : out_.wires) finish(wire);
        return std::move(out_);
    }

private:
    const std::array<Dock, 2>& ends(ConductorId id) const { return docks_.of.at(id); }
    Board& at(int page) { return boards_[static_cast<std::size_t>(page)]; }

    /// Lines stay within the frame and off the title block.
    static Board board(const Page& page) {
        const Cell last = cell({page.width_mm, page.height_mm});
        Board made(last.x + 1, last.y + 1);
        const Cell a = cell({page.frame.left_mm, page.frame.top_mm}),
                   b = cell({page.frame.right_mm, page.frame.bottom_mm});
        made.block({0, 0, a.x, last.y});
        made.block({b.x, 0, last.x, last.y});
        made.block({0, 0, last.x, a.y});
        made.block({0, b.y, last.x, last.y});
        made.block(
            {cell({page.frame.right_mm - 180, 0}).x, cell({0, page.frame.bottom_mm - 44}).y, last.x, last.y});
        return made;
    }

    const std::vector<plan::Point>* by_hand(ConductorId id) const {
        if (!on_one_page(id)) return nullptr;
        for (const auto& route : in_.routes)
            if (route.conductor == id && !route.corners.empty()) return &route.corners;
        return nullptr;
    }
    bool on_one_page(ConductorId id) const {
        const auto& [a, b] = ends(id);
        return a.page >= 0 && a.page == b.page;
    }

    /// Straight ones first, then the short ones; signals find their way among all others.
    std::tuple<bool, bool, int, ConductorId> key(ConductorId id) const {
        const auto& [a, b] = ends(id);
        const Cell d = b.at - a.at;
        const bool straight =
            (d.x == 0 && !level(a.out) && !level(b.out)) || (d.y == 0 && level(a.out) && level(b.out));
        return {in_.conductors.find(id)->role == plan::Role::signal, !straight, std::abs(d.x) + std::abs(d.y),
                id};
    }

    void route(ConductorId id) {
        const auto& [a, b] = ends(id);
        const auto found = at(a.page).way({a.at, a.out}, {b.at, b.out});
        ways_[id] = found.value_or(std::vector<Cell>{});
        at(a.page).draw(ways_[id]);
    }

    /// The hand's corners, and one more wherever two that follow each other are not in line.
    void hand(ConductorId id, const std::vector<plan::Point>& corners) {
        const auto& [a, b] = ends(id);
        std::vector<plan::Point> line{point(a.at)};
        bool go_level = level(a.out);
        const auto to = [&](plan::Point next) {
            const plan::Point last = line.back();
            if (last == next) return;
            if (last.x_mm != next.x_mm && last.y_mm != next.y_mm)
                line.push_back(go_level ? plan::Point{next.x_mm, last.y_mm}
                                        : plan::Point{last.x_mm, next.y_mm});
            go_level = line.back().y_mm != next.y_mm; // turn at each corner
            line.push_back(next);
        };
        for (const plan::Point p : corners) to(p);
        go_level = line.size() > 1 && !level(b.out);
        to(point(b.at));
        std::vector<Cell> cells;
        for (const plan::Point p : line) cells.push_back(cell(p));
        for (std::size_t i = 1; i < cells.size(); ++i)
            if (cells[i].x == cells[i - 1].x || cells[i].y == cells[i - 1].y)
                at(a.page).draw({cells[i - 1], cells[i]});
        lines_[id] = std::move(line);
    }

    void finish(Wire& wire) {
        const auto& [a, b] = ends(wire.conductor);
        if (wire.by_hand) {
            wire.stretches.push_back({a.page, lines_.at(wire.conductor)});
        } else if (const auto& way = ways_[wire.conductor]; !way.empty()) {
            Stretch s{a.page, {}};
            for (const Cell c : way) s.points.push_back(point(c));
            wire.stretches.push_back(std::move(s));
        } else {
            broken(wire);
        }
    }

    /// Each end goes out a little and says where the other is.
    void broken(Wire& wire) {
        std::vector<Mark> marks;
        for (std::size_t side = 0; side < 2; ++side) {
            const Dock& dock = ends(wire.conductor)[side];
            if (dock.page < 0) continue;
            Board& board = at(dock.page);
            const Cell end = mark_end(board, dock);
            board.draw({dock.at, end});
            Stretch s{dock.page, {point(dock.at), point(end)}};
            if (side == 1) std::reverse(s.points.begin(), s.points.end());
            wire.stretches.push_back(std::move(s));
            marks.push_back({wire.conductor, {}, dock.page, point(end), dock.out, {}, {}, {}});
        }
        for (std::size_t i = 0; i < marks.size(); ++i) {
            const Mark& other = marks[marks.size() - 1 - i];
            marks[i].text = "/" + std::to_string(other.page + 1) + "." +
                            zone(settled_.pages[static_cast<std::size_t>(other.page)], other.at);
        }
        for (Mark& mark : marks) out_.marks.push_back(std::move(mark));
    }

    /// Out so far that the text beyond the end, or beside it, meets no line and no other mark's.
    Cell mark_end(const Board& board, const Dock& dock) {
        std::vector<Cell> ends;
        for (Cell end = dock.at; ends.size() < 16;) {
            end = end + step(dock.out);
            if (board.blocked(end) || !board.empty(end) || board.fixed(end)) break;
            ends.push_back(end);
        }
        const auto clear = [&](Cell c) {
            for (const Area& text : {level(dock.out) ? Area{0, -1, 6, 1} : Area{-3, 0, 3, 2},
                                     Area{1, -1, 7, 1}, Area{-7, -1, -1, 1}}) {
                Area at = text.at(c + step(dock.out));
                if (dock.out == Direction::left && text.left == 0)
                    at = Area{-6, -1, 0, 1}.at(c + step(dock.out));
                if (dock.out == Direction::up && text.top == 0)
                    at = Area{-3, -2, 3, 0}.at(c + step(dock.out));
                bool free = std::none_of(marked_.begin(), marked_.end(), [&](const auto& m) {
                    return m.first == dock.page && m.second.meets(at);
                });
                for (int y = at.top; free && y <= at.bottom; ++y)
                    for (int x = at.left; free && x <= at.right; ++x)
                        free = board.holds({x, y}) && !board.blocked({x, y}) && board.empty({x, y});
                if (!free) continue;
                marked_.push_back({dock.page, at});
                return true;
            }
            return false;
        };
        // a few steps out at best, else nearer or farther
        for (const std::size_t i : {3u, 4u, 5u, 2u, 6u, 7u, 8u, 1u, 9u, 10u, 11u, 12u, 13u, 14u, 15u})
            if (i < ends.size() && clear(ends[i])) return ends[i];
        return ends.empty() ? dock.at : ends[std::min<std::size_t>(3, ends.size() - 1)];
    }

    const plan::Installation& in_;
    const Settled& settled_;
    const Docks& docks_;
    std::vector<Board> boards_;
    std::map<ConductorId, std::vector<Cell>> ways_;
    std::map<ConductorId, std::vector<plan::Point>> lines_;
    std::vector<std::pair<int, Area>> marked_; // texts of marks
    Wires out_;
};

} // namespace

Wires lead_wires(const plan::Installation& in, const Shapes& shapes, const Settled& settled,
                 const Docks& docks) {
    return Leader(in, shapes, settled, docks).lead();
}

} // namespace fl::arrange
