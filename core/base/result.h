#pragma once

#include <tl/expected.hpp>

#include <string>
#include <utility>
#include <vector>

namespace fl {

/// An operation that failed: where, what is wrong, what would be right.
/// `code` is stable and is what tests compare; `where` is a JSON pointer, a designation or a line and column.
/// The other two are plain sentences without a full stop, ready for `file: where: wrong: right`.
struct Problem {
    std::string code;
    std::string where;
    std::string wrong;
    std::string right;

    bool operator==(const Problem&) const = default;
};

using Problems = std::vector<Problem>;

/// A value, or the one problem that kept it from being made. Nothing throws across rooms.
template <class T>
using Result = tl::expected<T, Problem>;

/// Shorthand for returning a failure: `return fail("quantity.unit", where, "...", "...");`
inline tl::unexpected<Problem> fail(std::string code, std::string where, std::string wrong,
                                    std::string right) {
    return tl::unexpected<Problem>(
        Problem{std::move(code), std::move(where), std::move(wrong), std::move(right)});
}

/// One line for a person: `where: wrong: right`, leaving out what is empty.
std::string line(const Problem& problem);

} // namespace fl
