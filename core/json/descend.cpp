#include "core/json/number.h"
#include "core/json/pointer.h"
#include "core/json/read.h"
#include "core/json/utf8.h"
#include "core/json/value.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <utility>

namespace fl::json {
namespace {

using Json = nlohmann::json;
using Pointers = std::vector<const Json*>;

bool among(const Pointers& sorted, const Json& value) {
    return std::binary_search(sorted.begin(), sorted.end(), &value, std::less<>{});
}

// The unread rest of an opened object or array; null when nothing is left.
Json rest(const Json& value, const Pointers& whole, const Pointers& opened) {
    Json left;
    if (value.is_array()) {
        for (std::size_t i = 0; i < value.size(); ++i) {
            Json part = among(opened, value[i]) ? rest(value[i], whole, opened) : Json();
            if (part.is_null()) continue;
            while (left.size() < i) left.push_back(Json::object());
            left.push_back(std::move(part));
        }
        return left;
    }
    for (auto member = value.begin(); member != value.end(); ++member) {
        if (among(opened, *member)) {
            Json part = rest(*member, whole, opened);
            if (!part.is_null()) left[member.key()] = std::move(part);
        } else if (!among(whole, *member)) {
            left[member.key()] = *member;
        }
    }
    return left;
}

// The value on one line, its numbers spelled as Writer spells them: written and read again, it gives the same
// text.
void append(std::string& out, const Json& value) {
    if (value.is_structured()) {
        const bool object = value.is_object();
        out += object ? '{' : '[';
        for (auto part = value.begin(); part != value.end(); ++part) {
            if (part != value.begin()) out += ',';
            if (object) {
                append_quoted(out, part.key());
                out += ':';
            }
            append(out, *part);
        }
        out += object ? '}' : ']';
    } else if (value.is_string()) {
        append_quoted(out, value.get_ref<const std::string&>());
    } else if (value.is_number_float()) {
        out += decimal(value.get<double>());
    } else {
        out += value.dump();
    }
}

void refuse(const Json& value, const std::string& where, const Pointers& whole, const Pointers& opened,
            Problems& problems) {
    std::size_t index = 0;
    for (auto part = value.begin(); part != value.end(); ++part) {
        std::string place = where;
        if (value.is_array())
            append_index(place, index++);
        else
            append_key(place, part.key());
        if (among(opened, *part))
            refuse(*part, place, whole, opened, problems);
        else if (value.is_object() && !among(whole, *part))
            add(problems, {"json.unknown", place, "this field is not known here", "to be left out"});
    }
}

} // namespace

Reader Reader::opened(std::string_view key, bool own) {
    const Json* found = find(key, true);
    if (found && !found->is_object()) {
        report(key, "json.kind", stands(*found), "an object");
        found = nullptr;
    }
    if (found && !own) seen_->opened.push_back(found);
    return Reader(found, below(key), *problems_, own ? nullptr : seen_);
}

Reader Reader::object(std::string_view key) {
    return opened(key, false);
}

Reader Reader::row(std::string_view key) {
    return opened(key, true);
}

std::vector<Reader> Reader::elements(const Json& array, const std::string& where, std::size_t least,
                                     std::size_t greatest) {
    std::vector<Reader> all;
    if (!array.is_array()) {
        add(*problems_, {"json.kind", where, stands(array), "an array"});
        return all;
    }
    if (array.size() < least || array.size() > greatest) {
        const auto number = [](std::size_t n) { return digits(static_cast<std::int64_t>(n)); };
        std::string right = least == greatest      ? number(least)
                            : greatest == SIZE_MAX ? "at least " + number(least)
                                                   : number(least) + " to " + number(greatest);
        add(*problems_,
            {"json.length", where, number(array.size()) + " elements stand here", std::move(right)});
        return all;
    }
    seen_->opened.push_back(&array);
    all.reserve(array.size());
    for (const Json& element : array) {
        std::string place = where;
        append_index(place, all.size());
        if (element.is_object()) seen_->opened.push_back(&element);
        all.push_back(Reader(&element, std::move(place), *problems_, seen_));
    }
    return all;
}

std::vector<Reader> Reader::items(std::string_view key, std::size_t least, std::size_t greatest) {
    const Json* found = find(key, least > 0);
    if (!found) return {};
    return elements(*found, below(key), least, greatest);
}

std::vector<Reader> Reader::items(std::size_t least, std::size_t greatest) {
    if (!at_) return {};
    return elements(*at_, where_, least, greatest);
}

std::vector<Reader> Reader::rows(std::string_view key) {
    std::vector<Reader> all;
    const Json* found = find(key, false);
    if (!found) return all;
    const std::string place = below(key);
    if (!found->is_array()) {
        report(key, "json.kind", stands(*found), "an array of objects");
        return all;
    }
    all.reserve(found->size());
    std::size_t index = 0;
    for (const Json& element : *found) {
        std::string where = place;
        append_index(where, index++);
        if (element.is_object())
            all.push_back(Reader(&element, std::move(where), *problems_, nullptr));
        else
            add(*problems_, {"json.kind", std::move(where), stands(element), "an object"});
    }
    return all;
}

void Reader::sort_seen() const {
    for (Pointers* list : {&seen_->whole, &seen_->opened})
        std::sort(list->begin(), list->end(), std::less<>{});
}

std::string Reader::unknown() const {
    if (!at_ || !at_->is_object()) return {};
    sort_seen();
    const Json left = rest(*at_, seen_->whole, seen_->opened);
    std::string text;
    if (!left.is_null()) append(text, left);
    return text;
}

void Reader::refuse_unknown() {
    if (!at_ || !at_->is_object()) return;
    sort_seen();
    refuse(*at_, where_, seen_->whole, seen_->opened, *problems_);
}

} // namespace fl::json
