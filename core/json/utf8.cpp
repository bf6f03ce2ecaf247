#include "core/json/utf8.h"

#include "core/json/number.h"

#include <algorithm>
#include <cstdint>
#include <cstring>

namespace fl::json {
namespace {

std::uint8_t byte(std::string_view text, std::size_t at) {
    return at < text.size() ? static_cast<std::uint8_t>(text[at]) : std::uint8_t{0};
}

bool continues(std::uint8_t b) {
    return (b & 0xC0) == 0x80;
}

// Length of the well-formed character of two to four bytes at `at`; 0 = none (table 3-7 of the Unicode
// Standard).
std::size_t long_character(std::string_view text, std::size_t at) {
    const std::uint8_t a = byte(text, at), b = byte(text, at + 1);
    if (a >= 0xC2 && a <= 0xDF) return continues(b) ? 2 : 0;
    const bool third = continues(byte(text, at + 2));
    if (a >= 0xE0 && a <= 0xEF) {
        const std::uint8_t least = a == 0xE0 ? 0xA0 : 0x80, greatest = a == 0xED ? 0x9F : 0xBF;
        return b >= least && b <= greatest && third ? 3 : 0;
    }
    if (a >= 0xF0 && a <= 0xF4) {
        const std::uint8_t least = a == 0xF0 ? 0x90 : 0x80, greatest = a == 0xF4 ? 0x8F : 0xBF;
        return b >= least && b <= greatest && third && continues(byte(text, at + 3)) ? 4 : 0;
    }
    return 0;
}

bool plain(char c) {
    return static_cast<unsigned char>(c) >= 0x20 && c != '"' && c != '\\';
}

void append_escaped(std::string& out, char c) {
    constexpr std::string_view from = "\"\\\b\f\n\r\t", to = "\"\\bfnrt", hex = "0123456789abcdef";
    out += '\\';
    if (const auto at = from.find(c); at != from.npos) {
        out += to[at];
    } else {
        out += "u00";
        out += hex[static_cast<std::size_t>(c) >> 4];
        out += hex[static_cast<std::size_t>(c) & 15];
    }
}

} // namespace

std::size_t bad_utf8(std::string_view text) {
    std::size_t at = 0;
    while (at < text.size()) {
        std::uint64_t eight = 0; // most text is ASCII: eight bytes at a time
        if (at + sizeof eight <= text.size()) {
            std::memcpy(&eight, text.data() + at, sizeof eight);
            if ((eight & 0x8080808080808080U) == 0) {
                at += sizeof eight;
                continue;
            }
        }
        const std::size_t length = byte(text, at) < 0x80 ? 1 : long_character(text, at);
        if (length == 0) return at;
        at += length;
    }
    return text.npos;
}

std::string line_and_column(std::string_view text, std::size_t offset) {
    const std::string_view before = text.substr(0, std::min(offset, text.size()));
    const auto line = std::count(before.begin(), before.end(), '\n') + 1;
    const std::string_view in_line = before.substr(before.rfind('\n') + 1); // npos + 1 = 0
    const auto column = std::count_if(in_line.begin(), in_line.end(),
                                      [](char c) { return !continues(static_cast<std::uint8_t>(c)); }) +
                        1;
    return "line " + digits(line) + ", column " + digits(column);
}

std::string shortened(std::string_view text, std::size_t bytes) {
    if (text.size() <= bytes) return std::string(text);
    while (bytes > 0 && continues(byte(text, bytes))) --bytes;
    return std::string(text.substr(0, bytes)) + "...";
}

void append_quoted(std::string& out, std::string_view text) {
    out += '"';
    while (!text.empty()) {
        const auto stop = std::find_if_not(text.begin(), text.end(), plain);
        const auto length = static_cast<std::size_t>(stop - text.begin());
        out += text.substr(0, length);
        text.remove_prefix(length);
        if (text.empty()) break;
        append_escaped(out, text.front());
        text.remove_prefix(1);
    }
    out += '"';
}

} // namespace fl::json
