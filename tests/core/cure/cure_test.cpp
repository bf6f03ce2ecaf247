#include "core/base/resource.h"
#include "core/cure/cure.h"
#include "core/edit/edit.h"
#include "core/file/file.h"
#include "core/wording/wording.h"
#include "tests/support/assessed.h"
#include "tests/support/case.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <iostream>
#include <map>
#include <string>

using namespace fl;

namespace {

plan::Installation drawn(std::string_view text) {
    const auto read = test::read_case(text);
    for (const auto& problem : read.problems) ADD_FAILURE() << problem;
    return read.installation;
}

/// The cure of the first finding of this code, in words; empty where there is none.
std::string said(const plan::Installation& in, std::string_view code) {
    const auto a = assess::assess(in);
    for (const auto& f : a->findings)
        if (f.code == code) {
            const auto one = cure::cure(*a, f);
            return one ? wording::sentence(*one, in) : std::string();
        }
    return "no such finding";
}

constexpr const char* lamp = "rules van 12V ambient=30C\n"
                             "battery G1 agm service 12V 100Ah resistance=15mohm \"Leisure battery\"\n"
                             "load E1 10A \"Lamp\" purpose=lamp\n"
                             "wire W1 G1:+ E1:+ 2m 4mm2\n"
                             "return W2 E1:- G1:- 2m 4mm2\n"
                             "expect only 1 finding\n";

// 10 A / 0.8 = 12.5 A: the next blade is 15 A; 4 mm² carries 34 A. 0.2 m is what is proposed at a battery.
TEST(Cure, PutsAFuseWhereNoneIs) {
    const auto in = drawn(lamp);
    EXPECT_EQ(said(in, "unprotected-conductor"),
              "W1 (G1 to E1): put in 15 A, blade standard, 0.2 m from G1 Leisure battery.");
    const auto a = assess::assess(in);
    const auto one = cure::cure(*a, a->findings.front());
    ASSERT_TRUE(one);
    EXPECT_TRUE(edit::faults(one->after).empty());
    EXPECT_TRUE(assess::assess(one->after)->findings.empty());
    const auto* fuse = plan::find(one->after, "F1");
    ASSERT_TRUE(fuse);
    const auto* near = plan::find_conductor(one->after, "W3");
    ASSERT_TRUE(near);
    EXPECT_EQ(near->length, plan::Entered<Length>(Length::si(0.2)));
}

// A pack gives more than a blade breaks: of the types that carry 15 A or a little more, the first that breaks
// it is proposed.
TEST(Cure, TakesATypeThatBreaksTheShort) {
    const auto in = drawn("rules van 12V ambient=30C\n"
                          "battery G1 lithium service 12V 200Ah electronics=yes discharge_limit=200A "
                          "low_temperature_protection=yes\n"
                          "load E1 30A \"Heater\" purpose=heater\n"
                          "wire W1 G1:+ E1:+ 2m 16mm2\n"
                          "return W2 E1:- G1:- 2m 16mm2\n"
                          "expect only 1 finding\n");
    // Blades break 1 kA, strips and single bolts 2 kA, the stud block 10 kA; 30 A / 0.8 = 37.5 A.
    EXPECT_EQ(said(in, "unprotected-conductor"), "W1 (G1 to E1): put in 40 A, stud block, 0.2 m from G1.");
}

// 1.5 mm² carries 18 A: 15 A, which carries the 5 A that run.
TEST(Cure, MakesARatingSuitItsConductor) {
    const auto in = drawn("rules van 12V ambient=30C\n"
                          "battery G1 agm service 12V 100Ah resistance=15mohm\n"
                          "load E1 5A \"Radio\" purpose=electronics\n"
                          "wire W1 G1:+ E1:+ 2m 1.5mm2\n"
                          "fuse F1 ISO8820-3-C 30A on=W1 at=0.2m\n"
                          "return W2 E1:- G1:- 2m 1.5mm2\n"
                          "expect only 1 finding\n");
    EXPECT_EQ(said(in, "device-above-conductor"), "F1: fit 7.5 A.");
}

// Of what no device cures nothing is said.
TEST(Cure, SaysNothingWhereNothingHelps) {
    const auto in = drawn("rules van 12V ambient=30C\n"
                          "battery G1 agm service 12V 100Ah resistance=15mohm\n"
                          "load E1 12A \"Radio\" purpose=electronics\n"
                          "wire W1 G1:+ E1:+ 9m 1.5mm2\n"
                          "fuse F1 ISO8820-3-C 15A on=W1 at=0.2m\n"
                          "return W2 E1:- G1:- 9m 1.5mm2\n"
                          "expect only 1 finding\n");
    EXPECT_EQ(said(in, "drop-too-large"), "");
}

// Whatever is drawn: a cure leaves a valid document, its finding is gone, and nothing is worse than before.
TEST(Cure, OfEveryFixtureLeavesNothingWorse) {
    std::map<std::string, int> cured, left;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(
             std::filesystem::path(FL_SOURCE_DIR) / "tests/fixtures")) {
        const std::string name = entry.path().filename().string(),
                          folder = entry.path().parent_path().filename();
        if (!name.ends_with(".case") || folder == "solve" || name.starts_with("solve.")) continue;
        const auto read = test::read_case(
            test::source_file(std::filesystem::relative(entry.path(), FL_SOURCE_DIR).generic_string()));
        const auto before = assess::assess(read.installation);
        for (const auto& f : before->findings) {
            const auto one = cure::cure(*before, f);
            ++(one ? cured : left)[f.code];
            if (!one) continue;
            EXPECT_TRUE(edit::faults(one->after).empty()) << entry.path() << " " << f.code;
            const auto after = assess::assess(one->after);
            for (const auto& g : after->findings) {
                EXPECT_FALSE(g.code == f.code && g.subjects.front() == f.subjects.front())
                    << entry.path() << " " << f.code;
                if (g.grade == rules::Grade::practice) continue;
                const auto was = std::find_if(
                    before->findings.begin(), before->findings.end(), [&](const rules::Finding& old) {
                        return old.code == g.code && old.subjects.front() == g.subjects.front();
                    });
                ASSERT_TRUE(was != before->findings.end()) << entry.path() << " " << f.code << ": " << g.code;
                EXPECT_GE(g.grade, was->grade) << entry.path();
            }
            const std::string words = wording::sentence(*one, read.installation);
            EXPECT_TRUE(words.ends_with(".") && words.find('{') == std::string::npos) << words;
        }
    }
    for (const auto& [code, n] : cured)
        std::cout << "[ cured    ] " << code << " " << n << " of " << n + left[code] << "\n";
    for (const char* code :
         {"unprotected-conductor", "unprotected-between-batteries", "device-above-conductor",
          "device-below-current", "never-opens", "opens-in-service", "opens-too-late",
          "breaking-capacity-low", "device-voltage-low", "fuse-too-far"})
        EXPECT_GT(cured[code], 0) << code;
}

// The beginner's van: what a fuse or a rating cures is put right, one step after another; nothing is undone.
TEST(Cure, MendsTheBeginnersVan) {
    const auto in = *file::load(*resource("demo/bicycle_workshop_mistakes.fuseloom"));
    const auto before = assess::assess(in);
    const auto mended = cure::mend(in);
    const auto after = assess::assess(mended.installation);
    EXPECT_GE(mended.done.size(), 3U);
    EXPECT_LE(after->findings.size() + mended.done.size(), before->findings.size());
    for (const auto& [one, was] : mended.done)
        EXPECT_TRUE(wording::sentence(one, was).find('#') == std::string::npos)
            << wording::sentence(one, was);
}

} // namespace
