#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

/// As much of SVG as our symbols may use, read without any library.
namespace fl::test {

struct SvgElement {
    std::string name;
    std::map<std::string, std::string> with; ///< attributes
    int depth = 0;

    bool has(const std::string& key) const { return with.contains(key); }
    /// The attribute as a number; NaN when it is none.
    double number(const std::string& key) const;
};

struct Svg {
    std::vector<SvgElement> elements; ///< in the order of the file
    std::string problem;              ///< empty = well-formed, and nothing between the elements
};

Svg read_svg(std::string_view text);

/// All numbers of a list such as "1,2 3,4"; NaN stands for what is none.
std::vector<double> numbers_of(std::string_view list);

} // namespace fl::test
