#include "core/listing/derivation_text.h"

#include "core/listing/plain_text.h"

#include <string_view>
#include <type_traits>

namespace fl::listing {
namespace {

constexpr std::size_t step = 2; // columns a level is indented by

std::string origin_of(const derive::Derivation& d) {
    // Where a formula stands, or by whom a value was given.
    if (!d.formula.empty() || !d.inputs.empty()) return d.source;
    const std::string_view kind = kind_of(d.leaf);
    if (d.source.empty() || d.source.starts_with(kind))
        return d.source.empty() ? std::string(kind) : d.source;
    return std::string(kind) + ": " + d.source;
}

void append(std::string& out, const derive::Derivation& d, std::size_t level, std::size_t width,
            Style style) {
    std::string line = d.symbol;
    if (!d.formula.empty()) line += " = " + d.formula;
    line += " = " + text_of(d.value, style);
    if (!d.what.empty()) line += "  (" + d.what + ")";
    if (const std::string origin = origin_of(d); !origin.empty()) line += "  [" + origin + "]";
    const std::size_t indent = step * level;
    const std::size_t room = width > indent + 20 ? width : indent + 20;
    out.append(indent, ' ');
    std::string text = wrapped(printable(line), room - indent, 2 * step);
    // Lines after the first stand further in than what comes next.
    for (std::size_t at = text.find('\n'); at != text.npos; at = text.find('\n', at + 1))
        text.insert(at + 1, indent, ' ');
    out += text + '\n';
    for (const derive::Derivation& input : d.inputs) append(out, input, level + 1, width, style);
}

} // namespace

std::string_view kind_of(derive::Leaf leaf) {
    switch (leaf) {
    case derive::Leaf::entered:
        return "entered";
    case derive::Leaf::assumed:
        return "assumed";
    case derive::Leaf::table:
        return "from a table";
    case derive::Leaf::constant:
        return "constant";
    case derive::Leaf::solved:
        return "solved";
    }
    return {};
}

std::string text_of(const derive::Value& value, Style style) {
    return std::visit(
        [&]<class T>(const T& v) -> std::string {
            if constexpr (std::is_same_v<T, std::string>)
                return v;
            else if constexpr (std::is_same_v<T, std::int64_t>)
                return fixed(static_cast<double>(v), 0, style);
            else if constexpr (std::is_same_v<T, Voltage>)
                return fixed(v.si(), 3, style) + " V";
            else
                return text(v, style);
        },
        value);
}

std::string plain_text(const derive::Derivation& derivation, std::size_t width, Style style) {
    std::string out;
    append(out, derivation, 0, width, style);
    return out;
}

} // namespace fl::listing
