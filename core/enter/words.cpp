#include "core/catalogue/usual_loads.h"
#include "core/enter/said.h"

#include <algorithm>
#include <array>

namespace fl::enter {
namespace {

bool digit(char c) {
    return c >= '0' && c <= '9';
}
constexpr std::array units{"a",   "amp", "amps", "ma", "w",   "kw", "ohm", "ohms", "m", "cm", "ft", "mm2",
                           "mm²", "mm",  "awg",  "ah", "mah", "v",  "h",   "min",  "s", "x",  "×"};

} // namespace

std::string lower(std::string_view text) {
    std::string out(text);
    for (char& c : out)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return out;
}

bool begins_number(std::string_view word) {
    if (!word.empty() && (word[0] == '-' || word[0] == '+')) word.remove_prefix(1);
    if (!word.empty() && (word[0] == '.' || word[0] == ',')) word.remove_prefix(1);
    return !word.empty() && digit(word[0]);
}
bool is_number(std::string_view word) {
    return begins_number(word) && word.find_first_not_of("0123456789.,+-") == word.npos;
}

std::vector<std::string> joined(std::vector<std::string> words) {
    std::vector<std::string> out;
    for (std::string& word : words) {
        const std::string small = lower(word);
        const bool unit = std::find(units.begin(), units.end(), small) != units.end();
        const bool after_way = out.size() > 1 && lower(out[out.size() - 2]) == "way";
        if (!out.empty() && unit && is_number(out.back()) && !after_way)
            out.back() += word;
        else if (!out.empty() && lower(out.back()) == "awg" && begins_number(word))
            out.back() = word + out.back();
        else
            out.push_back(std::move(word));
    }
    return out;
}

std::vector<std::string> split(std::string_view text) {
    std::vector<std::string> out;
    std::string word;
    const auto flush = [&] {
        while (!word.empty() && (word.back() == ',' || word.back() == ';')) word.pop_back();
        if (!word.empty()) out.push_back(std::move(word));
        word.clear();
    };
    for (const char c : text)
        if (c == ' ' || c == '\t' || c == '\r' || c == '\n')
            flush();
        else
            word += c;
    flush();
    return out;
}

std::string plain_name(std::string_view name) {
    static constexpr std::array capitals{"led", "usb", "tv", "vhf", "gps", "dc", "ac"};
    // A usual load typed with the shift locked is no abbreviation; "ECU" may be one and stays.
    const bool small = std::any_of(name.begin(), name.end(), [](char c) { return c >= 'a' && c <= 'z'; });
    const std::string typed =
        !small && catalogue::usual_load(name) ? lower(std::string(name)) : std::string(name);
    std::string out;
    for (const std::string& word : split(typed)) {
        const bool known = std::find(capitals.begin(), capitals.end(), lower(word)) != capitals.end();
        std::string shown = word;
        if (known || out.empty())
            for (char& c : shown) {
                if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
                if (!known) break;
            }
        out += (out.empty() ? "" : " ") + shown;
    }
    return out;
}

} // namespace fl::enter
