#include "core/assess/assess.h"
#include "core/rules/record.h"
#include "core/wording/wording.h"
#include "tests/support/any_installation.h"
#include "tests/support/property.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

using namespace fl;

namespace {

bool there(const plan::Installation& in, const plan::Subject& s) {
    using Kind = plan::Subject::Kind;
    return (s.kind == Kind::component && in.components.find({s.id})) ||
           (s.kind == Kind::conductor && in.conductors.find({s.id})) ||
           (s.kind == Kind::condition && in.conditions.find({s.id})) ||
           (s.kind == Kind::run && in.runs.find({s.id}));
}

std::set<std::string> keys(const rules::Finding& f) {
    std::set<std::string> all;
    for (const auto& [key, value] : f.values) all.insert(key);
    return all;
}

} // namespace

/// Whatever is drawn: each finding names things that exist, with values its record lists, and can be spoken.
TEST(Spoken, WhatIsFoundInRandomJobs) {
    std::map<std::string, int> met;
    const auto sets = catalogue::rule_set_ids();
    const int count = test::deep(400);
    for (int seed = 0; seed < count; ++seed) {
        auto in = test::any_installation(static_cast<std::uint32_t>(seed), 4 + seed % 40);
        in.basis.rule_set = sets[static_cast<std::size_t>(seed) % sets.size()];
        const auto a = assess::assess(in);
        for (const auto& f : a->findings) {
            ++met[f.code];
            const auto& row = rules::record(f.code);
            const std::set<std::string> may(row.values.begin(), row.values.end());
            EXPECT_THAT(keys(f),
                        testing::Each(testing::Truly([&](const auto& k) { return may.contains(k); })))
                << f.code;
            for (const auto& s : f.subjects) EXPECT_TRUE(there(in, s)) << f.code << " in " << seed;
            const std::string said = wording::sentence(f, in);
            EXPECT_GT(said.size(), 30u) << f.code;
            EXPECT_EQ(said.find("not known V"), std::string::npos) << said;
        }
        for (const auto& q : a->open_questions) {
            EXPECT_TRUE(there(in, q.subject)) << q.field;
            EXPECT_FALSE(wording::sentence(q, in).empty());
            EXPECT_EQ(wording::field(q.field).find('_'), std::string::npos) << q.field << " has no name";
        }
        for (const auto& c : a->site_checks) EXPECT_FALSE(wording::sentence(c, in).empty());
        EXPECT_TRUE(std::is_sorted(a->findings.begin(), a->findings.end(),
                                   [](const auto& x, const auto& y) { return x.grade < y.grade; }));
    }
    test::say_ran(count);
    for (const auto& [code, n] : met) std::printf("  %-34s %d\n", code.c_str(), n);
    EXPECT_GE(met.size(), 8u) << "a generator that finds nothing tests nothing";
}
