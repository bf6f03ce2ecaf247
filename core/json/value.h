#pragma once

#include "core/json/read.h"

#include <vector>

/// Private to core/json: one value read with its checks.
namespace fl::json {

/// Where a problem with a value goes: at a key of the value at `above`, or at that value itself.
struct Place {
    Problems& problems;
    const std::string& above;
    std::optional<std::string_view> key = std::nullopt;

    void report(const char* code, std::string wrong, std::string right) const;
};

/// Adds the problem unless the list is full; the last one it takes is json.more.
void add(Problems& problems, Problem problem);

/// "null stands here", "text stands here" ...
std::string stands(const nlohmann::json& value);

std::optional<double> read_number(const nlohmann::json&, double least, double greatest, const Place&);
std::optional<std::int64_t> read_integer(const nlohmann::json&, std::int64_t least, std::int64_t greatest,
                                         const Place&);
std::optional<std::string> read_text(const nlohmann::json&, const Place&);
std::optional<bool> read_boolean(const nlohmann::json&, const Place&);
std::optional<std::size_t> read_choice(const nlohmann::json&, std::span<const std::string_view> names,
                                       const Place&);

/// What was read: values that are done with, and objects or arrays that were opened.
struct Reader::Seen {
    std::vector<const nlohmann::json*> whole, opened;
};

} // namespace fl::json
