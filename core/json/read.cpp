#include "core/json/read.h"

#include "core/json/number.h"
#include "core/json/pointer.h"
#include "core/json/value.h"

#include <nlohmann/json.hpp>

#include <utility>

namespace fl::json {

using Json = nlohmann::json;

Reader::Reader(const Json* at, std::string where, Problems& problems, Seen* seen)
    : at_(at)
    , where_(std::move(where))
    , problems_(&problems)
    , seen_(seen) {
    if (!seen_) {
        own_ = std::make_unique<Seen>();
        seen_ = own_.get();
    }
}

Reader::Reader(const Document& document, Problems& problems)
    : Reader(&document.root(), "", problems, nullptr) {
    if (at_->is_object()) return;
    report("json.kind", stands(*at_), "an object");
    at_ = nullptr;
}

Reader::Reader(Reader&&) noexcept = default;
Reader& Reader::operator=(Reader&&) noexcept = default;
Reader::~Reader() = default;

bool Reader::is_object() const {
    return at_ && at_->is_object();
}

bool Reader::has(std::string_view key) const {
    return is_object() && at_->contains(key);
}

bool Reader::has_value(std::string_view key) const {
    return has(key) && !at_->find(key)->is_null();
}

bool Reader::has_object(std::string_view key) const {
    return has(key) && at_->find(key)->is_object();
}

std::vector<std::string_view> Reader::keys() const {
    std::vector<std::string_view> all;
    if (is_object())
        for (auto member = at_->begin(); member != at_->end(); ++member) all.push_back(member.key());
    return all;
}

std::string Reader::with_unit(std::string_view key, const Unit& unit) {
    std::string name;
    name.reserve(key.size() + 1 + unit.file.size());
    name += key;
    name += '_';
    name += unit.file;
    return name;
}

std::string Reader::below(std::string_view key) const {
    std::string place = where_;
    append_key(place, key);
    return place;
}

void Reader::report(std::string code, std::string wrong, std::string right) {
    add(*problems_, {std::move(code), where_, std::move(wrong), std::move(right)});
}

void Reader::report(std::string_view key, std::string code, std::string wrong, std::string right) {
    add(*problems_, {std::move(code), below(key), std::move(wrong), std::move(right)});
}

// The value of a key, marked as read; null, and a problem if it is required, when there is none. A reader of
// nothing has had its problem already.
const Json* Reader::find(std::string_view key, bool required) {
    if (!at_) return nullptr;
    const auto member = at_->find(key);
    if (member == at_->end()) {
        if (required) report(key, "json.missing", "is missing", "to be given");
        return nullptr;
    }
    seen_->whole.push_back(&*member);
    return &*member;
}

// Each kind of value three times: required, this value itself, optional.
double Reader::number(std::string_view key, double least, double greatest) {
    const Json* v = find(key, true);
    const double stand_in = least == -any ? 0 : least;
    return v ? read_number(*v, least, greatest, {*problems_, where_, key}).value_or(stand_in) : stand_in;
}
double Reader::number(double least, double greatest) {
    const double stand_in = least == -any ? 0 : least;
    return at_ ? read_number(*at_, least, greatest, {*problems_, where_}).value_or(stand_in) : stand_in;
}
std::optional<double> Reader::maybe_number(std::string_view key, double least, double greatest) {
    const Json* v = find(key, false);
    return v ? read_number(*v, least, greatest, {*problems_, where_, key}) : std::nullopt;
}

std::int64_t Reader::integer(std::string_view key, std::int64_t least, std::int64_t greatest) {
    const Json* v = find(key, true);
    return v ? read_integer(*v, least, greatest, {*problems_, where_, key}).value_or(least) : least;
}
std::int64_t Reader::integer(std::int64_t least, std::int64_t greatest) {
    return maybe_integer(least, greatest).value_or(least);
}
std::optional<std::int64_t> Reader::maybe_integer(std::string_view key, std::int64_t least,
                                                  std::int64_t greatest) {
    const Json* v = find(key, false);
    return v ? read_integer(*v, least, greatest, {*problems_, where_, key}) : std::nullopt;
}

std::optional<std::int64_t> Reader::maybe_integer(std::int64_t least, std::int64_t greatest) {
    return at_ ? read_integer(*at_, least, greatest, {*problems_, where_}) : std::nullopt;
}

std::string Reader::text(std::string_view key) {
    const Json* v = find(key, true);
    return v ? read_text(*v, {*problems_, where_, key}).value_or("") : "";
}
std::string Reader::text() {
    return at_ ? read_text(*at_, {*problems_, where_}).value_or("") : "";
}
std::optional<std::string> Reader::maybe_text(std::string_view key) {
    const Json* v = find(key, false);
    return v ? read_text(*v, {*problems_, where_, key}) : std::nullopt;
}

bool Reader::boolean(std::string_view key) {
    const Json* v = find(key, true);
    return v && read_boolean(*v, {*problems_, where_, key}).value_or(false);
}
bool Reader::boolean() {
    return at_ && read_boolean(*at_, {*problems_, where_}).value_or(false);
}
std::optional<bool> Reader::maybe_boolean(std::string_view key) {
    const Json* v = find(key, false);
    return v ? read_boolean(*v, {*problems_, where_, key}) : std::nullopt;
}

std::size_t Reader::one_of(std::string_view key, std::span<const std::string_view> names) {
    const Json* v = find(key, true);
    return v ? read_choice(*v, names, {*problems_, where_, key}).value_or(0) : 0;
}
std::size_t Reader::one_of(std::span<const std::string_view> names) {
    return at_ ? read_choice(*at_, names, {*problems_, where_}).value_or(0) : 0;
}
std::optional<std::size_t> Reader::maybe_one_of(std::string_view key,
                                                std::span<const std::string_view> names) {
    const Json* v = find(key, false);
    return v ? read_choice(*v, names, {*problems_, where_, key}) : std::nullopt;
}

} // namespace fl::json
