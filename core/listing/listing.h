#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

/// Tables for people, as values: the command line, the window and the paper show the same ones.
namespace fl::listing {

/// Numbers stand right-aligned, in the unit of their column's header.
enum class Align : std::uint8_t { left, right };

struct Column {
    std::string title;
    std::string unit; ///< empty = none
    Align align = Align::left;
    bool operator==(const Column&) const = default;
};

/// Rows of text, one text a column. An empty text says that nothing applies; what applies but can't be said
/// is `not_known`.
struct Listing {
    std::string title;
    std::vector<Column> columns;
    std::vector<std::vector<std::string>> rows;
    bool operator==(const Listing&) const = default;
};

inline constexpr std::string_view not_known = "not known";

} // namespace fl::listing
