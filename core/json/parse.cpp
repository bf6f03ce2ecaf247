#include "core/json/parse.h"

#include "core/json/number.h"
#include "core/json/pointer.h"
#include "core/json/utf8.h"

#include <nlohmann/json.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace fl::json {
namespace {

using Json = nlohmann::json;

// Takes the parser's events and builds the tree, so that limits and duplicate keys are met while reading and
// not when memory is full.
class Builder {
public:
    Builder(std::string_view text, const Limits& limits)
        : text_(text)
        , limits_(limits) {}

    std::unique_ptr<Json> root = std::make_unique<Json>();
    std::optional<Problem> problem;

    bool null() { return put(Json(nullptr)) != nullptr; }
    bool boolean(bool value) { return put(Json(value)) != nullptr; }
    bool number_integer(std::int64_t value) { return put(Json(value)) != nullptr; }
    bool number_unsigned(std::uint64_t value) { return put(Json(value)) != nullptr; }
    bool number_float(double value, const std::string& spelled) {
        // Not by looking for a point: the library spells it as the locale does.
        if (spelled.find_first_not_of("-0123456789") != spelled.npos) return put(Json(value)) != nullptr;
        return refuse("json.number", next_place(), shortened(spelled, 40) + " is beyond 64 bits",
                      "a smaller whole number, or one with a decimal point");
    }
    bool string(std::string& value) { return put(Json(std::move(value))) != nullptr; }
    bool binary(Json::binary_t&) { return false; } // not in JSON texts

    bool start_object(std::size_t) {
        if (!open_.empty() && open_.back().value->is_array() && ++rows_ > limits_.rows)
            return refuse("json.rows", next_place(), "more rows than are read",
                          "at most " + digits(static_cast<std::int64_t>(limits_.rows)));
        return start(Json::value_t::object);
    }
    bool start_array(std::size_t) { return start(Json::value_t::array); }
    bool end_object() { return end(); }
    bool end_array() { return end(); }

    bool key(std::string& name) {
        Open& now = open_.back();
        const auto [at, added] = now.value->emplace(std::move(name), nullptr);
        now.member = &*at;
        now.name = &at.key();
        if (added) return true;
        return refuse("json.duplicate", next_place(), "this key stands twice in one object", "each key once");
    }

    bool parse_error(std::size_t position, const std::string&, const Json::exception& error) {
        std::string_view what = error.what();
        const bool number = dynamic_cast<const Json::out_of_range*>(&error) != nullptr;
        if (const auto bracket = what.find("] "); bracket != what.npos) what.remove_prefix(bracket + 2);
        const auto column = what.find("column ");
        if (const auto colon = what.find(": ", column); column != what.npos && colon != what.npos)
            what.remove_prefix(colon + 2);
        return refuse(number ? "json.number" : "json.syntax",
                      line_and_column(text_, position == 0 ? 0 : position - 1), shortened(what, 200),
                      number ? "a number that a double can hold" : "JSON as in RFC 8259");
    }

private:
    struct Open {
        Json* value = nullptr;
        Json* member = nullptr;            // of an object: the value of the key just read
        const std::string* name = nullptr; // its key
    };

    Json* put(Json&& value) {
        if (open_.empty()) {
            *root = std::move(value);
            return root.get();
        }
        Open& now = open_.back();
        if (now.value->is_array()) return &now.value->emplace_back(std::move(value));
        *now.member = std::move(value);
        return now.member;
    }

    bool start(Json::value_t kind) {
        if (open_.size() >= static_cast<std::size_t>(limits_.depth))
            return refuse("json.depth", shortened(next_place(), 200), "nested too deeply",
                          "at most " + digits(limits_.depth) + " levels");
        open_.push_back({put(Json(kind)), nullptr, nullptr});
        return true;
    }

    bool end() {
        open_.pop_back();
        return true;
    }

    // The pointer of the value that is read next.
    std::string next_place() const {
        std::string place;
        for (const Open& level : open_) {
            if (level.value->is_array()) {
                const bool last = &level == &open_.back();
                append_index(place, level.value->size() - (last ? 0 : 1));
            } else {
                append_key(place, *level.name);
            }
        }
        return place;
    }

    bool refuse(const char* code, std::string where, std::string wrong, std::string right) {
        problem = Problem{code, std::move(where), std::move(wrong), std::move(right)};
        return false;
    }

    std::string_view text_;
    const Limits& limits_;
    std::vector<Open> open_;
    std::size_t rows_ = 0;
};

} // namespace

Document::Document(std::unique_ptr<nlohmann::json> root)
    : root_(std::move(root)) {}
Document::Document(Document&&) noexcept = default;
Document& Document::operator=(Document&&) noexcept = default;
Document::~Document() = default;

Result<Document> Document::parse(std::string_view text, const Limits& limits) {
    if (text.size() > limits.bytes)
        return fail("json.size", "", "larger than is read",
                    "at most " + digits(static_cast<std::int64_t>(limits.bytes)) + " bytes");
    if (const std::size_t bad = bad_utf8(text); bad != text.npos)
        return fail("json.utf8", line_and_column(text, bad), "a byte that is not UTF-8",
                    "text saved as UTF-8");
    Builder builder(text, limits);
    if (Json::sax_parse(text.begin(), text.end(), &builder)) return Document(std::move(builder.root));
    return tl::unexpected<Problem>(std::move(*builder.problem));
}

} // namespace fl::json
