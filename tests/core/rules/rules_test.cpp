#include "core/assess/assess.h"
#include "core/rules/look.h"
#include "core/rules/rules.h"
#include "tests/support/case.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <set>

using namespace fl;
using rules::Finding;
using rules::Grade;

namespace {

plan::Installation installation(std::string_view text) {
    test::Case read = test::read_case(std::string(text) + "expect only 0 findings\n");
    EXPECT_THAT(read.problems, testing::IsEmpty());
    return read.installation;
}

constexpr std::string_view one_lamp = R"(
rules     van 12V
battery   G1 agm service 12V 100Ah resistance=15mohm
load      E1 5A "Lamp" purpose=lamp
wire      W1 G1:+ E1:+ 3m 4mm2
return    W2 E1:- G1:- 3m 4mm2
fuse      F1 ISO8820-3-C 10A on=W1 at=0.2m
)";

/// The assessment as facts, to be looked at with something changed.
struct Look {
    explicit Look(std::string_view text)
        : a(assess::assess(installation(text)))
        , conditions(a->conditions)
        , set(*catalogue::rule_set(a->installation.basis.rule_set)) {}
    rules::Facts facts() const {
        return {a->installation, set,           a->network, conditions, a->envelope,
                a->may_carry,    a->placements, a->faults,  a->circuits};
    }
    std::shared_ptr<const assess::Assessment> a;
    std::vector<condition::Solved> conditions;
    catalogue::RuleSet set;
};

std::vector<std::string> codes(const std::vector<Finding>& findings) {
    std::vector<std::string> all;
    for (const Finding& f : findings) all.push_back(f.code);
    return all;
}

} // namespace

TEST(Rules, EveryFindingHasACaseThatBreaksItAndOneThatJustDoesNot) {
    // No drawing is known for which the solver finds nothing; below it is made to say so.
    const std::set<std::string> by_hand{"no-operating-point", "solve.opposed"};
    for (const auto& row : rules::records()) {
        if (row.list != rules::RecordList::findings || by_hand.contains(row.code)) continue;
        for (const char* end : {"-breaks.case", "-just-not.case"})
            EXPECT_TRUE(std::filesystem::exists(std::string(FL_SOURCE_DIR) + "/tests/fixtures/rules/" +
                                                row.code + end))
                << row.code << end;
    }
}

TEST(Rules, SaysWhereNoSteadyStateIsKnown) {
    Look look(one_lamp);
    EXPECT_THAT(codes(rules::findings(look.facts())), testing::IsEmpty());
    look.conditions[0].solution.usable = false;
    const auto found = rules::findings(look.facts());
    ASSERT_THAT(codes(found), testing::ElementsAre("no-operating-point"));
    EXPECT_EQ(found[0].condition, look.conditions[0].condition.name);
    EXPECT_EQ(found[0].grade, Grade::fail);
}

TEST(Rules, NamesWhatWorksAgainstASource) {
    // Every source of a drawing has some resistance, so that none can oppose another; here the fuse is made
    // to close such a loop.
    Look look(one_lamp);
    auto& solution = look.conditions[0].solution;
    int fuse = -1;
    for (std::size_t b = 0; b < look.a->network.branches.size(); ++b)
        if (look.a->network.branches[b].kind == network::BranchKind::fuse) fuse = static_cast<int>(b);
    ASSERT_GE(fuse, 0);
    solution.usable = false;
    solve::Verdict opposed;
    opposed.code = solve::VerdictCode::opposed_sources;
    opposed.subject = {solve::ElementKind::resistor, fuse};
    solution.verdicts.push_back(opposed);
    const auto found = rules::findings(look.facts());
    ASSERT_THAT(codes(found), testing::ElementsAre("solve.opposed")); // and not that nothing is known besides
    EXPECT_EQ(found[0].subjects.front(), plan::Subject::of(plan::find(look.a->installation, "F1")->id));
    EXPECT_EQ(found[0].grade, Grade::fail);
}

TEST(Rules, SortsTheWorstFirst) {
    const auto found = assess::assess(installation(R"(
rules     van 12V
battery   G1 agm service 12V 100Ah resistance=15mohm
load      E1 5A "Lamp" purpose=lamp
load      E2 12A "Heater" purpose=heater
load      E3 5A "Fan" purpose=fan
wire      W1 G1:+ E1:+ 3m 4mm2
return    W2 E1:- G1:- 3m 4mm2
wire      W3 G1:+ E2:+ 2m 4mm2
return    W4 E2:- G1:- 2m 4mm2
wire      W5 G1:+ E3:+ 2m 4mm2
return    W6 E3:- G1:- 2m 4mm2
fuse      F1 ISO8820-3-C 10A on=W3 at=0.2m
fuse      F2 ISO8820-3-C 10A on=W5 at=0.9m
)"))
                           ->findings;
    EXPECT_THAT(codes(found),
                testing::ElementsAre("unprotected-conductor", "device-below-current", "fuse-too-far"));
    EXPECT_TRUE(assess::objects(found));
}

TEST(Rules, AnOldLeadWithoutAFuseIsNotOursToJudge) {
    const Look look(R"(
rules     van 12V
battery   G1 lead starter 12V 80Ah resistance=15mohm origin=as_found
load      E1 5A "Lamp" purpose=lamp origin=as_found
wire      W1 G1:+ E1:+ 3m 1.5mm2 origin=as_found
return    W2 E1:- G1:- 3m 1.5mm2 origin=as_found
)");
    EXPECT_THAT(codes(look.a->findings), testing::IsEmpty());
}

TEST(Rules, NewWorkChangesWhatLiesOnALoopWithIt) {
    const Look look(R"(
rules     van 12V
battery   G1 lead starter 12V 80Ah resistance=15mohm origin=as_found
joint     X1 origin=as_found
load      E1 5A "Old lamp" purpose=lamp origin=as_found
load      E2 5A "New lamp" purpose=lamp
wire      W1 G1:+ X1:1 1m 4mm2 origin=as_found
wire      W2 X1:1 E1:+ 1m 4mm2 origin=as_found
return    W3 E1:- G1:- 1m 4mm2 origin=as_found
wire      W4 X1:1 E2:+ 1m 4mm2
return    W5 E2:- G1:- 1m 4mm2
load      E3 1A "Apart" origin=as_found
battery   G2 lead starter 12V 40Ah origin=as_found
wire      W6 G2:+ E3:+ 1m 4mm2 origin=as_found
return    W7 E3:- G2:- 1m 4mm2 origin=as_found
)");
    const auto changed = rules::changed_by_new_work(look.facts());
    const auto is_changed = [&](std::string_view name) {
        const auto* c = plan::find_conductor(look.a->installation, name);
        return bool(changed[rules::at(look.a->network.branch_of(c->id))]);
    };
    EXPECT_TRUE(is_changed("W1")) << "the new lamp's current goes over the old feeder";
    EXPECT_TRUE(is_changed("W2")) << "and moves the voltage at the old lamp";
    EXPECT_TRUE(is_changed("W4"));
    EXPECT_FALSE(is_changed("W6")) << "another battery's";
}

TEST(Rules, AMustIsOneOfTheChosenSetAndOfATextThatWasRead) {
    Look look(one_lamp);
    const auto in = [&](const char* set, const char* code) {
        look.set = *catalogue::rule_set(set);
        return rules::make(look.facts(), code);
    };
    // 33 CFR 183.455(a) was read; the van's text says "as close as possible" and is no must.
    EXPECT_TRUE(in("craft-us", "unprotected-conductor").must);
    EXPECT_THAT(in("craft-us", "unprotected-conductor").source, testing::HasSubstr("183.455(a)"));
    EXPECT_FALSE(in("van", "unprotected-conductor").must);
    // ISO 13297's length is from memory: against the rules, but never a must.
    EXPECT_EQ(in("craft-eu", "fuse-too-far").grade, Grade::against_rules);
    EXPECT_FALSE(in("craft-eu", "fuse-too-far").must);
    EXPECT_EQ(in("van", "fuse-too-far").grade, Grade::against_rules)
        << "a limit of the chosen set is its rule";
    EXPECT_FALSE(in("van", "fuse-too-far").must) << "but common practice is no must";
    EXPECT_TRUE(in("leisure-us", "fuse-too-far").must);
}

TEST(Rules, AsksEachValueOnce) {
    const Look look(R"(
rules     van 12V
battery   G1 lithium service 12V 100Ah resistance=assumed:15mohm
load      E1 "Lamp" purpose=lamp
wire      W1 G1:+ E1:+ 3m 4mm2
return    W2 E1:- G1:- length=? 4mm2
fuse      F1 ISO8820-3-C 10A on=W1 at=0.2m
)");
    const auto questions = rules::open_questions(look.facts());
    std::set<std::pair<plan::Subject, std::string>> seen;
    for (const auto& q : questions) EXPECT_TRUE(seen.emplace(q.subject, q.field).second) << q.field;
    const auto has = [&](std::string_view field, bool decides) {
        return std::any_of(questions.begin(), questions.end(), [&](const rules::OpenQuestion& q) {
            return q.field == field && q.decides == decides;
        });
    };
    EXPECT_TRUE(has("low_temperature_protection", true));
    EXPECT_TRUE(has("current", true));
    EXPECT_TRUE(has("length", false)) << "a return's length only makes the drop";
    EXPECT_TRUE(has("resistance", false)) << "assumed";
    EXPECT_TRUE(std::is_sorted(questions.begin(), questions.end(),
                               [](const auto& x, const auto& y) { return x.decides > y.decides; }));
}

TEST(Rules, SiteChecksAreAskedOnceWithTheirPlaces) {
    const Look look(one_lamp);
    std::set<std::string> seen;
    for (const auto& c : look.a->site_checks) {
        EXPECT_TRUE(seen.insert(c.code).second) << c.code;
        EXPECT_FALSE(c.subjects.empty()) << c.code;
    }
    EXPECT_TRUE(seen.contains("site-lead-vents"));
    EXPECT_FALSE(seen.contains("site-lithium-cold")) << "no lithium is drawn";
    EXPECT_FALSE(seen.contains("site-grommets")) << "no run passes anything";
}
