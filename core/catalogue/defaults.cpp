#include "core/base/check.h"
#include "core/catalogue/load.h"
#include "core/quantity/parse.h"
#include "core/quantity/print.h"

#include <map>
#include <optional>
#include <tuple>

namespace fl::catalogue {
namespace {

// Read once as every quantity its unit can be: asking for a default is done thousands of times an assessment.
using Readings =
    std::tuple<std::optional<Voltage>, std::optional<Current>, std::optional<Resistance>,
               std::optional<Length>, std::optional<Area>, std::optional<Charge>, std::optional<Power>,
               std::optional<Time>, std::optional<Temperature>, std::optional<Ratio>>;

struct Row {
    double value;
    Source source;
    Readings as;
};

template <class Q>
void read(std::optional<Q>& into, double value, const std::string& unit) {
    if constexpr (std::is_same_v<Q, Ratio>)
        if (unit == "ratio") into = Ratio::si(value);
    if (into || unit == "ratio") return;
    if (const auto parsed = parse<Q>(shortest(value) + " " + unit)) into = *parsed;
}

Readings readings(double value, const std::string& unit) {
    Readings all;
    std::apply([&](auto&... each) { (read(each, value, unit), ...); }, all);
    return all;
}

using Rows = std::map<std::string, Row, std::less<>>;

const Rows& rows() {
    static const Rows loaded = [] {
        Rows all;
        load("catalogue/defaults.json", [&](json::Reader& root, const Citations& citations) {
            for (json::Reader& row : root.rows("rows")) {
                std::string id = row.text("id");
                if (all.contains(id))
                    row.report("id", "catalogue.twice", "this id stands twice", "name each default once");
                const double value = row.number("value");
                all.emplace(std::move(id),
                            Row{value, source_of(row, citations), readings(value, row.text("unit"))});
            }
        });
        return all;
    }();
    return loaded;
}

const Row& row_of(std::string_view id) {
    const auto found = rows().find(id);
    FL_CHECK(found != rows().end()); // asked for by name in our own code: a test asks for all of them
    return found->second;
}

} // namespace

template <class Q>
Cited<Q> default_of(std::string_view id) {
    const Row& row = row_of(id);
    const auto& value = std::get<std::optional<Q>>(row.as);
    FL_CHECK(value); // its unit has the dimension asked for
    return {*value, row.source};
}

template Cited<Voltage> default_of(std::string_view);
template Cited<Current> default_of(std::string_view);
template Cited<Resistance> default_of(std::string_view);
template Cited<Length> default_of(std::string_view);
template Cited<Area> default_of(std::string_view);
template Cited<Charge> default_of(std::string_view);
template Cited<Power> default_of(std::string_view);
template Cited<Time> default_of(std::string_view);
template Cited<Temperature> default_of(std::string_view);
template Cited<Ratio> default_of(std::string_view);

Cited<double> default_number(std::string_view id) {
    const Row& row = row_of(id);
    return {row.value, row.source};
}

std::string_view default_choice(std::string_view id) {
    static const auto choices = [] {
        std::map<std::string, std::string, std::less<>> all;
        load("catalogue/defaults.json", [&](json::Reader& root, const Citations& citations) {
            for (json::Reader& row : root.rows("choices")) {
                source_of(row, citations);
                all.emplace(row.text("id"), row.text("choice"));
            }
        });
        return all;
    }();
    const auto found = choices.find(id);
    FL_CHECK(found != choices.end());
    return found->second;
}

bool has_default(std::string_view id) {
    return rows().contains(id);
}

std::vector<std::string_view> default_ids(std::string_view prefix) {
    std::vector<std::string_view> ids;
    for (const auto& [id, row] : rows())
        if (id.starts_with(prefix)) ids.push_back(std::string_view(id).substr(prefix.size()));
    return ids;
}

} // namespace fl::catalogue
