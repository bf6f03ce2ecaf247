#include "tests/support/svg.h"

#include <cctype>
#include <charconv>
#include <limits>

namespace fl::test {
namespace {

constexpr std::string_view space = " \t\r\n";

/// Reads one tag after another; what is not a tag must be white space.
class Scanner {
public:
    explicit Scanner(std::string_view text)
        : left_(text) {}

    Svg read() {
        Svg svg;
        std::vector<std::string> open;
        while (true) {
            skip();
            if (left_.empty()) break;
            if (!take("<")) return {{}, "text between elements: " + std::string(left_.substr(0, 20))};
            if (take("/")) {
                const std::string name = word();
                skip();
                if (open.empty() || open.back() != name || !take(">"))
                    return {{}, "</" + name + "> ends nothing"};
                open.pop_back();
                continue;
            }
            SvgElement e;
            e.name = word();
            e.depth = static_cast<int>(open.size());
            if (e.name.empty()) return {{}, "no name after <"};
            while (true) {
                skip();
                if (take("/>")) break;
                if (take(">")) {
                    open.push_back(e.name);
                    break;
                }
                const std::string key = word();
                if (key.empty() || !take("=\"") || e.has(key))
                    return {{}, e.name + ": not an attribute: " + key};
                const auto end = left_.find('"');
                if (end == std::string_view::npos) return {{}, e.name + ": no end of " + key};
                e.with[key] = left_.substr(0, end);
                left_.remove_prefix(end + 1);
            }
            svg.elements.push_back(std::move(e));
        }
        if (!open.empty()) svg.problem = "<" + open.back() + "> is not ended";
        return svg;
    }

private:
    void skip() {
        const auto at = left_.find_first_not_of(space);
        left_.remove_prefix(at == std::string_view::npos ? left_.size() : at);
    }
    bool take(std::string_view wanted) {
        if (!left_.starts_with(wanted)) return false;
        left_.remove_prefix(wanted.size());
        return true;
    }
    std::string word() {
        std::size_t n = 0;
        while (n < left_.size() && (std::isalnum(static_cast<unsigned char>(left_[n])) || left_[n] == '-'))
            ++n;
        const std::string out(left_.substr(0, n));
        left_.remove_prefix(n);
        return out;
    }

    std::string_view left_;
};

} // namespace

double SvgElement::number(const std::string& key) const {
    const auto found = with.find(key);
    const auto all = found == with.end() ? std::vector<double>{} : numbers_of(found->second);
    return all.size() == 1 ? all.front() : std::numeric_limits<double>::quiet_NaN();
}

Svg read_svg(std::string_view text) {
    return Scanner(text).read();
}

std::vector<double> numbers_of(std::string_view list) {
    std::vector<double> all;
    while (true) {
        const auto from = list.find_first_not_of(" ,\n");
        if (from == std::string_view::npos) return all;
        list.remove_prefix(from);
        const auto to = std::min(list.find_first_of(" ,\n"), list.size());
        double value = 0;
        const std::string_view word = list.substr(0, to);
        const auto done = std::from_chars(word.begin(), word.end(), value);
        const bool whole = done.ec == std::errc() && done.ptr == word.end();
        all.push_back(whole ? value : std::numeric_limits<double>::quiet_NaN());
        list.remove_prefix(to);
    }
}

} // namespace fl::test
