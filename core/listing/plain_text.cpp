#include "core/listing/plain_text.h"

#include "core/json/utf8.h"

#include <algorithm>

namespace fl::listing {
namespace {

constexpr std::size_t gap = 2;

void append_cell(std::string& line, std::string_view text, std::size_t width, Align align, bool first) {
    if (!first) line.append(gap, ' ');
    const std::size_t fill = width - std::min(width, columns_of(text));
    if (align == Align::right) line.append(fill, ' ');
    line += text;
    if (align == Align::left) line.append(fill, ' ');
}

void end_line(std::string& out, std::string line) {
    line.erase(line.find_last_not_of(' ') + 1);
    out += line + '\n';
}

/// End of the word at `begin`. A number and the short word after it, its unit, are one: "16 mm²" is not torn.
std::size_t end_of_word(std::string_view text, std::size_t begin) {
    const std::size_t end = std::min(text.find(' ', begin), text.size());
    const std::string_view number = text.substr(begin, end - begin);
    if (end == text.size() || number.find_first_not_of("0123456789./") != number.npos) return end;
    const std::size_t unit_end = std::min(text.find(' ', end + 1), text.size());
    constexpr std::size_t longest = 4; // "AWG."
    const std::size_t unit = columns_of(text.substr(end + 1, unit_end - end - 1));
    return unit > 0 && unit <= longest ? unit_end : end;
}

} // namespace

std::size_t columns_of(std::string_view text) {
    // Every byte but the continuing ones of UTF-8 begins a character.
    return static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::string printable(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        const std::size_t bad = std::min(json::bad_utf8(text), text.size());
        out += text.substr(0, bad);
        text.remove_prefix(bad);
        if (!text.empty()) {
            out += '?';
            text.remove_prefix(1);
        }
    }
    for (std::size_t i = 0; i < out.size(); ++i) {
        const auto byte = static_cast<unsigned char>(out[i]);
        if (byte < 0x20 || byte == 0x7F) out[i] = ' ';
        // U+0080 to U+009F, the second set of control characters, is C2 80 to C2 9F.
        if (byte == 0xC2 && i + 1 < out.size() && static_cast<unsigned char>(out[i + 1]) < 0xA0)
            out.replace(i, 2, " ");
    }
    return out;
}

std::string wrapped(std::string_view text, std::size_t width, std::size_t indent) {
    std::string out;
    std::size_t used = 0;
    while (true) {
        const std::size_t begin = text.find_first_not_of(' ');
        if (begin == text.npos) return out;
        const std::size_t end = end_of_word(text, begin);
        const std::string_view word = text.substr(begin, end - begin);
        const std::size_t length = columns_of(word);
        if (used > 0 && used + 1 + length > width) {
            (out += '\n').append(indent, ' ');
            used = indent;
        } else if (used > 0) {
            out += ' ';
            ++used;
        }
        out += word;
        used += length;
        text.remove_prefix(end);
    }
}

std::string plain_text(const Listing& listing) {
    std::string out;
    if (!listing.title.empty()) end_line(out, listing.title);
    if (listing.rows.empty()) return out + "none\n";
    const std::size_t count = listing.columns.size();
    std::vector<std::string> titles, units;
    for (const Column& column : listing.columns) {
        titles.push_back(column.title);
        units.push_back(column.unit);
    }
    std::vector<const std::vector<std::string>*> all{&titles};
    if (std::any_of(units.begin(), units.end(), [](const std::string& unit) { return !unit.empty(); }))
        all.push_back(&units);
    for (const auto& row : listing.rows) all.push_back(&row);
    std::vector<std::size_t> widths(count);
    for (const auto* row : all)
        for (std::size_t c = 0; c < count; ++c)
            widths[c] = std::max(widths[c], columns_of(printable((*row)[c])));
    for (const auto* row : all) {
        std::string line;
        for (std::size_t c = 0; c < count; ++c)
            append_cell(line, printable((*row)[c]), widths[c], listing.columns[c].align, c == 0);
        end_line(out, std::move(line));
    }
    return out;
}

} // namespace fl::listing
