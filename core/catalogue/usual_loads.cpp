#include "core/catalogue/usual_loads.h"

#include "core/catalogue/load.h"
#include "core/plan/names.h"

#include <algorithm>
#include <cmath>

namespace fl::catalogue {
namespace {

UsualLoad read(json::Reader& row, const Citations& citations) {
    UsualLoad load;
    load.id = row.text("id");
    load.name = row.text("name");
    for (json::Reader& word : row.items("words", 1)) load.words.push_back(word.text());
    load.purpose = static_cast<plan::Purpose>(row.one_of("purpose", plan::names<plan::Purpose>()));
    load.law = static_cast<plan::LoadLaw>(row.one_of("law", plan::names<plan::LoadLaw>()));
    load.duty = static_cast<plan::Duty>(row.one_of("duty", plan::names<plan::Duty>()));
    const auto maybe = [&]<class Q>(std::optional<Q>& into, const char* key, double greatest) {
        if (row.has_value(json::Reader::with_unit(key, field_unit<Q>())))
            into = row.quantity<Q>(key, 0, greatest);
    };
    maybe(load.current, "current", 1000);
    maybe(load.power, "power", 20000);
    maybe(load.start, "start", 5000);
    maybe(load.lowest, "lowest", 60);
    maybe(load.highest, "highest", 60);
    maybe(load.fuse, "fuse", 500);
    if (row.has_value("start_s")) load.start_time = Time::si(row.number("start_s", 0, 3600));
    if (row.has_value("on_time_s")) load.on_time = Time::si(row.number("on_time_s", 0, 86400));
    const double hours_h = row.number("hours_h", 0, 24), share = row.number("share_on", 0, 1);
    load.hours = Time::si(std::round(hours_h * share * 3600)); // no second is told from its shadow
    load.source = source_of(row, citations);
    return load;
}

// Lower case, parted at everything that is neither letter nor digit, without the s of a plural.
std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> all;
    std::string word;
    const auto flush = [&] {
        if (word.size() > 3 && word.ends_with('s') && !word.ends_with("ss")) word.pop_back();
        if (!word.empty()) all.push_back(std::move(word));
        word.clear();
    };
    for (char c : text) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
        const auto byte = static_cast<unsigned char>(c);
        if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || byte >= 0x80)
            word += c;
        else
            flush();
    }
    flush();
    return all;
}

} // namespace

const std::vector<UsualLoad>& usual_loads() {
    static const std::vector<UsualLoad> loaded = [] {
        std::vector<UsualLoad> all;
        load("catalogue/defaults.json", [&](json::Reader& root, const Citations& citations) {
            for (json::Reader& row : root.rows("loads")) all.push_back(read(row, citations));
        });
        return all;
    }();
    return loaded;
}

const UsualLoad* usual_load(std::string_view name) {
    const std::vector<std::string> spoken = words_of(name);
    const UsualLoad* best = nullptr;
    std::pair<std::size_t, std::size_t> longest{0, 0}; // words, then letters
    for (const UsualLoad& load : usual_loads())
        for (const std::string& called : load.words) {
            const std::vector<std::string> phrase = words_of(called);
            const bool fits = std::all_of(phrase.begin(), phrase.end(), [&](const std::string& word) {
                return std::find(spoken.begin(), spoken.end(), word) != spoken.end();
            });
            const std::pair length{phrase.size(), called.size()};
            if (fits && length > longest) longest = length, best = &load;
        }
    return best;
}

} // namespace fl::catalogue
