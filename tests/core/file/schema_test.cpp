// resources/schema/fuseloom.schema.json is made by tests/support/document_schema.cpp from the fields that
// reading and writing go by, so that it can't say anything else. After a change of fields: FL_WRITE_SCHEMA=1
// core_tests --gtest_filter='FileSchema.*', then build again.
#include "core/base/resource.h"
#include "core/file/file.h"
#include "tests/support/any_installation.h"
#include "tests/support/document_schema.h"
#include "tests/support/property.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

using namespace fl;
namespace fs = std::filesystem;

namespace {

class Schema {
public:
    Schema() {
        const auto text = resource("schema/fuseloom.schema.json");
        parsed_ = nlohmann::json::parse(text.value_or("false"));
        valijson::SchemaParser(valijson::SchemaParser::kDraft7)
            .populateSchema(valijson::adapters::NlohmannJsonAdapter(parsed_), schema_);
    }
    // Empty, or what the schema has against it.
    std::string against(const std::string& text) {
        const auto document = nlohmann::json::parse(text, nullptr, false);
        valijson::ValidationResults results;
        valijson::Validator validator;
        if (validator.validate(schema_, valijson::adapters::NlohmannJsonAdapter(document), &results))
            return {};
        std::string all;
        for (valijson::ValidationResults::Error error; results.popError(error);) {
            for (const std::string& part : error.context) all += part;
            all += ": " + error.description + "\n";
        }
        return all.empty() ? "refused" : all;
    }

private:
    nlohmann::json parsed_;
    valijson::Schema schema_;
};

std::string bytes(const fs::path& path) {
    std::ostringstream all;
    all << std::ifstream(path, std::ios::binary).rdbuf();
    return all.str();
}

TEST(FileSchema, SaysWhatTheProgramReadsAndWrites) {
    const std::string made = test::document_schema();
    if (const char* wish = std::getenv("FL_WRITE_SCHEMA"); wish && std::string_view(wish) == "1")
        std::ofstream(fs::path(FL_SOURCE_DIR) / "resources/schema/fuseloom.schema.json", std::ios::binary)
            << made;
    EXPECT_TRUE(made == resource("schema/fuseloom.schema.json"))
        << "the fields have changed: see the top of schema_test.cpp";
}

TEST(FileSchema, TakesWhatIsSaved) {
    Schema schema;
    test::property(200, [&] {
        const auto seed = *rc::gen::arbitrary<std::uint32_t>();
        const auto text = file::save(test::any_installation(seed, *rc::gen::inRange(1, 20)));
        const std::string against = schema.against(*text);
        if (!against.empty()) RC_FAIL(against);
    });
}

// What reading refuses for a single value (kind, range, choice, absence), the schema refuses too; what no
// schema can see (references, double keys, depth) it takes.
TEST(FileSchema, RefusesWhatIsRefused) {
    Schema schema;
    int refused = 0, taken = 0;
    for (const auto& entry : fs::directory_iterator(fs::path(FL_SOURCE_DIR) / "tests/core/file/invalid")) {
        if (entry.path().extension() != ".fuseloom") continue;
        const std::string text = bytes(entry.path());
        if (!nlohmann::json::accept(text)) continue;
        SCOPED_TRACE(entry.path().filename().string());
        bool ours = false;
        const auto problems = file::load(text);
        ASSERT_FALSE(problems);
        for (const Problem& p : problems.error())
            for (const char* code : {"json.kind", "json.range", "json.choice", "json.missing", "json.length",
                                     "json.number", "file.format", "file.version"})
                ours = ours || p.code == code;
        EXPECT_EQ(!schema.against(text).empty(), ours);
        ++(ours ? refused : taken);
    }
    EXPECT_GT(refused, 10);
    EXPECT_GT(taken, 4);
}

} // namespace
