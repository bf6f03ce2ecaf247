#include "core/json/parse.h"

#include <gtest/gtest.h>

#include <string>

using namespace fl;
using json::Document;

namespace {

// code and where, as "code where"
std::string refused(std::string_view text, const json::Limits& limits = {}) {
    const auto document = Document::parse(text, limits);
    if (document) return "taken";
    EXPECT_FALSE(document.error().wrong.empty());
    EXPECT_FALSE(document.error().right.empty());
    return document.error().code + " " + document.error().where;
}

std::string nested(int depth) {
    return std::string(static_cast<std::size_t>(depth), '[') +
           std::string(static_cast<std::size_t>(depth), ']');
}

std::string rows(int count) {
    std::string text = "[";
    for (int i = 0; i < count; ++i) text += i ? ",{}" : "{}";
    return text + "]";
}

TEST(JsonParse, SaysLineAndColumnOfWhatIsNoJson) {
    EXPECT_EQ(refused(""), "json.syntax line 1, column 1");
    EXPECT_EQ(refused("{\n  \"a\": 1,\n}"), "json.syntax line 3, column 1");
    EXPECT_EQ(refused("{\"ü\": tru}"), "json.syntax line 1, column 10") << "columns count characters";
    EXPECT_EQ(refused("{} {}"), "json.syntax line 1, column 4");
    EXPECT_EQ(refused("{'a': 1}"), "json.syntax line 1, column 2");
    EXPECT_EQ(refused("[1, NaN]"), "json.syntax line 1, column 5");
    EXPECT_EQ(refused("[-Infinity]"), "json.syntax line 1, column 3");
    EXPECT_EQ(refused("// note\n{}"), "json.syntax line 1, column 1");
    EXPECT_EQ(refused("[01]"), "json.syntax line 1, column 3");
    EXPECT_EQ(refused("\xEF\xBB\xBF{}"), "taken") << "a byte order mark is let pass";
}

TEST(JsonParse, KeepsItsMessagesShort) {
    const auto document = Document::parse("[\"" + std::string(100'000, 'x'));
    ASSERT_FALSE(document);
    EXPECT_LT(document.error().wrong.size(), 250u);
}

TEST(JsonParse, RefusesDuplicateKeysAtAnyDepth) {
    EXPECT_EQ(refused(R"({"a": 1, "b": 2, "a": 3})"), "json.duplicate /a");
    EXPECT_EQ(refused(R"({"rows": [{}, {"x": {"k/~": 1, "k/~": 1}}]})"), "json.duplicate /rows/1/x/k~1~0");
    EXPECT_EQ(refused(R"({"a": 1, "\u0061": 3})"), "json.duplicate /a") << "however it is spelled";
    EXPECT_EQ(refused(R"([{"a": 1}, {"a": 1}, {"A": 1, "a": 1}])"), "taken");
}

TEST(JsonParse, RefusesWhatWouldFillMemory) {
    EXPECT_EQ(refused(nested(64)), "taken");
    EXPECT_EQ(refused(nested(65)).substr(0, 11), "json.depth ");
    EXPECT_EQ(refused(std::string(1'000'000, '[')).substr(0, 11), "json.depth ") << "a depth bomb";
    EXPECT_EQ(refused(rows(5), {.rows = 5}), "taken");
    EXPECT_EQ(refused(rows(6), {.rows = 5}), "json.rows /5");
    EXPECT_EQ(refused(R"({"a": [{}, {}], "b": [{}]})", {.rows = 2}), "json.rows /b/0");
    EXPECT_EQ(refused(rows(200'000)), "taken");
    EXPECT_EQ(refused(rows(200'001)), "json.rows /200000");
    EXPECT_EQ(refused("[1, 2, 3]", {.bytes = 9}), "taken");
    EXPECT_EQ(refused("[1, 2, 3]", {.bytes = 8}), "json.size ");
}

TEST(JsonParse, RefusesNumbersThatWouldLoseWhatTheySay) {
    EXPECT_EQ(refused("[1, 1e400]"), "json.number line 1, column 9");
    EXPECT_EQ(refused("[-1e400]"), "json.number line 1, column 7");
    EXPECT_EQ(refused("[18446744073709551615]"), "taken") << "2^64 - 1";
    EXPECT_EQ(refused(R"({"id": [0, 18446744073709551616]})"), "json.number /id/1") << "2^64";
    EXPECT_EQ(refused("[-9223372036854775808]"), "taken");
    EXPECT_EQ(refused("[-9223372036854775809]"), "json.number /0");
    EXPECT_EQ(refused("[18446744073709551616.0, 1e-400, 1.7e308]"), "taken");
}

TEST(JsonParse, RefusesTextThatIsNotUtf8) {
    EXPECT_EQ(refused("{\"a\": \"\xFF\"}"), "json.utf8 line 1, column 8");
    EXPECT_EQ(refused("[\"\xC0\x80\"]"), "json.utf8 line 1, column 3") << "overlong";
    EXPECT_EQ(refused("[\"\xED\xA0\x80\"]"), "json.utf8 line 1, column 3") << "a surrogate";
    EXPECT_EQ(refused("[\"\xF4\x90\x80\x80\"]"), "json.utf8 line 1, column 3") << "beyond U+10FFFF";
    EXPECT_EQ(refused("[\"abcdefghijk\xE2\x82\"]"), "json.utf8 line 1, column 14") << "cut short";
    EXPECT_EQ(refused("[\"\xF0\x9F\x94\x8B \xE2\x82\xAC \xC3\xBC\"]"), "taken");
    EXPECT_EQ(refused(R"(["\ud800"])").substr(0, 12), "json.syntax ") << "half a pair, escaped";
}

} // namespace
