#include "core/json/value.h"

#include "core/json/number.h"
#include "core/json/pointer.h"
#include "core/json/utf8.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace fl::json {
namespace {

using Json = nlohmann::json;

template <class T>
std::nullopt_t wrong_kind(const Json& value, const T& right, const Place& place) {
    place.report("json.kind", stands(value), right);
    return std::nullopt;
}

std::string between(const std::string& least, const std::string& greatest) {
    return least + " to " + greatest;
}

std::string allowed(double least, double greatest) {
    const bool below = least != -Reader::any, above = greatest != Reader::any;
    if (below && above) return between(decimal(least), decimal(greatest));
    if (below) return "at least " + decimal(least);
    return above ? "at most " + decimal(greatest) : "a finite number";
}

} // namespace

void Place::report(const char* code, std::string wrong, std::string right) const {
    std::string where = above;
    if (key) append_key(where, *key);
    add(problems, {code, std::move(where), std::move(wrong), std::move(right)});
}

void add(Problems& problems, Problem problem) {
    if (problems.size() < Reader::most_problems)
        problems.push_back(std::move(problem));
    else if (problems.size() == Reader::most_problems)
        problems.push_back(
            {"json.more", problem.where, "there are more problems than are listed", "these mended first"});
}

std::string stands(const Json& value) {
    switch (value.type()) {
    case Json::value_t::object:
        return "an object stands here";
    case Json::value_t::array:
        return "an array stands here";
    case Json::value_t::string:
        return "text stands here";
    case Json::value_t::boolean:
        return "true or false stands here";
    case Json::value_t::number_integer:
    case Json::value_t::number_unsigned:
        return "a whole number stands here";
    case Json::value_t::number_float:
        return "a number that is not whole stands here";
    default:
        return "null stands here";
    }
}

std::optional<double> read_number(const Json& value, double least, double greatest, const Place& place) {
    if (!value.is_number()) return wrong_kind(value, "a number", place);
    const double number = value.get<double>();
    if (std::isfinite(number) && number >= least && number <= greatest) return number;
    place.report("json.range", (std::isfinite(number) ? decimal(number) : "this number") + " is out of range",
                 allowed(least, greatest));
    return {};
}

std::optional<std::int64_t> read_integer(const Json& value, std::int64_t least, std::int64_t greatest,
                                         const Place& place) {
    if (!value.is_number_integer()) return wrong_kind(value, "a whole number", place);
    const bool beyond =
        value.is_number_unsigned() && value.get<std::uint64_t>() > std::uint64_t{INT64_MAX}; // would wrap
    const std::int64_t number = beyond ? 0 : value.get<std::int64_t>();
    if (!beyond && number >= least && number <= greatest) return number;
    place.report("json.range", (beyond ? "this number" : digits(number)) + " is out of range",
                 between(digits(least), digits(greatest)));
    return {};
}

std::optional<std::string> read_text(const Json& value, const Place& place) {
    if (!value.is_string()) return wrong_kind(value, "text", place);
    return value.get_ref<const std::string&>();
}

std::optional<bool> read_boolean(const Json& value, const Place& place) {
    if (!value.is_boolean()) return wrong_kind(value, "true or false", place);
    return value.get<bool>();
}

std::optional<std::size_t> read_choice(const Json& value, std::span<const std::string_view> names,
                                       const Place& place) {
    std::string choices;
    const auto list = [&] {
        for (const std::string_view name : names) (choices += choices.empty() ? "" : ", ") += name;
        return "one of: " + choices;
    };
    if (!value.is_string()) return wrong_kind(value, list(), place);
    const std::string& text = value.get_ref<const std::string&>();
    const auto at = std::find(names.begin(), names.end(), text);
    if (at != names.end()) return static_cast<std::size_t>(at - names.begin());
    place.report("json.choice", "\"" + shortened(text, 60) + "\" is not among the choices", list());
    return {};
}

} // namespace fl::json
