#include "core/wording/pattern.h"

namespace fl::wording {
namespace {

std::string decimal(long long n) {
    const bool negative = n < 0;
    std::string digits;
    do {
        const auto digit = n % 10;
        digits.insert(digits.begin(), static_cast<char>('0' + (negative ? -digit : digit)));
        n /= 10;
    } while (n != 0);
    return negative ? "-" + digits : digits;
}

} // namespace

std::optional<Pattern> Pattern::parse(std::string_view text, std::string& fault) {
    Pattern out;
    while (!text.empty()) {
        const auto open = text.find_first_of("{}");
        if (open != 0) {
            out.pieces.push_back({std::string(text.substr(0, open)), false, {}});
            if (open == text.npos) break;
            text.remove_prefix(open);
        }
        const auto close = text.find('}');
        if (text.front() == '}' || close == text.npos || text.find('{', 1) < close) {
            fault = "braces do not match";
            return {};
        }
        std::string_view inside = text.substr(1, close - 1);
        Piece piece{std::string(inside.substr(0, inside.find('|'))), true, {}};
        if (piece.text.empty()) {
            fault = "a gap has no name";
            return {};
        }
        for (auto bar = inside.find('|'); bar != inside.npos; bar = inside.find('|')) {
            inside.remove_prefix(bar + 1);
            piece.forms.emplace_back(inside.substr(0, inside.find('|')));
        }
        out.pieces.push_back(std::move(piece));
        text.remove_prefix(close + 1);
    }
    return out;
}

std::set<std::string> Pattern::gaps() const {
    std::set<std::string> all;
    for (const Piece& piece : pieces)
        if (piece.gap) all.insert(piece.text);
    return all;
}

std::optional<std::string> fill(const Pattern& pattern, const Filler& filler) {
    std::string out;
    for (const auto& piece : pattern.pieces) {
        if (!piece.gap) {
            out += piece.text;
        } else if (piece.forms.empty()) {
            const auto text = filler.text(piece.text);
            if (!text) return {};
            out += *text;
        } else {
            const auto count = filler.count(piece.text);
            if (!count) return {};
            const std::size_t form = std::min(filler.plural(*count), piece.forms.size() - 1);
            for (const char c : piece.forms[form]) {
                if (c == '#')
                    out += decimal(*count);
                else
                    out += c;
            }
        }
    }
    return out;
}

std::string fill(const Sentence& sentence, const Filler& filler) {
    std::string out;
    for (const auto& alternatives : sentence)
        for (const Pattern& pattern : alternatives)
            if (const auto text = fill(pattern, filler)) {
                if (!out.empty() && !text->empty()) out += ' ';
                out += *text;
                break;
            }
    return out;
}

} // namespace fl::wording
