// The two demonstration installations: the sound one has nothing to say, the other has ten mistakes, each one
// finding, and mending one removes its finding and adds none.
#include "core/assess/assess.h"
#include "core/base/resource.h"
#include "core/edit/edit.h"
#include "core/file/file.h"
#include "core/plan/names.h"
#include "core/rules/names.h"
#include "tests/support/case.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <set>
#include <string>
#include <tuple>
#include <vector>

using namespace fl;
using plan::Installation;

namespace {

Installation demo(const std::string& name) {
    const auto text = resource("demo/" + name + ".fuseloom");
    EXPECT_TRUE(text) << name;
    const auto loaded = file::load(text.value_or(""));
    EXPECT_TRUE(loaded) << (loaded ? "" : line(loaded.error().front()));
    return loaded.value_or(Installation{});
}

// "code subject grade" of every finding, sorted.
using Said = std::multiset<std::string>;
Said said(const Installation& in) {
    Said all;
    const auto a = assess::assess(in);
    for (const rules::Finding& f : a->findings) {
        std::string subject;
        if (!f.subjects.empty()) {
            const plan::Subject& s = f.subjects.front();
            if (const auto* c = in.components.find({s.id})) subject = c->designation;
            if (const auto* w = in.conductors.find({s.id})) subject = w->designation;
            if (!s.part.empty()) subject += "." + s.part;
        }
        all.insert(f.code + " " + subject + " " + std::string(rules::name(f.grade)));
    }
    return all;
}

TEST(Demo, IsTheDocumentOfItsCase) {
    for (const std::string name : {"bicycle_workshop", "bicycle_workshop_mistakes"}) {
        const auto read = test::read_case(test::source_file("tests/fixtures/demo/" + name + ".case"));
        for (const std::string& problem : read.problems) ADD_FAILURE() << name << ": " << problem;
        EXPECT_EQ(file::save(read.installation).value_or(""),
                  std::string(resource("demo/" + name + ".fuseloom").value_or("")))
            << name << ": the case and the file have parted";
    }
}

TEST(Demo, HoldsEveryKindThatItIsToShow) {
    const Installation in = demo("bicycle_workshop");
    std::set<std::string> names;
    bool starter = false, service = false, controlled = false, master = false;
    double inverter_W = 0, charger_A = 0;
    for (const plan::Component& c : in.components) {
        names.insert(c.name);
        if (const auto* b = std::get_if<plan::Battery>(&c.with)) {
            starter |= b->role == plan::BatteryRole::starter && b->chemistry == plan::Chemistry::lead_flooded;
            service |= b->chemistry == plan::Chemistry::lifepo4 && b->capacity.value == 200_Ah &&
                       b->discharge_limit.value == 150_A;
        }
        if (const auto* a = std::get_if<plan::Alternator>(&c.with))
            controlled |= a->regulation == plan::Regulation::computer_controlled && a->rated.value == 150_A;
        if (const auto* s = std::get_if<plan::Switch>(&c.with)) master |= s->role == plan::SwitchRole::master;
        if (const auto* i = std::get_if<plan::Inverter>(&c.with)) inverter_W = i->rated_power->si();
        if (const auto* t = std::get_if<plan::DriveCharger>(&c.with)) charger_A = t->output_current->si();
    }
    EXPECT_TRUE(starter && service && controlled && master);
    EXPECT_EQ(inverter_W, 1000);
    EXPECT_EQ(charger_A, 40);
    for (const char* name :
         {"Fuse box", "Charger input fuse", "Charger output fuse", "Service battery fuse",
          "Battery monitor shunt", "Fridge", "Lights", "Roof fan", "Water pump", "Tool chargers"})
        EXPECT_TRUE(names.contains(name)) << name;
}

TEST(Demo, ASoundJobShowsNextToNothing) {
    const auto a = assess::assess(demo("bicycle_workshop"));
    EXPECT_FALSE(assess::objects(a->findings));
    for (const rules::Finding& f : a->findings) {
        EXPECT_NE(f.grade, rules::Grade::burn) << f.code;
        EXPECT_NE(f.grade, rules::Grade::fail) << f.code;
    }
    EXPECT_LE(a->findings.size(), 4u); // with the line of open questions at most five
    for (const condition::Solved& s : a->conditions) EXPECT_TRUE(s.solution.usable) << s.condition.name;
}

struct Mistake {
    std::string finding;
    std::function<Result<Installation>(const Installation&)> mend;
};

Result<Installation> set(const Installation& in, const std::string& designation, const char* field,
                         const char* text) {
    const auto* c = plan::find(in, designation);
    const auto* w = plan::find_conductor(in, designation);
    return edit::set(in, c ? plan::Subject::of(c->id) : plan::Subject::of(w->id), field, text);
}

Result<Installation> fuse(const Installation& in, const std::string& wire, const char* type, double amperes,
                          double metres) {
    plan::Component c;
    plan::Fuse f;
    f.type = type;
    f.rating = Current::si(amperes);
    c.with = f;
    return edit::insert(in, plan::find_conductor(in, wire)->id, c, Length::si(metres))
        .map([](edit::Inserted done) { return done.installation; });
}

const std::vector<Mistake>& mistakes() {
    static const std::vector<Mistake> all{
        {"unprotected-conductor W8 burn",
         [](const Installation& in) { return fuse(in, "W8", "UL248-15-T", 175, 0.2); }},
        {"fuse-too-far F1 against",
         [](const Installation& in) {
             return set(in, "W6a", "length", "0.2 m").and_then([](const Installation& next) {
                 return set(next, "W6", "length", "5 m");
             });
         }},
        {"device-above-conductor F6.1 burn",
         [](const Installation& in) { return set(in, "F6", "ways.1.rating", "15 A"); }},
        {"run-signal-always-live T1 fail",
         [](const Installation& in) { return set(in, "W7a", "from", "X5.1"); }},
        {"inverter-return-bypasses-shunt T2 fail",
         [](const Installation& in) { return set(in, "W16", "to", "W21.4"); }},
        {"charger-fuse-by-output F1 fail",
         [](const Installation& in) { return set(in, "F1", "rating", "100 A"); }},
        {"small-lead-unprotected W41 burn",
         [](const Installation& in) { return fuse(in, "W41", "ISO8820-3-C", 1, 0.1); }},
        {"alternator-overloaded G3 fail",
         [](const Installation& in) { return set(in, "T1", "output_current", "50 A"); }},
        {"shared-return-thin W43 burn",
         [](const Installation& in) { return set(in, "W43", "size", "16 mm2"); }},
        {"above-battery-electronics G2 fail",
         [](const Installation& in) { return set(in, "G2", "discharge_limit", "150 A"); }},
    };
    return all;
}

TEST(Demo, EachMistakeIsOneFinding) {
    Said expected;
    for (const Mistake& m : mistakes()) expected.insert(m.finding);
    ASSERT_EQ(expected.size(), 10u);
    EXPECT_EQ(said(demo("bicycle_workshop_mistakes")), expected);
}

class Mended : public ::testing::TestWithParam<std::size_t> {};

TEST_P(Mended, RemovesItsFindingAndAddsNone) {
    const Mistake& mistake = mistakes()[GetParam()];
    const Installation before = demo("bicycle_workshop_mistakes");
    const auto after = mistake.mend(before);
    ASSERT_TRUE(after) << line(after.error());
    const Said was = said(before), is = said(*after);
    EXPECT_FALSE(is.contains(mistake.finding)) << mistake.finding;
    for (const std::string& finding : is) EXPECT_TRUE(was.contains(finding)) << "new: " << finding;
    EXPECT_LT(is.size(), was.size());
}

INSTANTIATE_TEST_SUITE_P(Demo, Mended, ::testing::Range<std::size_t>(0, 10));

TEST(Demo, AllMendedIsSound) {
    Installation in = demo("bicycle_workshop_mistakes");
    for (const Mistake& m : mistakes()) {
        auto next = m.mend(in);
        ASSERT_TRUE(next) << m.finding << ": " << line(next.error());
        in = std::move(*next);
    }
    for (const std::string& finding : said(in)) ADD_FAILURE() << finding;
}

} // namespace
