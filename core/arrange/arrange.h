#pragma once

#include "core/catalogue/symbols.h"
#include "core/network/network.h"

#include <string>
#include <vector>

/// Sheet geometry without a screen: places for what has none, ways round the symbols, places for labels. Pure
/// values in millimetres on paper, x to the right, y down; the same document gives the same layout.
namespace fl::arrange {

using catalogue::Direction;

struct Rect {
    double left_mm = 0, top_mm = 0, right_mm = 0, bottom_mm = 0;
    bool operator==(const Rect&) const = default;
    bool overlaps(const Rect& o) const {
        return left_mm < o.right_mm && o.left_mm < right_mm && top_mm < o.bottom_mm && o.top_mm < bottom_mm;
    }
};

struct Page {
    plan::SheetId sheet; ///< 0 = the document has no such sheet yet
    double width_mm = 420, height_mm = 297;
    Rect frame; ///< ISO 5457: 20 mm on the left, 10 mm elsewhere
    bool operator==(const Page&) const = default;
};

/// Where conductors meet a symbol. A bar has one for each conductor, several perhaps of one stud.
struct Pin {
    std::string terminal;
    plan::Point at;
    Direction direction = Direction::up;
    bool operator==(const Pin&) const = default;
};

/// A component as drawn: `drawing` with its origin at `at`, mirrored and turned (catalogue::turned).
struct Symbol {
    plan::ComponentId component;
    std::string part; ///< "-": the minus bar of a fuse box, drawn apart; "/2": a bar that goes on on page 2
    int page = 0;
    plan::Point at;
    int quarter_turns = 0;
    bool mirrored = false;
    bool by_hand = false; ///< stands where the document's spot says
    catalogue::SymbolInfo drawing;
    Rect box; ///< on the page
    std::vector<Pin> pins;
    bool operator==(const Symbol&) const = default;
};

/// A terminal's own metal, drawn where several conductors share it: each joins it at a dot.
struct Lead {
    plan::TerminalRef terminal;
    int page = 0;
    std::vector<plan::Point> points;
    std::vector<plan::Point> dots;
    bool operator==(const Lead&) const = default;
};

/// One conductor's way: from its `from` end to its `to` end in one stretch, or in two that each end at a
/// mark.
struct Stretch {
    int page = 0;
    std::vector<plan::Point> points; ///< corners, first and last included
    bool operator==(const Stretch&) const = default;
};
struct Wire {
    plan::ConductorId conductor;
    std::vector<Stretch> stretches;
    bool by_hand = false; ///< follows the document's corners
    bool operator==(const Wire&) const = default;
};

/// The end of a line that goes on elsewhere: names the page and zone of its other end, "/2.B4".
struct Mark {
    plan::ConductorId conductor; ///< 0: a bar goes on
    plan::ComponentId bar;
    int page = 0;
    plan::Point at;
    Direction direction = Direction::right; ///< in which the line runs off
    std::string text;
    Rect box;                        ///< of its text
    std::vector<plan::Point> leader; ///< from the text to `at`, when it had to move away
    bool operator==(const Mark&) const = default;
};

/// What a line of a label is, for its cut: designations Semibold, marks small, figures Italic or copper.
enum class LineKind : std::uint8_t { designation, name, data, terminal, figure };
struct Line {
    LineKind kind = LineKind::data;
    std::string text;        ///< empty for a figure: room for the overlay's number
    Rect box;                ///< base line at the bottom less a fifth of its height
    bool from_right = false; ///< stands against the right edge of its box
    bool operator==(const Line&) const = default;
};
struct Label {
    plan::Subject subject; ///< component, its terminal or way (`part`), or conductor
    int page = 0;
    std::vector<Line> lines;
    std::vector<plan::Point> leader; ///< from the label to what it names, when it had to move away
    bool operator==(const Label&) const = default;
};

struct Layout {
    std::vector<Page> pages;
    std::vector<Symbol> symbols; ///< by component; a part drawn apart follows its component
    std::vector<Lead> leads;
    std::vector<Wire> wires; ///< by conductor
    std::vector<Mark> marks;
    std::vector<Label> labels;
    bool operator==(const Layout&) const = default;

    const Symbol* symbol(plan::ComponentId id, std::string_view part = {}) const;
    const Wire* wire(plan::ConductorId id) const;
};

/// Lays out the whole document. Spots and corners of the document are kept as they are; everything else is
/// placed anew each time, so store only what a hand has placed.
Layout arrange(const plan::Installation& installation, const network::Network& network);

/// The document with a spot for every component, as the layout has it, and a sheet for every page.
plan::Installation settled(plan::Installation installation, const Layout& layout);

/// Zone of a point after ISO 5457: letters downwards, numerals to the right, fields of 50 mm counted from the
/// middle: "B4".
std::string zone(const Page& page, plan::Point at);

/// Width of a text in Lato at this height of capitals, from the font's own advances; never less than drawn.
double text_width_mm(std::string_view text, double capital_mm, bool semibold = false);

} // namespace fl::arrange
