#pragma once

#include <functional>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

/// Sentences with gaps. Private to this room.
namespace fl::wording {

/// Text with `{gaps}`; `{n|# loads}`... a gap with forms picks the one for its number, # being the number.
struct Pattern {
    struct Piece {
        std::string text; ///< literal, or the gap's name
        bool gap = false;
        std::vector<std::string> forms; ///< of a counted gap
    };
    std::vector<Piece> pieces;

    /// Empty with `fault` filled when braces do not match or a gap has no name.
    static std::optional<Pattern> parse(std::string_view text, std::string& fault);
    std::set<std::string> gaps() const;
};

/// A sentence's parts, each the first of its alternatives of which every gap can be filled; a part none of
/// whose alternatives can is left out.
using Sentence = std::vector<std::vector<Pattern>>;

/// The text for a gap, or nothing; for a counted gap `count` gives its number.
struct Filler {
    std::function<std::optional<std::string>(const std::string& gap)> text;
    std::function<std::optional<long long>(const std::string& gap)> count;
    std::function<std::size_t(long long)> plural; ///< which form
};
std::optional<std::string> fill(const Pattern& pattern, const Filler& filler);
/// Parts joined by single blanks.
std::string fill(const Sentence& sentence, const Filler& filler);

} // namespace fl::wording
