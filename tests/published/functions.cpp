#include "tests/published/functions.h"

#include "core/quantity/print.h"

namespace fl::published {

const Registry& registry() {
    static const Registry all = [] {
        Registry made;
        add_sizing(made);
        add_catalogue(made);
        add_solve(made);
        return made;
    }();
    return all;
}

Answer answer(const Row& row) {
    const auto found = registry().find(row.function);
    if (found == registry().end()) throw BadRow("no such function: " + row.function);
    Inputs inputs(row.inputs);
    Answer out = found->second(inputs);
    inputs.all_read();
    return out;
}

std::string size_text(const std::optional<WireSize>& size) {
    return text(given(size));
}

} // namespace fl::published
