#pragma once

#include "core/base/result.h"
#include "core/quantity/print.h"

#include <nlohmann/json_fwd.hpp>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

namespace fl::json {

/// How an object or array is laid out.
enum class Layout : std::uint8_t {
    fit,   ///< on one line if it fits, else each member on a line of its own
    lines, ///< always each member on a line of its own
};

/// Writes JSON text: members in the order of the calls, shortest numbers, UTF-8 as it is. The same calls give
/// the same bytes. Misuse (a value without its key in an object, an end too many) is a programming fault.
///
///     Writer w;
///     w.begin_object(Layout::lines);
///     w.member("format", "fuseloom");
///     w.key("rows");
///     w.begin_array(Layout::lines);
///     ...
///     Result<std::string> text = std::move(w).finish();
class Writer {
public:
    /// Columns (characters) within which an object or array stays on one line.
    static constexpr std::size_t width = 160;

    Writer();
    ~Writer();

    void begin_object(Layout layout = Layout::fit);
    /// An object that also holds the fields that `Reader::unknown` kept: they are written after the members
    /// written here, and within its objects and arrays likewise. Fields written here win.
    void begin_row(std::string_view unknown, Layout layout = Layout::fit);
    void end_object();
    void begin_array(Layout layout = Layout::fit);
    void end_array();

    /// The name of the member whose value comes next. With a unit: `name` + "_" + `unit`.
    void key(std::string_view name, std::string_view unit = {});
    /// For a member that may be left out: true when kept fields belong within it, so that it has to be
    /// written all the same. Else it is left out for good: a kept field of that name is not written either.
    bool needs(std::string_view name, std::string_view unit = {});

    void value(double number);
    void value(std::int64_t number);
    void value(int number) { value(std::int64_t{number}); }
    void value(std::uint32_t number) { value(std::int64_t{number}); }
    void value(bool yes);
    void value(std::string_view text);
    void value(const std::string& text) { value(std::string_view(text)); }
    void value(const char* text) { value(std::string_view(text)); }
    void null();
    /// The number in Q's field unit, the shortest that reads back to the same SI value.
    template <class Q>
    void quantity(Q q) {
        put_number(std::isfinite(to_field(q)) ? shortest(q) : std::string());
    }

    template <class T>
    void member(std::string_view name, const T& v) {
        key(name);
        value(v);
    }
    /// Under `name` + "_" + the file spelling of Q's field unit.
    template <class Q>
    void member_quantity(std::string_view name, Q q) {
        key(name, field_unit<Q>().file);
        quantity(q);
    }

    /// The text, ending with a newline; or the first problem: json.utf8 (text that is not UTF-8), json.number
    /// (not finite), json.unknown (kept fields that are no JSON object), each with its JSON pointer.
    Result<std::string> finish() &&;

private:
    void begin(char bracket, Layout layout);
    void end(char bracket);
    void before_value();
    void put(std::string_view bytes);
    void put_text(std::string_view text);
    void put_number(std::string spelled); // empty = not finite
    void put_kept(const nlohmann::json& value);

    struct State;
    std::unique_ptr<State> state_;
};

} // namespace fl::json
