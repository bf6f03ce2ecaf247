#include "core/base/check.h"
#include "core/catalogue/load.h"
#include "core/quantity/parse.h"
#include "core/quantity/print.h"

#include <map>

namespace fl::catalogue {
namespace {

struct Row {
    double value;
    std::string unit;
    Source source;
};
using Rows = std::map<std::string, Row, std::less<>>;

const Rows& rows() {
    static const Rows loaded = [] {
        Rows all;
        load("catalogue/defaults.json", [&](json::Reader& root, const Citations& citations) {
            for (json::Reader& row : root.rows("rows")) {
                std::string id = row.text("id");
                if (all.contains(id))
                    row.report("id", "catalogue.twice", "this id stands twice", "name each default once");
                all.emplace(std::move(id),
                            Row{row.number("value"), row.text("unit"), source_of(row, citations)});
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
    const auto parsed = parse<Q>(shortest(row.value) + " " + (row.unit == "ratio" ? "" : row.unit));
    if constexpr (std::is_same_v<Q, Ratio>)
        if (row.unit == "ratio") return {Ratio::si(row.value), row.source};
    FL_CHECK(parsed); // its unit has the dimension asked for
    return {*parsed, row.source};
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

bool has_default(std::string_view id) {
    return rows().contains(id);
}

} // namespace fl::catalogue
