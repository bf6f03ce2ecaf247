#include "tests/published/row.h"

#include "core/quantity/parse.h"
#include "core/quantity/print.h"
#include "tests/published/inputs.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>

namespace fl::published {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

json read(const fs::path& path) {
    std::ifstream in(path);
    if (!in) throw BadRow("cannot read " + path.string());
    return json::parse(in);
}

fs::path folder() {
    return fs::path(FL_SOURCE_DIR) / "tests" / "published";
}

Row row_of(const json& row, const std::map<std::string, std::string>& sources) {
    static const std::set<std::string> keys = {"id",   "source",   "function", "inputs", "result",
                                               "unit", "misprint", "lookup",   "note"};
    for (const auto& [key, value] : row.items())
        if (!keys.contains(key)) throw BadRow("unknown key: " + key);
    Row out;
    out.id = row.at("id").get<std::string>();
    const auto source = sources.find(row.at("source").get<std::string>());
    if (source == sources.end()) throw BadRow(out.id + ": source is not listed");
    out.source = source->second;
    out.function = row.at("function").get<std::string>();
    out.inputs = row.at("inputs");
    out.result = row.at("result").get<std::string>();
    out.number = row.contains("unit");
    if (out.number) out.unit = row.at("unit").get<std::string>();
    out.misprint = row.value("misprint", false);
    out.lookup = row.value("lookup", false);
    return out;
}

} // namespace

std::vector<Row> all_rows() {
    std::vector<fs::path> files;
    for (const auto& entry : fs::directory_iterator(folder()))
        if (entry.path().extension() == ".json" && entry.path().filename() != "not_used.json")
            files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    std::vector<Row> out;
    for (const auto& path : files) {
        const json file = read(path);
        const auto sources = file.at("sources").get<std::map<std::string, std::string>>();
        for (const auto& row : file.at("rows")) out.push_back(row_of(row, sources));
    }
    return out;
}

NotUsed not_used() {
    const json file = read(folder() / "not_used.json");
    NotUsed out{file.at("series").get<std::vector<std::string>>(), {}, {}};
    for (const auto& reason : file.at("not_used"))
        out.reasons.push_back(
            {reason.at("ids").get<std::vector<std::string>>(), reason.at("why").get<std::string>()});
    for (const auto& figure : file.at("left_out"))
        out.left_out.push_back({figure.at("of").get<std::string>(), figure.at("what").get<std::string>(),
                                figure.at("why").get<std::string>()});
    return out;
}

std::string example(const std::string& id) {
    return id.substr(0, id.find('.'));
}

int decimals(const std::string& printed) {
    const auto point = printed.find('.');
    return point == printed.npos ? 0 : static_cast<int>(printed.size() - point - 1);
}

int digits(const std::string& printed) {
    int n = 0;
    for (const char c : printed)
        if (c >= '0' && c <= '9' && (n > 0 || c != '0')) ++n;
    return n;
}

bool agrees(double value, const std::string& printed) {
    const auto number = parse_number(printed);
    if (!number) throw BadRow("result is no number: " + printed);
    const double half = 0.5 * std::pow(10.0, -decimals(printed));
    // A result that lies on the half itself may be rounded either way; 1e-9 is what binary leaves of it.
    return std::fabs(value - *number) <= half * (1 + 1e-9) + 1e-12 * std::fabs(*number);
}

std::string shown(const Row& row, const Answer& answer) {
    if (const auto* text = std::get_if<std::string>(&answer)) return *text;
    const double value = std::get<double>(answer) / unit_scale(row.unit);
    return shortest(value) + " " + row.unit;
}

bool agrees(const Row& row, const Answer& answer) {
    const auto* text = std::get_if<std::string>(&answer);
    if (row.number == (text != nullptr)) return false;
    return text ? *text == row.result : agrees(std::get<double>(answer) / unit_scale(row.unit), row.result);
}

} // namespace fl::published
