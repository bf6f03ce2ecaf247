#include "core/plan/installation.h"
#include "tests/support/case.h"
#include "ui/panel/fields.h"
#include "ui/panel/steps.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace {

using namespace fl;
using ui::stepped;

plan::Installation drawn() {
    auto read = test::read_case("rules van 12V\n"
                                "battery G1 lifepo4 12V 100Ah\n"
                                "battery G2 lead 12V 80Ah role=starter\n"
                                "fuse F1 ISO8820-3-C 10A\n"
                                "load E1 power=assumed:60W law=power\n"
                                "load E2 current=5A duty=short\n"
                                "wire W1 G1:+ F1:1 3m 2.5mm2\n"
                                "expect only 0 findings\n");
    for (const std::string& problem : read.problems) ADD_FAILURE() << problem;
    return read.installation;
}

std::vector<std::string> paths(const plan::Installation& in, const char* designation) {
    std::vector<std::string> all;
    for (const ui::Field& one : ui::fields_of(in, plan::Subject::of(plan::find(in, designation)->id)))
        all.push_back(one.path);
    return all;
}

bool has(const std::vector<std::string>& all, const char* path) {
    return std::find(all.begin(), all.end(), path) != all.end();
}

TEST(Fields, OnlyThoseThatMeanSomethingAreShown) {
    const plan::Installation in = drawn();
    EXPECT_TRUE(has(paths(in, "E1"), "power"));
    EXPECT_FALSE(has(paths(in, "E1"), "current"));
    EXPECT_FALSE(has(paths(in, "E1"), "on_time")) << "it runs lastingly";
    EXPECT_TRUE(has(paths(in, "E2"), "on_time"));
    EXPECT_TRUE(has(paths(in, "G1"), "discharge_limit"));
    EXPECT_FALSE(has(paths(in, "G1"), "cold_cranking"));
    EXPECT_TRUE(has(paths(in, "G2"), "cold_cranking"));
    EXPECT_FALSE(has(paths(in, "G2"), "take_off")) << "it is no bank";
}

TEST(Fields, AWordIsChosenFromThoseThereAre) {
    const plan::Installation in = drawn();
    for (const ui::Field& one : ui::fields_of(in, plan::Subject::of(plan::find(in, "F1")->id))) {
        if (one.path == "type") {
            EXPECT_EQ(one.text, "ISO8820-3-C");
            const auto at = std::find_if(one.words.begin(), one.words.end(),
                                         [&](const ui::Word& w) { return w.value == one.text; });
            ASSERT_NE(at, one.words.end());
            EXPECT_EQ(at->shown, QStringLiteral("blade standard"));
        }
        if (one.path == "fitted") {
            EXPECT_EQ(one.words.size(), 2U);
        }
        if (!one.words.empty()) { // what stands is one of them
            EXPECT_TRUE(std::any_of(one.words.begin(), one.words.end(), [&](const ui::Word& w) {
                return w.value == one.text;
            })) << one.path;
        }
    }
}

TEST(Fields, StepsGoThroughStandardRows) {
    const plan::Installation in = drawn();
    const auto w1 = plan::Subject::of(plan::find_conductor(in, "W1")->id);
    const auto f1 = plan::Subject::of(plan::find(in, "F1")->id);
    const auto sizes = ui::steps_of(in, w1, "size");
    EXPECT_EQ(stepped("2.5 mm²", sizes, 1), "4 mm²"); // IEC 60228
    EXPECT_EQ(stepped("2.5 mm²", sizes, -1), "1.5 mm²");
    EXPECT_EQ(stepped("3 mm²", sizes, 1), "4 mm²");
    EXPECT_EQ(stepped("3 mm²", sizes, -1), "2.5 mm²");
    EXPECT_EQ(stepped("", sizes, 1), sizes.front());
    EXPECT_EQ(stepped(sizes.back(), sizes, 1), sizes.back());
    EXPECT_EQ(stepped(sizes.front(), sizes, -1), sizes.front());
    EXPECT_EQ(stepped("10 A", ui::steps_of(in, f1, "rating"), 1), "15 A"); // ISO 8820-3 type C
    EXPECT_TRUE(ui::steps_of(in, w1, "length").empty());
}

TEST(Fields, OtherwiseTheLastDigitIsStepped) {
    const struct {
        const char *text, *up, *down;
    } all[] = {{"2.5 m", "2.6 m", "2.4 m"},
               {"5 m", "6 m", "4 m"},
               {"0 A", "1 A", "0 A"},
               {"0.05 A", "0.06 A", "0.04 A"},
               {"9.9 V", "10.0 V", "9.8 V"},
               {"2", "3", "1"},
               {"", "", ""},
               {"not a number", "not a number", "not a number"}};
    for (const auto& one : all) {
        EXPECT_EQ(stepped(one.text, {}, 1), one.up) << one.text;
        EXPECT_EQ(stepped(one.text, {}, -1), one.down) << one.text;
    }
}

} // namespace
