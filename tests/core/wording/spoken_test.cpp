#include "core/assess/assess.h"
#include "core/quantity/limit.h"
#include "core/rules/record.h"
#include "core/wording/wording.h"
#include "tests/support/any_installation.h"
#include "tests/support/case.h"
#include "tests/support/property.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <set>
#include <string>
#include <vector>

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

/// Numbers with their units, as they stand in a sentence: "112.5 A", "5 %".
std::vector<std::string> figures(const std::string& said) {
    std::vector<std::string> all;
    for (std::size_t i = 0; i < said.size();) {
        const auto digit = [&](std::size_t k) { return k < said.size() && said[k] >= '0' && said[k] <= '9'; };
        if (!digit(i) || (i > 0 && said[i - 1] != ' ')) {
            ++i;
            continue;
        }
        std::size_t end = i;
        while (digit(end) || (end < said.size() && said[end] == '.' && digit(end + 1))) ++end;
        const std::size_t unit = end + 1;
        if (end < said.size() && said[end] == ' ') {
            end = unit;
            while (end < said.size() && std::string_view(" ,.;:!?").find(said[end]) == std::string_view::npos)
                ++end;
        }
        all.push_back(said.substr(i, end - i));
        i = end;
    }
    return all;
}

/// How many different values of the finding are written like this.
std::size_t written_like(const rules::Finding& f, const std::string& figure) {
    std::vector<derive::Value> those;
    for (const auto& [key, value] : f.values)
        for (int more = 0; more <= 4; ++more)
            if (wording::text(value, {'.', more}) == figure &&
                std::find(those.begin(), those.end(), value) == those.end())
                those.push_back(value);
    return those.size();
}

/// What a finding holds against what: the first is to be above the second.
struct Compared {
    const char *code, *value, *limit;
};
constexpr Compared compared[] = {
    {"alternator-overloaded", "asked", "hot"},
    {"above-battery-electronics", "current", "limit"},
    {"charge-rate-too-high", "current", "limit"},
    {"breaking-capacity-low", "fault_current", "capacity"},
    {"conductor-overheats", "current", "may_carry"},
    {"devices-add-up", "sum", "allowed"},
    {"drop-too-large", "share", "limit"},
    {"fuse-too-far", "length", "limit"},
    {"device-voltage-low", "highest", "voltage"},
    {"device-below-current", "above", "rating"},
};

double number(const derive::Value& value) {
    return std::visit(
        [](const auto& v) {
            if constexpr (requires { v.si(); })
                return static_cast<double>(v.si());
            else
                return 0.0;
        },
        value);
}

/// No number is said to be above one that is written just like it.
void tells_numbers_apart(const rules::Finding& f, const plan::Installation& in) {
    const std::string said = wording::sentence(f, in);
    auto all = figures(said);
    std::sort(all.begin(), all.end());
    for (auto twice = std::adjacent_find(all.begin(), all.end()); twice != all.end();
         twice = std::adjacent_find(std::next(twice), all.end()))
        EXPECT_LE(written_like(f, *twice), 1u) << *twice << " in: " << said;
    for (const Compared& c : compared) {
        if (f.code != c.code || !f.values.contains(c.value) || !f.values.contains(c.limit)) continue;
        EXPECT_TRUE(above(number(f.values.at(c.value)), number(f.values.at(c.limit)))) << said;
    }
}

} // namespace

TEST(Spoken, FiguresAreFoundInASentence) {
    EXPECT_THAT(figures("F4: 112.503 A asked, hot 112.5 A; fit 6 mm² within 5 %."),
                testing::ElementsAre("112.503 A", "112.5 A", "6 mm²", "5 %"));
}

/// In every fixture: a limit is passed by something that can be seen in the sentence.
TEST(Spoken, NoNumberIsAboveItsEqual) {
    int findings = 0;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(
             std::filesystem::path(FL_SOURCE_DIR) / "tests/fixtures")) {
        if (entry.path().extension() != ".case") continue;
        const auto read = test::read_case(
            test::source_file(std::filesystem::relative(entry.path(), FL_SOURCE_DIR).generic_string()));
        const auto a = assess::assess(read.installation);
        for (const auto& f : a->findings) ++findings, tells_numbers_apart(f, read.installation);
    }
    EXPECT_GT(findings, 50);
}

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
            tells_numbers_apart(f, in);
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
