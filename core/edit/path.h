#pragma once

#include <string_view>
#include <utility>

/// Names of fields within fields. Private to this room.
namespace fl::edit {

/// "ways.2.rating" -> "ways" and "2.rating"; the second is empty where there is no point.
inline std::pair<std::string_view, std::string_view> head_of(std::string_view path) {
    const auto dot = path.find('.');
    return {path.substr(0, dot), dot == path.npos ? std::string_view{} : path.substr(dot + 1)};
}

} // namespace fl::edit
