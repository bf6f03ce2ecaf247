#pragma once

#include "core/assess/assess.h"
#include "core/listing/listing.h"
#include "core/quantity/print.h"

#include <string>
#include <string_view>
#include <vector>

/// Operating points side by side.
namespace fl::listing {

/// The letter a condition goes by on the sheet, by its place in the assessment: "a", "b" ... "z", "aa"; empty
/// for a name that is none of theirs.
std::string letter_of(const assess::Assessment& assessment, std::string_view condition);

/// What a column of operating points is about: a source, or one side of a charger.
struct Point {
    int port = -1, converter = -1; ///< of the network
    bool input = false;            ///< of a charger
    bool operator==(const Point&) const = default;
};
/// All of them: sources first, then each charger's input and output.
std::vector<Point> points(const assess::Assessment& assessment);

/// A row for each of these conditions (by name; empty = all), with its letter and, for each point, voltage
/// and current. A source's current counts positive when it delivers. A condition without an operating point
/// says that nothing is known.
Listing operating_points(const assess::Assessment& assessment, const std::vector<Point>& of,
                         const std::vector<std::string>& conditions = {}, Style style = {});

} // namespace fl::listing
