#include "core/assess/assess.h"
#include "core/wording/wording.h"
#include "tests/support/case.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

using namespace fl;

namespace {

/// A network that has no plain answer, and what is to be said of it.
struct NoAnswer {
    std::string fixture, code, place;
    std::string number; ///< the value that its sentence must show; empty where there is none to say
    std::string cure;   ///< a word of the advice
};

const NoAnswer all[] = {
    {"rules/solve.collapsed-breaks", "solve.collapsed", "E1", "greatest", "thicker"},
    {"solve/inverter-that-can-not-be-fed", "load-starved", "", "greatest", "replace"},
    {"rules/load-starved-breaks", "load-starved", "E1", "reached", "thicker"},
    {"rules/solve.starved-breaks", "solve.starved", "E1", "reached", "thicker"},
    {"rules/not-fed-breaks", "not-fed", "", "loads", "Draw the feed"},
    {"rules/feeds-itself-breaks", "feeds-itself", "T1", "", "Feed it from a source"},
    {"rules/solve.circulates-breaks", "solve.circulates", "T1", "power", "one of them"},
    {"rules/solve.no-resistance-breaks", "solve.no-resistance", "Q2", "", "Enter its"},
    {"rules/solve.hunts-breaks", "solve.hunts", "T1", "with", "run signal"},
    {"rules/solve.two-states-breaks", "solve.two-states", "T1", "", "run signal"},
    {"rules/solve.over-voltage-breaks", "solve.over-voltage", "E1", "reached", "converter"},
    {"rules/solve.opens-current-breaks", "solve.opens-current", "G2", "reached", "less at a time"},
    {"rules/solve.gives-up-breaks", "solve.gives-up", "T1", "limit", "less at a time"},
};

/// No answer is an answer: one sentence (place, number, cure) for each network that can't do what is asked.
TEST(NoAnswer, IsNamedOnceWithItsPlaceItsNumberAndACure) {
    for (const NoAnswer& one : all) {
        SCOPED_TRACE(one.fixture);
        const auto read = test::read_case(test::source_file("tests/fixtures/" + one.fixture + ".case"));
        ASSERT_TRUE(read.problems.empty());
        const auto& in = read.installation;
        const auto a = assess::assess(in);
        const auto is_it = [&](const rules::Finding& f) { return f.code == one.code; };
        const auto found = std::find_if(a->findings.begin(), a->findings.end(), is_it);
        ASSERT_NE(found, a->findings.end()) << one.code;
        if (one.place.empty()) {
            EXPECT_FALSE(found->subjects.empty());
        } else {
            const auto* c = plan::find(in, one.place);
            ASSERT_TRUE(c);
            EXPECT_EQ(found->subjects.front().id, c->id.value);
            // Once for its place, however many conditions say it.
            EXPECT_EQ(std::count_if(a->findings.begin(), a->findings.end(),
                                    [&](const rules::Finding& f) {
                                        return is_it(f) && f.subjects.front().id == c->id.value;
                                    }),
                      1);
        }
        const std::string said = wording::sentence(*found, in);
        EXPECT_EQ(said.find(wording::name(found->subjects.front(), in)), 0u) << said;
        if (!one.number.empty()) {
            ASSERT_TRUE(found->values.contains(one.number)) << said;
            EXPECT_NE(said.find(wording::text(found->values.at(one.number))), std::string::npos) << said;
        }
        EXPECT_NE(said.find(one.cure), std::string::npos) << said;
    }
}

} // namespace
