#include "core/plan/installation.h"
#include "core/rules/names.h"
#include "core/rules/record.h"
#include "core/wording/wording.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>

using namespace fl;
using rules::Finding;
using testing::HasSubstr;

namespace {

plan::Installation job() {
    plan::Installation in;
    plan::Component battery{{1}, "G2", "Service battery", {}, {}, plan::Battery{}, {}, {}};
    plan::FuseBox ways;
    ways.ways.resize(3);
    ways.ways[1].label = "Fridge";
    plan::Component box{{2}, "F5", "Fuse box", {}, {}, ways, {}, {}};
    plan::Component fuse{{3}, "F4", "Fridge", {}, {}, plan::Fuse{}, {}, {}};
    plan::Conductor wire;
    wire.id = {4};
    wire.designation = "W2";
    wire.from = {{1}, "+"};
    wire.to = {{3}, "1"};
    in.components = Table<plan::Component>::of({battery, box, fuse});
    in.conductors = Table<plan::Conductor>::of({wire});
    return in;
}

/// A value that a sentence can show, for a parameter of any name.
derive::Value some(const std::string& name) {
    static const std::set<std::string> counts{"loads", "circuits", "more", "others"};
    static const std::set<std::string> words{"source",   "other",    "device",  "conductor",
                                             "limiting", "worst",    "battery", "largest",
                                             "shunt",    "terminal", "at",      "before"};
    if (counts.contains(name)) return std::int64_t{4};
    if (words.contains(name)) return std::string("G2");
    if (name.ends_with("after")) return 8_s;
    if (name == "size" || name == "fit_size") return WireSize::mm2(6);
    return 12_A;
}

/// The code's own page: its name as heading, and something to read.
bool has_page(const std::string& code) {
    std::ifstream page(std::string(FL_SOURCE_DIR) + "/docs/codes/" + code + ".md");
    const std::string text{std::istreambuf_iterator<char>(page), {}};
    return text.starts_with("# " + code + "\n") && text.size() > 300;
}

} // namespace

TEST(Wording, EveryCodeHasASentenceATitleAndAPageInEachLanguage) {
    const auto codes = rules::all_codes();
    ASSERT_GE(codes.size(), 25u);
    ASSERT_FALSE(wording::languages().empty());
    EXPECT_EQ(wording::languages().front(), "en");
    for (const auto language : wording::languages()) {
        EXPECT_THAT(wording::faults(language), testing::IsEmpty()) << language;
        for (const auto& code : codes) EXPECT_NE(wording::title(code, language), code) << language;
    }
    for (const auto& code : codes) EXPECT_TRUE(has_page(code)) << code;
}

TEST(Wording, SentencesUseEveryValueOfTheirRecordAndNoOther) {
    const std::set<std::string> always{"place", "touched", "places", "condition", "when"};
    for (const auto language : wording::languages())
        for (const auto& row : rules::records()) {
            auto used = wording::placeholders(row.code, language);
            std::set<std::string> given(row.values.begin(), row.values.end());
            if (row.list == rules::RecordList::open_questions) given = {"field", "value", "decides"};
            if (row.code == "missing") given.erase("value");
            for (const auto& name : always) used.erase(name);
            EXPECT_EQ(used, given) << language << " " << row.code;
        }
}

TEST(Wording, NoGapIsLeftWhateverIsKnown) {
    const auto in = job();
    for (const auto language : wording::languages())
        for (const auto& row : rules::records()) {
            if (row.list != rules::RecordList::findings) continue;
            Finding f;
            f.code = row.code;
            f.subjects = {plan::Subject::of(plan::ComponentId{3}), plan::Subject::of(plan::ConductorId{4})};
            f.condition = "cruise";
            // With nothing known, with each value alone left out, and with all.
            std::vector<std::map<std::string, derive::Value>> trials{{}};
            for (std::size_t without = 0; without <= row.values.size(); ++without) {
                trials.emplace_back();
                for (std::size_t i = 0; i < row.values.size(); ++i)
                    if (i != without) trials.back()[row.values[i]] = some(row.values[i]);
            }
            for (const auto& values : trials) {
                f.values = values;
                const std::string said = wording::sentence(f, in, {}, language);
                EXPECT_THAT(said, testing::Not(testing::AnyOf(HasSubstr("{"), HasSubstr("}"), HasSubstr("|"),
                                                              HasSubstr("  "), HasSubstr("#"))))
                    << row.code;
            }
            EXPECT_TRUE(wording::sentence(f, in, {}, language).ends_with(".")) << row.code;
            EXPECT_GT(wording::sentence(f, in, {}, language).size(), 30u) << row.code;
        }
}

TEST(Wording, AFindingSaysPlaceWhatHappensNumberCure) {
    Finding f;
    f.code = "device-above-conductor";
    f.subjects = {plan::Subject::of(plan::ComponentId{3}), plan::Subject::of(plan::ConductorId{4})};
    f.values = {{"rating", 15_A},      {"conductor", std::string("W2")},
                {"may_carry", 11_A},   {"size", WireSize::mm2(1)},
                {"opens_after", 50_s}, {"smokes_after", 8_s},
                {"fit", 10_A}};
    EXPECT_EQ(
        wording::sentence(f, job()),
        "F4 Fridge: if W2 is pinched, 15 A may need 50 s to open; the wire smokes after 8 s. Fit 10 A.");
    f.values.erase("opens_after");
    f.values.erase("fit");
    f.values["fit_size"] = WireSize::mm2(2.5);
    f.values["may_carry"] = 11.5_A;
    EXPECT_EQ(wording::sentence(f, job(), Style{','}),
              "F4 Fridge: 15 A lets W2, 1 mm², run hot: it may carry 11,5 A, and nothing opens at more. "
              "Fit 2,5 mm² for W2.");
}

TEST(Wording, NamesPlacesInFull) {
    const auto in = job();
    EXPECT_EQ(wording::name(plan::Subject::of(plan::ComponentId{2}, "2"), in), "F5 way 2 Fridge");
    EXPECT_EQ(wording::name(plan::Subject::of(plan::ConductorId{4}), in), "W2 (G2 to F4)");
    Finding f;
    f.code = "fuse-too-far";
    f.subjects = {plan::Subject::of(plan::ComponentId{2}, "2")};
    f.values = {{"source", std::string("G2")}, {"length", 1.2_m}, {"limit", 0.3_m}};
    EXPECT_EQ(
        wording::sentence(f, in),
        "F5 way 2 Fridge: 1.2 m of cable from G2 Service battery, and 0.3 m is the most. A short on the way "
        "meets no fuse. Move it nearer to G2 Service battery.");
}

TEST(Wording, CountsOneAndMany) {
    Finding f;
    f.code = "drop-too-large";
    f.subjects = {plan::Subject::of(plan::ConductorId{4})};
    f.values = {{"loads", std::int64_t{1}},
                {"worst", std::string("F4")},
                {"drop", 0.84_V},
                {"share", Ratio::si(0.07)},
                {"limit", Ratio::si(0.05)}};
    EXPECT_THAT(wording::sentence(f, job()), HasSubstr("1 thing behind it"));
    f.values["loads"] = std::int64_t{4};
    EXPECT_THAT(wording::sentence(f, job()), HasSubstr("4 things behind it"));
}

TEST(Wording, OpenQuestionsAreOneLine) {
    std::vector<rules::OpenQuestion> questions(9);
    EXPECT_EQ(wording::summary(questions), "9 values assumed or not known, none can change a result");
    questions[0].decides = questions[1].decides = true;
    EXPECT_EQ(wording::summary(questions), "9 values assumed or not known, 2 can change a result");
    EXPECT_EQ(wording::summary({}), "");
    const rules::OpenQuestion length{"missing", plan::Subject::of(plan::ConductorId{4}), "length", {}, true};
    EXPECT_EQ(wording::sentence(length, job()), "W2 (G2 to F4): length not known. It can change a result.");
    const rules::OpenQuestion rating{"assumed", plan::Subject::of(plan::ComponentId{2}), "ways.2.rating",
                                     15_A, false};
    EXPECT_EQ(wording::sentence(rating, job()), "F5 Fuse box: way 2: rating taken as 15 A.");
}

TEST(Wording, SiteChecksNameAtMostFourPlacesAndCountTheRest) {
    rules::SiteCheck check;
    check.code = "site-torque";
    check.subjects.assign(7, plan::Subject::of(plan::ComponentId{1}));
    EXPECT_THAT(wording::sentence(check, job()), HasSubstr("G2 Service battery and 3 more"));
    check.subjects.resize(2);
    EXPECT_THAT(wording::sentence(check, job()), HasSubstr("at G2 Service battery and G2 Service battery."));
}

TEST(Wording, TellsApartWhatItCompares) {
    // A drop of 5.03 % and a limit of 5 % are both "5 %" in the usual digits.
    Finding f;
    f.code = "drop-too-large";
    f.subjects = {plan::Subject::of(plan::ComponentId{3})};
    f.values = {{"drop", Voltage::si(0.6036)}, {"share", Ratio::si(0.0503)}, {"limit", Ratio::si(0.05)}};
    EXPECT_THAT(wording::sentence(f, job()), HasSubstr("5.03 %; 5 % is the most"));
    f.values["share"] = Ratio::si(0.062);
    EXPECT_THAT(wording::sentence(f, job()), HasSubstr("6.2 %; 5 % is the most"));
    // Equal but for the last bits: no digits that mean nothing.
    f.values["share"] = Ratio::si(std::nextafter(0.05, 1.0));
    EXPECT_THAT(wording::sentence(f, job()), HasSubstr("5 %; 5 % is the most"));
    Finding hot;
    hot.code = "conductor-overheats";
    hot.subjects = {plan::Subject::of(plan::ConductorId{4})};
    hot.values = {
        {"current", Current::si(13.12)}, {"size", WireSize::mm2(1)}, {"may_carry", Current::si(13.08)}};
    EXPECT_THAT(wording::sentence(hot, job()), HasSubstr("13.12 A"));
    EXPECT_THAT(wording::sentence(hot, job()), HasSubstr("13.08 A"));
}

TEST(Wording, EnglishServesWhereALanguageIsNotThere) {
    EXPECT_EQ(wording::grade(rules::Grade::burn, "xx"), "can burn or hurt");
    EXPECT_EQ(wording::grade(rules::Grade::against_rules), "against the chosen rules");
    EXPECT_EQ(wording::condition("lean cruise"), "lean cruise");
    EXPECT_EQ(wording::condition("Winter camp"), "Winter camp") << "the user's own name stays";
    EXPECT_EQ(wording::sentence(Problem{"valid.id", "G2", "is there twice", "another one"}),
              line(Problem{"valid.id", "G2", "is there twice", "another one"}));
}

TEST(Rules, RecordsAreSound) {
    EXPECT_THAT(rules::record_faults(), testing::IsEmpty());
    for (const auto& row : rules::records())
        for (const auto& f : row.follows)
            if (f.must) {
                EXPECT_EQ(f.source.basis, "read") << row.code << ": what was not read is never a must";
            }
}
