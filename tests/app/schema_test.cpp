#include "core/base/resource.h"
#include "tests/app/program.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include <set>

// Every JSON answer against resources/schema/answers.schema.json, and every number in it against the rule
// that its name carries its unit.

namespace fl::test {
namespace {

using nlohmann::json;

// A driven charger, gauges, an unknown length, a missing fuse: something in every list.
constexpr std::string_view job = R"(
rules     van 12V
battery   G1 lead starter 12V 70Ah "Starter battery"
alternator G3 controlled 12V 150A
battery   G2 lead service 12V 100Ah "Service battery"
charger   T1 20A 14.2V efficiency=90% "Charger"
load      E1 5A "Fridge" purpose=fridge
wire      W1 G3:B+ G1:+ 1m 16mm2
return    W2 G1:- G3:B- 1m 16mm2
wire      W3 G1:+ T1:in+ 3m AWG10
wire      W4 T1:out+ G2:+ length=? 6mm2
return    W5 T1:- G1:- 3m 6mm2
return    W6 G2:- T1:- 3m 6mm2
wire      W7 G2:+ E1:+ 4.3m 0.5mm2
return    W8 E1:- G2:- 4.3m size=?
fuse      F1 ISO8820-3-C 30A on=W3 at=0.1m
expect    worst E1 drop 1V
)";

json parsed(const std::string& text) {
    json read = json::parse(text, nullptr, false);
    EXPECT_FALSE(read.is_discarded()) << text;
    return read;
}

// The faults of a document by the schema's definition of this name.
std::string faults(const json& document, const std::string& definition) {
    const auto text = resource("schema/answers.schema.json");
    if (!text) return "no schema";
    json schema_text = json::parse(*text, nullptr, false);
    if (schema_text.is_discarded()) return "the schema is no JSON";
    schema_text.erase("oneOf");
    schema_text["allOf"] = json::array({json{{"$ref", "#/definitions/" + definition}}});
    valijson::Schema schema;
    valijson::SchemaParser().populateSchema(valijson::adapters::NlohmannJsonAdapter(schema_text), schema);
    valijson::ValidationResults results;
    const valijson::adapters::NlohmannJsonAdapter target(document);
    if (valijson::Validator().validate(schema, target, &results)) return {};
    std::string out;
    valijson::ValidationResults::Error error;
    while (results.popError(error)) {
        for (const std::string& step : error.context) out += step;
        out += ": " + error.description + "\n";
    }
    return out;
}

// Numbers whose name ends in no unit, but for counts and numbers of things.
void numbers_without_unit(const json& at, const std::string& name, std::set<std::string>& found) {
    static const std::set<std::string> plain{"version", "status", "number", "id"};
    static constexpr std::string_view units[] = {"_A",  "_V",  "_W", "_mohm", "_m",   "_mm2", "_s",
                                                 "_Ah", "_Wh", "_C", "_K",    "_pct", "_A2s", "_mohm_per_m"};
    if (at.is_array())
        for (const json& one : at) numbers_without_unit(one, name, found);
    if (at.is_object())
        for (const auto& [key, value] : at.items()) numbers_without_unit(value, key, found);
    if (!at.is_number() || plain.contains(name)) return;
    for (const std::string_view unit : units)
        if (name.ends_with(unit)) return;
    if (at.is_number_float()) found.insert(name); // whole numbers without a unit are counts
}

class Schema : public testing::Test {
protected:
    Schema() {
        save_case(file, job);
        write_file(broken, "[]");
    }
    void expect_valid(const json& document, const std::string& definition) const {
        EXPECT_EQ(faults(document, definition), "") << document.dump(1).substr(0, 4000);
        EXPECT_EQ(document.at("format"), "fuseloom-" + definition);
        std::set<std::string> found;
        numbers_without_unit(document, "", found);
        EXPECT_EQ(found, std::set<std::string>());
    }
    Folder folder;
    std::string file = folder / "job.fuseloom", broken = folder / "broken.fuseloom";
};

TEST_F(Schema, HoldsForCheck) {
    const json read = parsed(run({"check", "--json", file, broken}).out);
    expect_valid(read, "check");
    // Else the lists would not have been tried.
    EXPECT_FALSE(read.at("files")[0].at("findings").empty());
    EXPECT_FALSE(read.at("files")[0].at("open_questions").empty());
    EXPECT_FALSE(read.at("files")[1].at("problems").empty());
}

TEST_F(Schema, HoldsForWhy) {
    for (const char* id : {"W3.current", "E1.drop", "W7.may-carry", "G2.+.fault", "1"})
        expect_valid(parsed(run({"check", file, "--why", id, "--json"}).out), "why");
    expect_valid(parsed(run({"check", file, "--why", "nothing", "--json"}).out), "why");
}

TEST_F(Schema, HoldsForSolve) {
    const json read = parsed(run({"solve", file, "--json"}).out);
    expect_valid(read, "solve");
    EXPECT_GE(read.at("conditions").size(), 2U);
}

TEST_F(Schema, HoldsForSize) {
    expect_valid(parsed(run({"size", file, "--json"}).out), "size");
    const json written = parsed(run({"size", file, "--json", "--write", folder / "out.fuseloom"}).out);
    expect_valid(written, "size");
    EXPECT_FALSE(written.at("raised").empty());
}

TEST_F(Schema, HoldsForFaults) {
    expect_valid(parsed(run({"faults", file, "--json"}).out), "faults");
    expect_valid(parsed(run({"devices", file, "--json"}).out), "devices");
    expect_valid(parsed(run({"mend", file, "--json"}).out), "mend");
}

TEST_F(Schema, HoldsForExport) {
    const std::string out = folder / "all.json";
    ASSERT_EQ(run({"export", file, "--to", out}).status, 0);
    expect_valid(parsed(bytes_of(out)), "export");
}

TEST_F(Schema, HoldsForEveryCommandOnABrokenFile) {
    for (const char* command : {"solve", "size", "faults", "devices", "mend"})
        expect_valid(parsed(run({command, broken, "--json"}).out), command);
}

TEST_F(Schema, RefusesWhatItShould) {
    json read = parsed(run({"check", "--json", file}).out);
    read.at("files")[0].at("findings")[0]["grade"] = "awful";
    EXPECT_NE(faults(read, "check"), "");
    read.erase("version");
    EXPECT_NE(faults(read, "check"), "");
}

} // namespace
} // namespace fl::test
