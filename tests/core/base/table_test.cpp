#include "core/base/table.h"

#include <gtest/gtest.h>

#include <string>

using namespace fl;

namespace {

struct Row {
    Id<Row> id;
    std::string name;
    bool operator==(const Row&) const = default;
};
using Rows = Table<Row>;

TEST(Table, KeepsRowsSortedAndSharesWhatAnEditLeftAlone) {
    const Rows none;
    const Rows one = none.with({{2}, "two"}).with({{1}, "one"});
    ASSERT_EQ(one.size(), 2u);
    EXPECT_EQ(one.begin()->name, "one");
    EXPECT_TRUE(none.empty()) << "an edit makes a new table";
    const Rows two = one.with({{2}, "TWO"});
    EXPECT_EQ(one.find({1}), two.find({1})) << "the same row in memory";
    EXPECT_EQ(one.find({2})->name, "two");
    EXPECT_EQ(two.without({2}).size(), 1u);
    EXPECT_TRUE(two.without({9}).same(two));
    EXPECT_EQ(two.find({9}), nullptr);
}

TEST(Table, DiffNamesAddedRemovedChanged) {
    const Rows before = Rows::of({{{1}, "a"}, {{2}, "b"}, {{4}, "d"}});
    const Rows after = Rows::of({{{1}, "a"}, {{2}, "B"}, {{3}, "c"}});
    const auto d = Rows::diff(before, after);
    EXPECT_EQ(d.added, std::vector{Id<Row>{3}});
    EXPECT_EQ(d.removed, std::vector{Id<Row>{4}});
    EXPECT_EQ(d.changed, std::vector{Id<Row>{2}});
    EXPECT_TRUE(Rows::diff(before, before.with({{1}, "a"})).empty()) << "equal rows are no change";
    EXPECT_EQ(before, before.with({{1}, "a"}));
    EXPECT_NE(before, after);
}

} // namespace
