#include "ui/print/choose.h"

#include <algorithm>
#include <charconv>
#include <numeric>
#include <set>

namespace fl::ui::print {
namespace {

// A whole number from 1 to `most`; 0 = the text is none.
std::size_t number(std::string_view text, std::size_t most) {
    std::size_t n = 0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), n);
    if (fault != std::errc() || end != text.data() + text.size() || n > most) return 0;
    return n;
}

std::string parts_of(const std::vector<Page>& pages) {
    std::string all;
    for (const Page& page : pages)
        if (!page.part.empty() && (", " + all + ",").find(", " + page.part + ",") == std::string::npos)
            all += (all.empty() ? "" : ", ") + page.part;
    return all;
}

std::string_view trimmed(std::string_view text) {
    while (text.starts_with(' ')) text.remove_prefix(1);
    while (text.ends_with(' ')) text.remove_suffix(1);
    return text;
}

bool add(const std::vector<Page>& pages, std::string_view item, std::set<std::size_t>& to) {
    const std::size_t before = to.size();
    bool named = false;
    for (std::size_t i = 0; i < pages.size(); ++i)
        if (!item.empty() && pages[i].part == item) to.insert(i), named = true;
    if (named || to.size() > before) return true;
    const std::size_t dash = item.find('-');
    const std::size_t first = number(item.substr(0, dash), pages.size());
    const std::size_t last = dash == item.npos ? first : number(item.substr(dash + 1), pages.size());
    if (first == 0 || last < first) return false;
    for (std::size_t n = first; n <= last; ++n) to.insert(n - 1);
    return true;
}

} // namespace

Result<std::vector<std::size_t>> chosen(const std::vector<Page>& pages, std::string_view list) {
    std::set<std::size_t> some;
    if (list.empty())
        for (std::size_t i = 0; i < pages.size(); ++i) some.insert(i);
    for (std::size_t from = 0; !list.empty() && from <= list.size();) {
        const std::size_t to = std::min(list.find(',', from), list.size());
        const std::string_view item = trimmed(list.substr(from, to - from));
        if (!add(pages, item, some))
            return fail("export.pages", "--pages", "no page is called \"" + std::string(item) + "\"",
                        "numbers from 1 to " + std::to_string(pages.size()) + " such as 1,3-5, or " +
                            parts_of(pages));
        from = to + 1;
    }
    return std::vector<std::size_t>(some.begin(), some.end());
}

} // namespace fl::ui::print
