#include "ui/panel/circuit_edit.h"

#include "core/edit/edit.h"

#include <algorithm>
#include <cctype>
#include <variant>

namespace fl::ui {
namespace {

using plan::Installation;
using plan::Subject;

const plan::Conductor* shown_conductor(const Installation& in, const network::Circuit& circuit) {
    return circuit.conductors.empty() ? nullptr : in.conductors.find(circuit.conductors.front());
}

// A length or a size, of all the circuit's conductors that have the one shown.
Result<Installation> with_conductors(const Installation& in, const network::Circuit& circuit,
                                     const std::string& field, const std::string& text) {
    const plan::Conductor* first = shown_conductor(in, circuit);
    if (!first) return fail("circuit.cell", "", "this circuit has no conductor", "draw one");
    const bool by_length = field == "length";
    const auto length = plan::length_of(in, *first);
    const auto size = first->size;
    Result<Installation> next = in;
    for (const plan::ConductorId id : circuit.conductors) {
        const plan::Conductor* one = in.conductors.find(id);
        if (!one || !next) continue;
        if (by_length ? plan::length_of(in, *one).value == length.value : one->size.value == size.value)
            next = edit::set(*next, Subject::of(id), field, text);
    }
    return next;
}

struct Taken {
    std::string count, figure;
};

// "12 x 0.25 A" -> 12 and 0.25 A.
Taken taken(const std::string& text) {
    static const std::string times = "×";
    const auto digits = text.find_first_not_of("0123456789");
    if (digits == 0 || digits == text.npos) return {"", text};
    auto at = text.find_first_not_of(' ', digits);
    if (at == text.npos) return {"", text};
    if (text.compare(at, times.size(), times) == 0)
        at += times.size();
    else if (text[at] == 'x' || text[at] == 'X')
        at += 1;
    else
        return {"", text};
    const auto rest = text.find_first_not_of(' ', at);
    return {text.substr(0, digits), rest == text.npos ? std::string() : text.substr(rest)};
}

Result<Installation> with_load(const Installation& in, const plan::Component& part, const std::string& text) {
    const Subject load = Subject::of(part.id);
    const Taken read = taken(text);
    Result<Installation> next = edit::set(in, load, "count", read.count.empty() ? "1" : read.count);
    if (!next) return next;
    constexpr const char* figures[] = {"current", "power", "resistance"};
    const auto own = static_cast<std::size_t>(std::get<plan::Load>(part.with).law);
    auto as_own = edit::set(*next, load, figures[own], read.figure);
    if (as_own) return as_own;
    // Another unit says another law: 60 W where amperes stood.
    for (const char* law : figures) {
        const auto figure = edit::set(*next, load, law, read.figure);
        if (figure) return edit::set(*figure, load, "law", law);
    }
    return as_own;
}

// The load whose figure the row shows; null where it shows none or several.
const plan::Component* only_load(const Installation& in, const network::Circuit& circuit) {
    if (circuit.loads.size() != 1) return nullptr;
    const plan::Component* part = in.components.find(circuit.loads.front());
    return part && part->kind() == plan::Kind::load ? part : nullptr;
}

} // namespace

bool can_edit(const Installation& in, const network::Circuit& circuit, CircuitColumn column) {
    switch (column) {
    case CircuitColumn::way:
        return false;
    case CircuitColumn::name:
        return circuit.loads.size() == 1;
    case CircuitColumn::takes:
        return only_load(in, circuit) != nullptr;
    case CircuitColumn::length:
    case CircuitColumn::size:
        return shown_conductor(in, circuit) != nullptr;
    case CircuitColumn::fuse:
        return in.components.find(circuit.box) != nullptr;
    }
    return false;
}

Result<Installation> with_cell(const Installation& in, const network::Circuit& circuit, CircuitColumn column,
                               const std::string& text) {
    if (!can_edit(in, circuit, column))
        return fail("circuit.cell", "", "nothing can be typed here", "change it in the details");
    switch (column) {
    case CircuitColumn::name:
        return edit::set(in, Subject::of(circuit.loads.front()), "name", text);
    case CircuitColumn::takes:
        return with_load(in, *only_load(in, circuit), text);
    case CircuitColumn::length:
        return with_conductors(in, circuit, "length", text);
    case CircuitColumn::size:
        return with_conductors(in, circuit, "size", text);
    case CircuitColumn::fuse:
        return edit::set(in, Subject::of(circuit.box),
                         circuit.way >= 0 ? "ways." + std::to_string(circuit.way + 1) + ".rating" : "rating",
                         text);
    case CircuitColumn::way:
        break;
    }
    return in;
}

} // namespace fl::ui
