#include "core/json/read.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <string>

using namespace fl;
using json::Document;
using json::Reader;
using testing::ElementsAre;

namespace {

// A document with its reader; problems as "code where".
struct Text {
    explicit Text(std::string_view text)
        : document(*Document::parse(text))
        , root(document, problems) {}
    Document document;
    Problems problems;
    Reader root;

    std::vector<std::string> said() const {
        std::vector<std::string> lines;
        for (const Problem& p : problems) lines.push_back(p.code + " " + p.where);
        return lines;
    }
};

constexpr std::array<std::string_view, 3> colours{"red", "black", "yellow green"};

TEST(JsonRead, GivesWhatStandsThere) {
    Text t(R"({"n": 2.5, "whole": 7, "minus": -3, "t": "ü", "yes": true, "c": "black", "zero": 0})");
    EXPECT_EQ(t.root.number("n", 0, 10), 2.5);
    EXPECT_EQ(t.root.number("whole"), 7);
    EXPECT_EQ(t.root.integer("minus", -3, 5), -3);
    EXPECT_EQ(t.root.text("t"), "ü");
    EXPECT_TRUE(t.root.boolean("yes"));
    EXPECT_EQ(t.root.one_of("c", colours), 1u);
    EXPECT_EQ(t.root.maybe_number("zero"), 0.0);
    EXPECT_EQ(t.root.maybe_number("absent"), std::nullopt);
    EXPECT_EQ(t.root.maybe_text("absent"), std::nullopt);
    EXPECT_EQ(t.root.maybe_integer("absent", 0, 1), std::nullopt);
    EXPECT_EQ(t.root.maybe_boolean("absent"), std::nullopt);
    EXPECT_EQ(t.root.maybe_one_of("absent", colours), std::nullopt);
    EXPECT_THAT(t.said(), ElementsAre());
    EXPECT_EQ(t.root.unknown(), "");
}

TEST(JsonRead, MeetsEveryProblemInOnePass) {
    Text t(
        R"({"a": "1", "b": null, "c": 11, "d": 2.0, "e": 1, "f": "green", "g": [], "h": 18446744073709551615,
               "i": {}, "j/k": -1})");
    EXPECT_EQ(t.root.number("a", 0, 10), 0);
    EXPECT_EQ(t.root.number("b", 1, 10), 1) << "the stand-in lies in the range";
    t.root.number("c", 0, 10);
    t.root.integer("d", 0, 10); // whole numbers are spelled as such
    t.root.boolean("e");
    t.root.one_of("f", colours);
    t.root.text("g");
    t.root.integer("h", 0, INT64_MAX);
    EXPECT_EQ(t.root.maybe_boolean("i"), std::nullopt);
    t.root.maybe_number("j/k", 0, 1);
    t.root.number("gone");
    EXPECT_THAT(t.said(), ElementsAre("json.kind /a", "json.kind /b", "json.range /c", "json.kind /d",
                                      "json.kind /e", "json.choice /f", "json.kind /g", "json.range /h",
                                      "json.kind /i", "json.range /j~1k", "json.missing /gone"));
    EXPECT_EQ(line(t.problems[2]), "/c: 11 is out of range: 0 to 10");
    EXPECT_EQ(line(t.problems[1]), "/b: null stands here: a number");
    EXPECT_EQ(line(t.problems[5]),
              "/f: \"green\" is not among the choices: one of: red, black, yellow green");
}

TEST(JsonRead, ReadsQuantitiesInTheirFieldUnit) {
    Text t(R"({"length_m": 4.3, "area_mm2": 2.5, "resistance_mohm": 6, "ambient_C": -10, "share_pct": 80,
               "capacity_Ah": 200})");
    EXPECT_EQ(t.root.quantity<Length>("length", 0, 100).si(), 4.3);
    EXPECT_EQ(t.root.quantity<Area>("area", 0.05, 500).si(), 2.5e-6); // 2.5 mm2 by hand
    EXPECT_EQ(t.root.quantity<Resistance>("resistance", 0, 1000).si(), 6e-3);
    EXPECT_EQ(t.root.quantity<Temperature>("ambient", -50, 100).celsius(), -10);
    EXPECT_EQ(t.root.quantity<Ratio>("share", 0, 100).si(), 0.8);
    EXPECT_EQ(t.root.maybe_quantity<Charge>("capacity", 0, 100), std::nullopt);
    EXPECT_EQ(t.root.maybe_quantity<Length>("capacity", 0, 100), std::nullopt) << "another unit, another key";
    EXPECT_THAT(t.said(), ElementsAre("json.range /capacity_Ah"));
}

TEST(JsonRead, DescendsAndPoints) {
    Text t(R"({"job": {"title": 5}, "pair": [3, "+"], "rows": [{"id": 1}, 4, {"id": "x"}], "list": 7,
               "short": [1]})");
    t.root.object("job").text("title");
    const auto pair = t.root.items("pair", 2, 2);
    ASSERT_EQ(pair.size(), 2u);
    auto rows = t.root.rows("rows");
    ASSERT_EQ(rows.size(), 2u) << "what is no row is left out";
    for (Reader& row : rows) row.integer("id", 1, 9);
    EXPECT_TRUE(t.root.items("list").empty());
    EXPECT_TRUE(t.root.items("short", 2, 2).empty());
    EXPECT_TRUE(t.root.items("absent").empty());
    EXPECT_TRUE(t.root.items("absent as well", 1).empty());
    t.root.object("pair").object("deeper").number("x"); // one problem for all that hangs on it
    EXPECT_THAT(t.said(), ElementsAre("json.kind /job/title", "json.kind /rows/1", "json.kind /rows/2/id",
                                      "json.kind /list", "json.length /short", "json.missing /absent as well",
                                      "json.kind /pair"));
}

TEST(JsonRead, ReadsElementsOfItsOwn) {
    Text t(R"({"at": [3, "+", true, 2.5, "red", [1]]})");
    auto at = t.root.items("at");
    EXPECT_EQ(at[0].integer(1, 10), 3);
    EXPECT_EQ(at[1].text(), "+");
    EXPECT_TRUE(at[2].boolean());
    EXPECT_EQ(at[3].number(), 2.5);
    EXPECT_EQ(at[4].one_of(colours), 0u);
    EXPECT_EQ(at[5].items(1, 1)[0].where(), "/at/5/0");
    at[0].text();
    EXPECT_THAT(t.said(), ElementsAre("json.kind /at/0"));
}

TEST(JsonRead, WantsAnObjectAtTheRoot) {
    Text t("[1]");
    t.root.number("x");
    EXPECT_THAT(t.said(), ElementsAre("json.kind "));
}

TEST(JsonRead, HandsBackWhatWasNotRead) {
    Text t(R"({"known": 1, "later": [1, {"z": null, "a": 1.5}], "nothing": null,
               "with": {"known": 2, "more": "x"},
               "ends": [{"known": 1}, {"known": 1, "seal": true}],
               "rows": [{"known": 1, "own": 1}]})");
    t.root.number("known");
    t.root.object("with").number("known");
    for (Reader& end : t.root.items("ends")) end.number("known");
    for (Reader& row : t.root.rows("rows")) {
        row.number("known");
        EXPECT_EQ(row.unknown(), R"({"own":1})");
    }
    EXPECT_EQ(
        t.root.unknown(),
        R"({"ends":[{},{"seal":true}],"later":[1,{"a":1.5,"z":null}],"nothing":null,"with":{"more":"x"}})");
    EXPECT_THAT(t.said(), ElementsAre());
    t.root.refuse_unknown();
    EXPECT_THAT(t.said(), ElementsAre("json.unknown /ends/1/seal", "json.unknown /later",
                                      "json.unknown /nothing", "json.unknown /with/more"));
}

TEST(JsonRead, SpellsWhatItHandsBackAsItIsWritten) {
    Text t(
        R"({"a": 0e5, "b": -0.0, "c": 1.0, "d": 1.50, "e": "\u00fc\u0001", "f": 1e5, "g": 100000000000000000000.0})");
    EXPECT_EQ(t.root.unknown(), R"({"a":0,"b":0,"c":1,"d":1.5,"e":"ü\u0001","f":1e+05,"g":1e+20})");
}

TEST(JsonRead, EndsItsListOfProblemsSomewhere) {
    Text t("{}");
    for (int i = 0; i < 3000; ++i) t.root.number("absent");
    ASSERT_EQ(t.problems.size(), Reader::most_problems + 1);
    EXPECT_EQ(t.problems.back().code, "json.more");
}

} // namespace
