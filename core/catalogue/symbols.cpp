#include "core/catalogue/symbols.h"

#include "core/base/check.h"
#include "core/base/resource.h"
#include "core/catalogue/load.h"
#include "core/plan/names.h"

#include <algorithm>
#include <array>
#include <map>

namespace fl::catalogue {
namespace {

constexpr std::array<std::string_view, 4> directions{"left", "up", "right", "down"};
constexpr std::array<std::string_view, 3> sides{"down", "right", "both"};

/// How a symbol with any number of terminals grows.
struct Rows {
    double before_mm = 0, pitch_mm = 0, least_pitch_mm = 0, after_mm = 0;
    std::string_view side;
    std::string piece;
    double piece_x_mm = 0;
};
struct Drawn {
    SymbolInfo info;
    Rows rows;
};
struct Symbols {
    std::map<std::string, Drawn, std::less<>> all;
    std::array<std::string, static_cast<std::size_t>(plan::Purpose::vehicle) + 1> loads;
};

plan::Point point(json::Reader& row) {
    return {row.maybe_number("x_mm", -1000, 1000).value_or(0),
            row.maybe_number("y_mm", -1000, 1000).value_or(0)};
}

Drawn read(json::Reader& row, const Citations& citations) {
    Drawn made;
    SymbolInfo& s = made.info;
    s.name = row.text("symbol");
    std::array<double, 4> box{};
    std::size_t k = 0;
    for (json::Reader& side : row.items("box_mm", 4, 4)) box[k++] = side.number(-1000, 1000);
    s.box = {box[0], box[1], box[2], box[3]};
    s.own = row.maybe_boolean("own").value_or(false);
    if (row.has("pieces")) {
        for (json::Reader& piece : row.rows("pieces"))
            s.pieces.push_back(
                {piece.text("svg"), point(piece), piece.maybe_boolean("upright").value_or(false)});
    } else {
        s.pieces.push_back({s.name, {}, false});
    }
    for (json::Reader& t : row.rows("terminals"))
        s.terminals.push_back(
            {t.text("name"), point(t), static_cast<Direction>(t.one_of("direction", directions))});
    if (row.has_object("rows")) {
        json::Reader rows = row.object("rows");
        made.rows = {rows.number("before_mm", 0, 100),
                     rows.number("pitch_mm", grid_mm, 100),
                     rows.number("least_pitch_mm", grid_mm, 100),
                     rows.number("after_mm", 0, 100),
                     sides[rows.one_of("side", sides)],
                     rows.maybe_text("piece").value_or(""),
                     rows.maybe_number("piece_x_mm", -100, 100).value_or(0)};
    }
    s.source = source_of(row, citations);
    row.refuse_unknown();
    return made;
}

const Symbols& symbols() {
    static const Symbols loaded = [] {
        Symbols made;
        load("catalogue/symbols.json", [&](json::Reader& root, const Citations& citations) {
            root.number("grid_mm", grid_mm, grid_mm);
            for (json::Reader& row : root.rows("rows")) {
                Drawn drawn = read(row, citations);
                made.all.emplace(drawn.info.name, std::move(drawn));
            }
            for (json::Reader& row : root.rows("loads"))
                made.loads[row.one_of("purpose", plan::names<plan::Purpose>())] = row.text("symbol");
        });
        for (const auto& [name, drawn] : made.all)
            for (const SymbolPiece& piece : drawn.info.pieces)
                if (!resource("symbols/" + piece.svg + ".svg"))
                    note_fault("catalogue/symbols.json: " + name + ": there is no drawing " + piece.svg);
        return made;
    }();
    return loaded;
}

std::string symbol_name(const plan::Component& component) {
    std::string usual = kind_info(component.kind()).symbol;
    if (const auto* load = std::get_if<plan::Load>(&component.with))
        return symbols().loads[static_cast<std::size_t>(load->purpose)];
    if (const auto* one = std::get_if<plan::DriveCharger>(&component.with))
        return usual + (one->isolated ? "_run_isolated" : "_run");
    if (const auto* one = std::get_if<plan::Converter>(&component.with))
        return one->isolated ? usual + "_isolated" : usual;
    if (const auto* one = std::get_if<plan::Alternator>(&component.with))
        return one->sense ? usual + "_sense" : usual;
    if (const auto* one = std::get_if<plan::Relay>(&component.with))
        return one->control == plan::RelayControl::voltage_sensing ? usual + "_sensing" : usual;
    if (const auto* one = std::get_if<plan::Switch>(&component.with)) {
        if (one->role == plan::SwitchRole::master) return usual + "_master";
        if (one->role == plan::SwitchRole::emergency_link) return usual + "_emergency";
    }
    return usual;
}

const Drawn& drawn(const plan::Component& component) {
    const auto found = symbols().all.find(symbol_name(component));
    FL_CHECK(found != symbols().all.end()); // a test walks all kinds and variants
    return found->second;
}

double pitch_of(const Rows& rows, double wanted_mm) {
    return wanted_mm > 0 ? std::max(wanted_mm, rows.least_pitch_mm) : rows.pitch_mm;
}

void outline(SymbolInfo& s, const SymbolBox& b) {
    s.strokes.push_back({{b.left_mm, b.top_mm}, {b.right_mm, b.top_mm}});
    s.strokes.push_back({{b.right_mm, b.top_mm}, {b.right_mm, b.bottom_mm}});
    s.strokes.push_back({{b.right_mm, b.bottom_mm}, {b.left_mm, b.bottom_mm}});
    s.strokes.push_back({{b.left_mm, b.bottom_mm}, {b.left_mm, b.top_mm}});
}

/// A thick line with its studs below, each where a tap leaves.
void grow_bar(SymbolInfo& s, const Rows& rows, const std::vector<std::string>& terminals, double pitch) {
    double x = rows.before_mm;
    for (const std::string& name : terminals) {
        s.terminals.push_back({name, {x, 0}, Direction::down});
        x += pitch;
    }
    s.box.right_mm = x - pitch + rows.after_mm;
    s.pieces.clear();
    s.strokes.push_back({{0, 0}, {s.box.right_mm, 0}, 1.4});
}

/// The feed on the left goes to a line that all ways leave on the right.
void grow_fuse_box(SymbolInfo& s, const Rows& rows, const plan::FuseBox& box, const BoxWays& at) {
    const auto terminals = plan::terminals(box);
    double last = at.feed_mm;
    s.terminals.front().at.y_mm = at.feed_mm;
    for (std::size_t i = 0; i < box.ways.size(); ++i) {
        const double y = i < at.ways_mm.size() ? at.ways_mm[i] : last;
        s.terminals.push_back({terminals[i + 1], {s.box.right_mm, y}, Direction::right});
        if (box.ways[i].fitted) {
            s.pieces.push_back({rows.piece, {rows.piece_x_mm, y}, false});
        } else { // an empty holder
            s.strokes.push_back({{5, y}, {rows.piece_x_mm - 3.75, y}});
            s.strokes.push_back({{rows.piece_x_mm + 3.75, y}, {s.box.right_mm, y}});
        }
        last = std::max(last, y);
    }
    s.box.bottom_mm += last;
    if (box.minus_bar)
        s.terminals.push_back(
            {"-", {(s.box.left_mm + s.box.right_mm) / 2, s.box.bottom_mm}, Direction::down});
    s.strokes.push_back({{0, at.feed_mm}, {5, at.feed_mm}});
    if (last > 0) s.strokes.push_back({{5, 0}, {5, last}});
    outline(s, s.box);
}

/// The first half of the terminals on the left, the rest on the right, each with a short lead.
void grow_unit(SymbolInfo& s, const std::vector<std::string>& terminals, double pitch) {
    const std::size_t left = (terminals.size() + 1) / 2;
    for (std::size_t i = 0; i < terminals.size(); ++i) {
        const bool on_left = i < left;
        const double y = pitch * static_cast<double>(on_left ? i : i - left);
        const double x = on_left ? s.box.left_mm : s.box.right_mm;
        s.terminals.push_back({terminals[i], {x, y}, on_left ? Direction::left : Direction::right});
        s.strokes.push_back({{x, y}, {on_left ? x + grid_mm : x - grid_mm, y}});
    }
    if (left > 0) s.box.bottom_mm += pitch * static_cast<double>(left - 1);
    outline(s, {s.box.left_mm + grid_mm, s.box.top_mm, s.box.right_mm - grid_mm, s.box.bottom_mm});
}

} // namespace

SymbolInfo symbol_for(const plan::Component& component, double pitch_mm) {
    const Drawn& base = drawn(component);
    SymbolInfo s = base.info;
    if (base.rows.pitch_mm <= 0) return s;
    const auto terminals = plan::terminals(component.with);
    const double pitch = pitch_of(base.rows, pitch_mm);
    if (base.rows.side == "down") {
        grow_bar(s, base.rows, terminals, pitch);
    } else if (const auto* box = std::get_if<plan::FuseBox>(&component.with)) {
        BoxWays at;
        for (std::size_t i = 0; i < box->ways.size(); ++i)
            at.ways_mm.push_back(pitch * static_cast<double>(i));
        grow_fuse_box(s, base.rows, *box, at);
    } else {
        grow_unit(s, terminals, pitch);
    }
    return s;
}

SymbolInfo symbol_for(const plan::Component& fuse_box, const BoxWays& at) {
    const auto* box = std::get_if<plan::FuseBox>(&fuse_box.with);
    if (!box) return symbol_for(fuse_box);
    const Drawn& base = drawn(fuse_box);
    SymbolInfo s = base.info;
    grow_fuse_box(s, base.rows, *box, at);
    return s;
}

SymbolPitch symbol_pitch(const plan::Component& component) {
    const Rows& rows = drawn(component).rows;
    return {rows.pitch_mm, rows.least_pitch_mm};
}

plan::Point turned(plan::Point p, int quarter_turns, bool mirrored) {
    if (mirrored) p.x_mm = -p.x_mm;
    for (int i = 0; i < (quarter_turns % 4 + 4) % 4; ++i) p = {-p.y_mm, p.x_mm};
    return {p.x_mm + 0.0, p.y_mm + 0.0}; // no negative zero
}

Direction turned(Direction d, int quarter_turns, bool mirrored) {
    if (mirrored && (d == Direction::left || d == Direction::right)) d = opposite(d);
    return static_cast<Direction>((static_cast<int>(d) + (quarter_turns % 4 + 4)) % 4);
}

SymbolBox turned(const SymbolBox& box, int quarter_turns, bool mirrored) {
    const plan::Point a = turned(plan::Point{box.left_mm, box.top_mm}, quarter_turns, mirrored);
    const plan::Point b = turned(plan::Point{box.right_mm, box.bottom_mm}, quarter_turns, mirrored);
    return {std::min(a.x_mm, b.x_mm), std::min(a.y_mm, b.y_mm), std::max(a.x_mm, b.x_mm),
            std::max(a.y_mm, b.y_mm)};
}

plan::Point moved(plan::Point from, Direction towards, double mm) {
    switch (towards) {
    case Direction::left:
        return {from.x_mm - mm, from.y_mm};
    case Direction::up:
        return {from.x_mm, from.y_mm - mm};
    case Direction::right:
        return {from.x_mm + mm, from.y_mm};
    case Direction::down:
        return {from.x_mm, from.y_mm + mm};
    }
    return from;
}

Direction opposite(Direction direction) {
    return static_cast<Direction>((static_cast<int>(direction) + 2) % 4);
}

std::vector<std::string_view> symbol_names() {
    std::vector<std::string_view> names;
    for (const auto& [name, drawn] : symbols().all) names.push_back(name);
    return names;
}

} // namespace fl::catalogue
