#include "tests/published/inputs.h"

#include <map>

namespace fl::published {

double unit_scale(const std::string& unit) {
    // 1 ft = 0.3048 m; 1 cmil = pi/4 · (0.001 in)². Everything else is a power of ten.
    constexpr double ft = 0.3048, cmil = 5.067074790974977e-10;
    static const std::map<std::string, double> scales = {
        {"", 1},
        {"V", 1},
        {"mV", 1e-3},
        {"A", 1},
        {"mA", 1e-3},
        {"kA", 1e3},
        {"ohm", 1},
        {"mohm", 1e-3},
        {"W", 1},
        {"kW", 1e3},
        {"s", 1},
        {"mm2", 1e-6},
        {"cmil", cmil},
        {"kcmil", 1e3 * cmil},
        {"ohm/km", 1e-3},
        {"ohm/ft", 1 / ft},
        {"ohm/1000ft", 1e-3 / ft},
        {"ohm.mm2/m", 1e-6},
        {"ohm.cmil/ft", cmil / ft},
        {"A2s", 1},
        {"1e6 A2s", 1e6},
    };
    const auto found = scales.find(unit);
    if (found == scales.end()) throw BadRow("unknown unit: " + unit);
    return found->second;
}

Inputs::Inputs(const nlohmann::json& object)
    : object_(object) {
    if (!object.is_object()) throw BadRow("inputs are not an object");
}

const nlohmann::json& Inputs::at(const std::string& key) {
    const auto found = object_.find(key);
    if (found == object_.end()) throw BadRow("missing input: " + key);
    read_.insert(key);
    return *found;
}

std::string Inputs::text(const std::string& key) {
    return at(key).get<std::string>();
}

double Inputs::number(const std::string& key) {
    return at(key).get<double>();
}

int Inputs::count(const std::string& key) {
    return at(key).get<int>();
}

bool Inputs::flag(const std::string& key) {
    return at(key).get<bool>();
}

WireSize Inputs::size(const std::string& key) {
    const auto read = parse_size(text(key));
    if (!read) throw BadRow(key + ": not a size: " + text(key));
    return *read;
}

std::vector<Inputs> Inputs::list(const std::string& key) {
    std::vector<Inputs> out;
    if (has(key))
        for (const auto& each : at(key)) out.emplace_back(each);
    return out;
}

std::vector<std::string> Inputs::words(const std::string& key) {
    return at(key).get<std::vector<std::string>>();
}

double Inputs::resistivity(const std::string& key) {
    return printed_si(key, text(key)) / unit_scale("ohm.mm2/m");
}

double Inputs::printed_si(const std::string& key, const std::string& typed) {
    const auto space = typed.find(' ');
    if (space == typed.npos) throw BadRow(key + ": no unit: " + typed);
    const auto value = parse_number(typed.substr(0, space));
    if (!value) throw BadRow(key + ": no number: " + typed);
    return *value * unit_scale(typed.substr(space + 1));
}

void Inputs::all_read() const {
    for (const auto& [key, value] : object_.items())
        if (!read_.contains(key)) throw BadRow("input that nothing reads: " + key);
}

} // namespace fl::published
