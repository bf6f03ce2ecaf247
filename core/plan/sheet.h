#pragma once

#include "core/plan/ids.h"

#include <cstdint>
#include <string>
#include <vector>

/// The paper: where things are drawn. Never reaches the assessment. Lengths in millimetres on paper.
namespace fl::plan {

struct Point {
    double x_mm = 0, y_mm = 0;
    bool operator==(const Point&) const = default;
};

struct Sheet {
    SheetId id;
    std::string title;
    std::string size = "A3"; ///< ISO 216, landscape
    std::string unknown;
    bool operator==(const Sheet&) const = default;
};

/// A component's place on a sheet.
struct Spot {
    Id<Spot> id;
    ComponentId component;
    SheetId sheet;
    Point at;
    int quarter_turns = 0;
    bool mirrored = false;
    std::string unknown;
    bool operator==(const Spot&) const = default;
};

/// A conductor's way on a sheet; empty corners = routed.
struct Route {
    Id<Route> id;
    ConductorId conductor;
    std::vector<Point> corners;
    std::string unknown;
    bool operator==(const Route&) const = default;
};

struct Note {
    Id<Note> id;
    SheetId sheet;
    Point at;
    std::string text;
    std::string unknown;
    bool operator==(const Note&) const = default;
};

} // namespace fl::plan
