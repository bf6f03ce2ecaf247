#include "core/json/pointer.h"

#include "core/json/number.h"

#include <cstdint>

namespace fl::json {

void append_key(std::string& pointer, std::string_view key) {
    pointer += '/';
    for (const char c : key) {
        if (c == '~')
            pointer += "~0";
        else if (c == '/')
            pointer += "~1";
        else
            pointer += c;
    }
}

void append_index(std::string& pointer, std::size_t index) {
    pointer += '/';
    pointer += digits(static_cast<std::int64_t>(index));
}

} // namespace fl::json
