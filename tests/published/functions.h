#pragma once

#include "tests/published/inputs.h"
#include "tests/published/row.h"

#include <functional>
#include <map>
#include <string>

/// Names of public core functions, each with an adapter that unpacks a row's inputs, calls the function and
/// hands back what it gave. No adapter works anything out.
namespace fl::published {

using Function = std::function<Answer(Inputs&)>;
using Registry = std::map<std::string, Function>;

void add_sizing(Registry& registry);
void add_catalogue(Registry& registry);
void add_solve(Registry& registry);
const Registry& registry();

/// The answer to a row; BadRow when its function is not known or its inputs are not all read.
Answer answer(const Row& row);

/// A size as it is printed.
std::string size_text(const std::optional<WireSize>& size);
/// The value, or BadRow: a printed example must be within the tables.
template <class T>
T given(const std::optional<T>& value) {
    if (!value) throw BadRow("the function gives nothing for these inputs");
    return *value;
}

} // namespace fl::published
