#include "app/json_parts.h"

#include "core/json/utf8.h"
#include "core/listing/plain_text.h"

#include <array>

namespace fl::app {

void begin_document(json::Writer& w, std::string_view format, int status) {
    w.member("format", format);
    w.member("version", json_version);
    w.member("status", status);
}

void write_file_and_problems(json::Writer& w, const Opened& opened) {
    // A path is bytes; what is no UTF-8 in it can't be said in JSON.
    w.member("file",
             json::bad_utf8(opened.path) == opened.path.npos ? opened.path : listing::printable(opened.path));
    w.key("problems");
    w.begin_array(json::Layout::lines);
    for (const Problem& problem : opened.problems) {
        w.begin_object();
        w.member("code", problem.code);
        w.member("where", listing::printable(problem.where));
        w.member("wrong", listing::printable(problem.wrong));
        w.member("right", listing::printable(problem.right));
        w.end_object();
    }
    w.end_array();
}

Answer finish(json::Writer&& w, int status, std::string err) {
    auto text = std::move(w).finish();
    if (!text)
        return {unusable, "", err + "fuseloom: JSON: " + listing::printable(line(text.error())) + "\n"};
    return {status, std::move(*text), std::move(err)};
}

void write_size(json::Writer& w, std::string_view name, const std::optional<WireSize>& size) {
    quantity_or_null(w, name, size ? std::optional(size->area) : std::nullopt);
    if (!size || !size->awg) return;
    w.key(name, "awg");
    w.value(size->awg->name());
}

void write_value(json::Writer& w, std::string_view name, const derive::Value& value) {
    std::visit(
        [&]<class T>(const T& v) {
            if constexpr (std::is_same_v<T, WireSize>)
                write_size(w, name, v);
            else if constexpr (std::is_same_v<T, std::string> || std::is_same_v<T, std::int64_t>)
                w.member(name, v);
            else
                w.member_quantity(name, v);
        },
        value);
}

void write_derivation(json::Writer& w, const derive::Derivation& d) {
    static constexpr std::array<std::string_view, 5> leaves{"entered", "assumed", "table", "constant",
                                                            "solved"};
    w.begin_object();
    w.member("symbol", d.symbol);
    w.member("what", d.what);
    if (!d.formula.empty()) w.member("formula", d.formula);
    write_value(w, "value", d.value);
    if (d.inputs.empty()) w.member("from", leaves[static_cast<std::size_t>(d.leaf)]);
    if (!d.source.empty()) w.member("source", d.source);
    if (!d.inputs.empty()) {
        w.key("inputs");
        w.begin_array(json::Layout::lines);
        for (const derive::Derivation& input : d.inputs) write_derivation(w, input);
        w.end_array();
    }
    w.end_object();
}

} // namespace fl::app
