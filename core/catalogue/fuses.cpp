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
struct Fuses {
    std::vector<FuseType> types;
    std::vector<std::string_view> ids;
    std::map<std::string, std::string, std::less<>> mounting; // type -> blade, bolted ...
    std::vector<Cold> cold;
    std::map<std::string, Cited<double>, std::less<>> law;
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
            for (FuseType& type : f.types)
                if (const auto own = curve_of.find(type.id); own != curve_of.end() && own->second == curve) {
                    type.gates.push_back(gate);
                    if (type.curve_source.citation.empty()) type.curve_source = source;
                }
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
