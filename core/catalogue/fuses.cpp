#include "core/catalogue/load.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace fl::catalogue {
namespace {

struct Cold {
    std::string type;
    double rating_A, ohm;
    Source source;
};
struct Warm {
    double celsius, factor;
    Source source;
};
struct Fuses {
    std::vector<FuseType> types;
    std::vector<std::string_view> ids;
    std::map<std::string, std::string, std::less<>> mounting; // type -> blade, bolted ...
    std::vector<Cold> cold;
    std::map<std::string, Cited<double>, std::less<>> law;
    std::map<std::string, std::string, std::less<>> group;      // type -> points it takes when warm
    std::map<std::string, std::vector<Warm>, std::less<>> warm; // group -> points, coldest first
};

void read_gates(Fuses& f, const std::map<std::string, std::string>& curve_of) {
    load("catalogue/fuse_curves.json", [&](json::Reader& root, const Citations& citations) {
        for (json::Reader& row : root.rows("gates")) {
            const std::string curve = row.text("type");
            Gate gate;
            gate.multiple = row.number("multiple", 0.5, 100);
            if (row.has_value("time_min_s")) gate.least = Time::si(row.number("time_min_s", 0, 1e7));
            if (row.has_value("time_max_s")) gate.greatest = Time::si(row.number("time_max_s", 0, 1e7));
            gate.from = Current::si(row.number("from_A", 0, 5000));
            gate.to = Current::si(row.number("to_A", 0, 5000));
            const Source source = source_of(row, citations);
            gate.source = source;
            for (FuseType& type : f.types)
                if (const auto own = curve_of.find(type.id); own != curve_of.end() && own->second == curve) {
                    type.gates.push_back(gate);
                    if (type.curve_source.citation.empty()) type.curve_source = source;
                }
        }
        for (json::Reader& row : root.rows("i2t")) {
            const std::string id = row.text("type");
            JouleIntegral own{
                Current::si(row.number("rating_A", 0.1, 5000)), {}, {}, {}, source_of(row, citations)};
            const auto read = [&](const char* key, std::optional<Joule>& into) {
                if (row.has_value(key)) into = Joule::si(row.number(key, 0, 1e9));
            };
            read("pre_arcing_min_A2s", own.melting_least);
            read("pre_arcing_max_A2s", own.melting_greatest);
            read("clearing_max_A2s", own.clearing_greatest);
            for (FuseType& type : f.types)
                if (type.id == id) type.integrals.push_back(own);
        }
    });
    for (FuseType& type : f.types)
        std::stable_sort(type.gates.begin(), type.gates.end(),
                         [](const Gate& a, const Gate& b) { return a.multiple < b.multiple; });
}

const Fuses& fuses() {
    static const Fuses loaded = [] {
        Fuses f;
        std::map<std::string, std::string> curve_of;
        load("catalogue/fuse_types.json", [&](json::Reader& root, const Citations& citations) {
            for (json::Reader& row : root.rows("rows")) {
                FuseType type;
                type.id = row.text("id");
                type.standard = row.text("standard");
                type.name = row.text("name");
                type.voltage = row.quantity<Voltage>("voltage", 1, 2000);
                for (json::Reader& rating : row.items("rating_A"))
                    type.ratings.push_back(Current::si(rating.number(0.1, 5000)));
                for (json::Reader& at : row.rows("breaking"))
                    type.breaking.push_back(
                        {at.quantity<Voltage>("voltage", 1, 2000), at.quantity<Current>("current", 1, 1e6)});
                type.limits_current = row.maybe_boolean("limits_current").value_or(false);
                type.source = source_of(row, citations);
                f.mounting[type.id] = row.text("mounting");
                if (row.has_value("curve")) curve_of[type.id] = row.text("curve");
                std::sort(type.ratings.begin(), type.ratings.end());
                std::sort(type.breaking.begin(), type.breaking.end(),
                          [](const Breaking& a, const Breaking& b) { return a.at < b.at; });
                f.types.push_back(std::move(type));
            }
        });
        read_gates(f, curve_of);
        load("catalogue/fuse_resistance.json", [&](json::Reader& root, const Citations& citations) {
            for (json::Reader& row : root.rows("law"))
                f.law[row.text("id")] = {row.number("value", 0, 1e4), source_of(row, citations)};
            for (json::Reader& row : root.rows("cold"))
                if (row.has_value("resistance_mohm"))
                    f.cold.push_back({row.text("type"), row.number("rating_A", 0.1, 5000),
                                      row.number("resistance_mohm", 0, 1e4) / 1e3,
                                      source_of(row, citations)});
        });
        load("catalogue/fuse_derating.json", [&](json::Reader& root, const Citations& citations) {
            for (json::Reader& row : root.rows("groups")) {
                source_of(row, citations);
                f.group[row.text("type")] = row.text("group");
            }
            for (json::Reader& row : root.rows("points"))
                f.warm[row.text("group")].push_back({row.number("temperature_C", -100, 300),
                                                     row.number("factor", 0, 2), source_of(row, citations)});
        });
        for (auto& [group, points] : f.warm)
            std::stable_sort(points.begin(), points.end(),
                             [](const Warm& a, const Warm& b) { return a.celsius < b.celsius; });
        for (const FuseType& type : f.types) f.ids.push_back(type.id);
        return f;
    }();
    return loaded;
}

double law(std::string_view id) {
    const auto found = fuses().law.find(id);
    return found == fuses().law.end() ? 0 : found->second.value;
}

} // namespace

const FuseType* fuse_type(std::string_view id) {
    for (const FuseType& type : fuses().types)
        if (type.id == id) return &type;
    return nullptr;
}
std::vector<std::string_view> fuse_type_ids() {
    return fuses().ids;
}

std::vector<Gate> gates_for(const FuseType& type, Current rating) {
    std::vector<Gate> own;
    for (const Gate& gate : type.gates)
        if (rating >= gate.from && rating <= gate.to) own.push_back(gate);
    return own;
}

const JouleIntegral* joule_integral(const FuseType& type, Current rating) {
    for (const JouleIntegral& one : type.integrals)
        if (one.rating == rating) return &one;
    return nullptr;
}

std::vector<std::string> curve_bases(const FuseType& type, Current rating) {
    std::vector<std::string> out;
    const auto gates = gates_for(type, rating);
    for (const char* basis : {"read", "entered", "second hand", "computed", "common practice", "memory"})
        if (std::any_of(gates.begin(), gates.end(), [&](const Gate& g) { return g.source.basis == basis; }))
            out.emplace_back(basis);
    return out;
}

std::vector<std::string> curve_citations(const FuseType& type, Current rating) {
    std::vector<std::string> out;
    for (const Gate& gate : gates_for(type, rating))
        if (std::find(out.begin(), out.end(), gate.source.citation) == out.end())
            out.push_back(gate.source.citation);
    return out;
}

std::optional<Cited<double>> temperature_factor(const FuseType& type, Temperature ambient) {
    const auto group = fuses().group.find(type.id);
    if (group == fuses().group.end()) return {};
    const auto found = fuses().warm.find(group->second);
    if (found == fuses().warm.end() || found->second.empty()) return {};
    const std::vector<Warm>& points = found->second;
    const double at = ambient.celsius();
    if (at <= points.front().celsius) return Cited<double>{points.front().factor, points.front().source};
    for (std::size_t i = 1; i < points.size(); ++i) {
        const Warm &low = points[i - 1], &high = points[i];
        if (at > high.celsius) continue;
        const double share = (at - low.celsius) / (high.celsius - low.celsius);
        return Cited<double>{low.factor + share * (high.factor - low.factor), high.source};
    }
    return Cited<double>{points.back().factor, points.back().source};
}

Cited<Resistance> fuse_resistance(std::string_view type, Current rating) {
    const auto mounted = fuses().mounting.find(type);
    const bool bolted =
        mounted != fuses().mounting.end() && (mounted->second == "bolted" || mounted->second == "holder");
    const double holder_ohm = law(bolted ? "holder_bolted" : "holder_blade") / 1e3;
    for (const Cold& row : fuses().cold)
        if (row.type == type && row.rating_A == rating.si())
            return {Resistance::si(row.ohm * law("hot_over_cold") + holder_ohm), row.source};
    const auto found = fuses().law.find(std::string_view("drop_at_rated"));
    Source source = found == fuses().law.end() ? Source{} : found->second.source;
    if (!(rating.si() > 0)) return {Resistance::si(holder_ohm), std::move(source)};
    return {Resistance::si(law("drop_at_rated") / 1e3 / rating.si() + holder_ohm), std::move(source)};
}

Cited<Resistance> cold_link_resistance(std::string_view type, Current rating) {
    for (const Cold& row : fuses().cold)
        if (row.type == type && row.rating_A == rating.si()) return {Resistance::si(row.ohm), row.source};
    const auto found = fuses().law.find(std::string_view("drop_at_rated"));
    Source source = found == fuses().law.end() ? Source{} : found->second.source;
    if (!(rating.si() > 0)) return {Resistance{}, std::move(source)};
    return {Resistance::si(law("drop_at_rated") / 1e3 / rating.si() / law("hot_over_cold")),
            std::move(source)};
}

} // namespace fl::catalogue
