#include "core/json/read.h"
#include "core/json/write.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>

using namespace fl;
using json::Layout;
using json::Writer;

namespace {

template <class Write>
std::string written(Write&& write) {
    Writer w;
    write(w);
    const auto text = std::move(w).finish();
    return text ? *text : text.error().code + " " + text.error().where;
}

TEST(JsonWrite, WritesMembersInTheOrderOfTheCalls) {
    EXPECT_EQ(
        written([](Writer& w) {
            w.begin_object();
            w.member("z", 1);
            w.member("a", "text");
            w.member("yes", true);
            w.member("n", 2.5);
            w.member_quantity("length", Length::si(4.3));
            w.member_quantity("size", Area::si(2.5e-6));
            w.key("none");
            w.null();
            w.key("at");
            w.begin_array();
            w.value(3u);
            w.value(std::string("+"));
            w.end_array();
            w.key("empty");
            w.begin_object(Layout::lines);
            w.end_object();
            w.end_object();
        }),
        R"({"z": 1, "a": "text", "yes": true, "n": 2.5, "length_m": 4.3, "size_mm2": 2.5, "none": null, )"
        R"("at": [3, "+"], "empty": {}})"
        "\n");
}

TEST(JsonWrite, PutsARowOnALineWhereItFits) {
    const auto rows = [&](std::size_t fill) {
        return written([&](Writer& w) {
            w.begin_object(Layout::lines);
            w.member("version", 1);
            w.key("rows");
            w.begin_array(Layout::lines);
            for (int i = 1; i <= 2; ++i) {
                w.begin_object();
                w.member("id", i);
                w.key("with");
                w.begin_object();
                w.member("t", i == 2 ? std::string(fill, 'x') : "");
                w.end_object();
                w.end_object();
            }
            w.end_array();
            w.end_object();
        });
    };
    // By hand: 4 spaces + `{"id": 2, "with": {"t": "` (25) + text + `"}},` (4, the comma that may follow
    // counted) = 160 with 127 characters of text.
    const std::string fits = rows(127), not_quite = rows(128);
    EXPECT_EQ(fits, "{\n  \"version\": 1,\n  \"rows\": [\n    {\"id\": 1, \"with\": {\"t\": \"\"}},\n"
                    "    {\"id\": 2, \"with\": {\"t\": \"" +
                        std::string(127, 'x') + "\"}}\n  ]\n}\n");
    EXPECT_EQ(not_quite, "{\n  \"version\": 1,\n  \"rows\": [\n    {\"id\": 1, \"with\": {\"t\": \"\"}},\n"
                         "    {\n      \"id\": 2,\n      \"with\": {\"t\": \"" +
                             std::string(128, 'x') + "\"}\n    }\n  ]\n}\n");
}

TEST(JsonWrite, UnfoldsFromTheInsideOut) {
    EXPECT_EQ(written([](Writer& w) {
                  w.begin_array();
                  w.begin_array();
                  w.value(std::string(100, 'a'));
                  w.value(std::string(100, 'b'));
                  w.end_array();
                  w.value(1);
                  w.end_array();
              }),
              "[\n  [\n    \"" + std::string(100, 'a') + "\",\n    \"" + std::string(100, 'b') +
                  "\"\n  ],\n  1\n]\n");
    EXPECT_EQ(written([](Writer& w) {
                  w.begin_array();
                  for (int i = 0; i < 2; ++i) w.value("ä" + std::string(74, 'a'));
                  w.end_array();
              }),
              "[\"ä" + std::string(74, 'a') + "\", \"ä" + std::string(74, 'a') + "\"]\n")
        << "columns are characters, not bytes: 2 + 2 * 77 + 2 + 1 = 159";
}

TEST(JsonWrite, EscapesAndKeepsText) {
    EXPECT_EQ(written([](Writer& w) { w.value(std::string_view("a\"b\\c\n\t\r\b\f\x01\x1f\x7f/ü€", 19)); }),
              "\"a\\\"b\\\\c\\n\\t\\r\\b\\f\\u0001\\u001f\x7f/ü€\"\n");
    EXPECT_EQ(written([](Writer& w) { w.value(std::string_view("\0", 1)); }), "\"\\u0000\"\n");
}

TEST(JsonWrite, RefusesWhatJsonCannotSay) {
    const auto at_x = [](auto value) {
        return written([&](Writer& w) {
            w.begin_object();
            w.key("rows");
            w.begin_array();
            w.value(1);
            w.begin_object();
            w.member("x", value);
            w.end_object();
            w.end_array();
            w.end_object();
        });
    };
    EXPECT_EQ(at_x(std::nan("")), "json.number /rows/1/x");
    EXPECT_EQ(at_x(std::numeric_limits<double>::infinity()), "json.number /rows/1/x");
    EXPECT_EQ(at_x("\xFF"), "json.utf8 /rows/1/x");
    EXPECT_EQ(written([](Writer& w) { w.quantity(Voltage::si(std::nan(""))); }), "json.number ");
    EXPECT_EQ(written([](Writer& w) {
                  w.begin_row("[1]");
                  w.end_object();
              }),
              "json.unknown ");
}

TEST(JsonWrite, SpellsNumbersSoThatTheyReadBack) {
    const auto number = [](double v) { return written([&](Writer& w) { w.value(v); }); };
    EXPECT_EQ(number(-0.0), "0\n");
    EXPECT_EQ(number(0.1), "0.1\n");
    EXPECT_EQ(number(1e22), "1e+22\n");
    for (const double v : {123456789012345680000.0, 9223372036854775808.0, 1.7e308, 5e-324, 1e15, 1.0 / 3}) {
        const auto read = json::Document::parse("{\"v\": " + number(v) + "}");
        ASSERT_TRUE(read) << number(v);
        Problems problems;
        EXPECT_EQ(json::Reader(*read, problems).number("v"), v);
    }
}

TEST(JsonWrite, WritesKeptFieldsBackWhereTheyStood) {
    constexpr const char* kept =
        R"({"ends":[{},{"seal":true}],"later":[1,{"a":1.5,"z":null}],"known":0,"with":{"more":"x"},"gone":{"b":1}})";
    const std::string text = written([&](Writer& w) {
        w.begin_row(kept);
        w.member("known", 1);
        w.key("with");
        w.begin_object();
        w.member("known", 2);
        w.end_object();
        w.key("ends");
        w.begin_array();
        for (int i = 0; i < 3; ++i) {
            w.begin_object();
            w.member("n", i);
            w.end_object();
        }
        w.end_array();
        EXPECT_TRUE(w.needs("gone"));
        EXPECT_FALSE(w.needs("not kept"));
        w.end_object();
    });
    EXPECT_EQ(text, R"({"known": 1, "with": {"known": 2, "more": "x"}, )"
                    R"("ends": [{"n": 0}, {"n": 1, "seal": true}, {"n": 2}], "gone": {"b": 1}, )"
                    R"("later": [1, {"a": 1.5, "z": null}]})"
                    "\n");
    EXPECT_EQ(written([](Writer& w) {
                  w.begin_row(R"({"count":3})");
                  EXPECT_FALSE(w.needs("count"));
                  w.end_object();
              }),
              "{}\n")
        << "a known field that is left out stays out";
}

} // namespace
