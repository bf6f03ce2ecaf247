#pragma once

#include "core/catalogue/catalogue.h"
#include "core/plan/sheet.h"

#include <string>
#include <string_view>
#include <vector>

/// Symbols of the sheet, from resources/catalogue/symbols.json and resources/symbols/*.svg. Lengths in
/// millimetres on paper, x to the right, y down, from the symbol's origin; everything that connects lies on
/// the grid. docs/look.md says how they are drawn and why.
namespace fl::catalogue {

inline constexpr double grid_mm = 2.5;

/// Where a conductor leaves a terminal.
enum class Direction : std::uint8_t { left, up, right, down };

struct SymbolBox {
    double left_mm = 0, top_mm = 0, right_mm = 0, bottom_mm = 0;
    bool operator==(const SymbolBox&) const = default;
};

struct SymbolTerminal {
    std::string name; ///< as in `plan::terminals`
    plan::Point at;
    Direction direction = Direction::up;
    bool operator==(const SymbolTerminal&) const = default;
};

/// A drawing that belongs to the symbol: file resources/symbols/<svg>.svg with its origin at `at`. Its
/// viewBox is in the same millimetres, one more on each side than what is drawn.
struct SymbolPiece {
    std::string svg;
    plan::Point at;
    bool upright = false; ///< a letter or mark: its place turns with the symbol, the drawing itself doesn't
    bool operator==(const SymbolPiece&) const = default;
};

/// A straight line that belongs to the symbol: what depends on the count of terminals can't be in a file.
struct SymbolStroke {
    plan::Point from, to;
    double width_mm = 0.35;
    bool operator==(const SymbolStroke&) const = default;
};

struct SymbolInfo {
    std::string name; ///< "battery"
    SymbolBox box;    ///< kept free of everything else
    bool own = false; ///< not in the standard: stands in the legend of the sheet
    std::vector<SymbolPiece> pieces;
    std::vector<SymbolStroke> strokes;
    std::vector<SymbolTerminal> terminals; ///< every terminal of the component
    Source source;
    bool operator==(const SymbolInfo&) const = default;
};

/// The symbol of a component with all its terminals: ways of a fuse box below each other on its right, studs
/// of a bar along it, terminals of a unit on its left and right. `pitch_mm` overrides the usual distance of
/// ways and studs (a multiple of the grid; never less than the symbol's least).
SymbolInfo symbol_for(const plan::Component& component, double pitch_mm = 0);

/// Where the ways of a fuse box stand and where its feed comes in, each so far below its first way.
struct BoxWays {
    std::vector<double> ways_mm; ///< one for each way, multiples of the grid, growing
    double feed_mm = 0;          ///< likewise; not above the first way
};
/// A fuse box drawn with its ways where they are wanted: in line with what hangs on them.
SymbolInfo symbol_for(const plan::Component& fuse_box, const BoxWays& at);

/// The usual and the least distance of ways of a fuse box and studs of a bar; 0 for every other symbol.
struct SymbolPitch {
    double usual_mm = 0, least_mm = 0;
};
SymbolPitch symbol_pitch(const plan::Component& component);

/// A point of a symbol on paper, from its origin: first mirrored (left and right change places), then turned
/// to the right (clockwise as seen) by quarters.
plan::Point turned(plan::Point local, int quarter_turns, bool mirrored);
Direction turned(Direction local, int quarter_turns, bool mirrored);
SymbolBox turned(const SymbolBox& local, int quarter_turns, bool mirrored);

/// One grid step that way, times `steps`.
plan::Point moved(plan::Point from, Direction towards, double mm);
Direction opposite(Direction direction);

/// Every symbol of the table by name (for tests and legends).
std::vector<std::string_view> symbol_names();

} // namespace fl::catalogue
