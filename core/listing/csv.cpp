#include "core/listing/csv.h"

namespace fl::listing {
namespace {

void append_field(std::string& out, std::string_view text, bool first) {
    if (!first) out += ',';
    if (text.find_first_of(",\"\r\n") == text.npos) {
        out += text;
        return;
    }
    out += '"';
    for (const char c : text) {
        if (c == '"') out += '"';
        out += c;
    }
    out += '"';
}

// What other programs read as a number has no typographic minus sign.
std::string with_hyphen(std::string_view number) {
    constexpr std::string_view minus = "−";
    std::string out(number);
    if (out.starts_with(minus)) out.replace(0, minus.size(), "-");
    return out;
}

} // namespace

std::string csv(const Listing& listing) {
    std::string out;
    for (std::size_t c = 0; c < listing.columns.size(); ++c) {
        const Column& column = listing.columns[c];
        append_field(out, column.unit.empty() ? column.title : column.title + " (" + column.unit + ")",
                     c == 0);
    }
    out += "\r\n";
    for (const auto& row : listing.rows) {
        for (std::size_t c = 0; c < row.size(); ++c) {
            const std::string_view text = row[c] == not_known ? std::string_view() : row[c];
            append_field(out,
                         listing.columns[c].align == Align::right ? with_hyphen(text) : std::string(text),
                         c == 0);
        }
        out += "\r\n";
    }
    return out;
}

} // namespace fl::listing
