#include "core/catalogue/load.h"
#include "core/quantity/parse.h"
#include "core/quantity/print.h"

#include <algorithm>

namespace fl::catalogue {
namespace {

struct Row {
    WireSize size;
    ResistancePerLength resistance;
    Source source;
};
struct Conductors {
    std::vector<Row> metric, gauges; // smallest area first
    std::vector<WireSize> metric_sizes, gauge_sizes;
};

const Conductors& conductors() {
    static const Conductors all = [] {
        Conductors c;
        load("catalogue/conductors.json", [&](json::Reader& root, const Citations& citations) {
            for (json::Reader& row : root.rows("rows")) {
                const auto resistance = row.quantity<ResistancePerLength>("resistance", 1e-3, 1e3);
                Source source = source_of(row, citations);
                if (row.text("system") == "awg") {
                    const auto size = parse_size(row.text("id"));
                    if (size && size->awg)
                        c.gauges.push_back({*size, resistance, std::move(source)});
                    else
                        row.report("id", "catalogue.size", "this is no gauge", "write for example 6 AWG");
                } else {
                    c.metric.push_back(
                        {{row.quantity<Area>("area", 0.1, 1000), {}}, resistance, std::move(source)});
                }
            }
        });
        const auto by_area = [](const Row& a, const Row& b) { return a.size.area < b.size.area; };
        std::sort(c.metric.begin(), c.metric.end(), by_area);
        std::sort(c.gauges.begin(), c.gauges.end(), by_area);
        for (const Row& row : c.metric) c.metric_sizes.push_back(row.size);
        for (const Row& row : c.gauges) c.gauge_sizes.push_back(row.size);
        return c;
    }();
    return all;
}

} // namespace

std::optional<Cited<ResistancePerLength>> resistance_per_length(const WireSize& size) {
    if (size.awg) {
        for (const Row& row : conductors().gauges)
            if (row.size.awg == size.awg) return Cited<ResistancePerLength>{row.resistance, row.source};
        return {};
    }
    const auto& rows = conductors().metric;
    const auto above = std::upper_bound(rows.begin(), rows.end(), size.area * (1 + 1e-9),
                                        [](Area a, const Row& row) { return a < row.size.area; });
    if (above == rows.begin()) return {};
    const Row& row = *(above - 1);
    if (row.size.area == size.area) return Cited<ResistancePerLength>{row.resistance, row.source};
    Source source = row.source;
    source.citation += "; by area from " + text(row.size.area);
    source.basis = "computed";
    return Cited<ResistancePerLength>{row.resistance * (row.size.area / size.area), std::move(source)};
}

const std::vector<WireSize>& metric_sizes() {
    return conductors().metric_sizes;
}
const std::vector<WireSize>& gauge_sizes() {
    return conductors().gauge_sizes;
}

} // namespace fl::catalogue
