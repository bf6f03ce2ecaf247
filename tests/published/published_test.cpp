#include "tests/published/functions.h"
#include "tests/published/row.h"

#include <gtest/gtest.h>

#include <iostream>
#include <map>
#include <set>

using namespace fl::published;

namespace {

TEST(Published, TheProductAgreesWithPrint) {
    struct Count {
        int rows = 0, lookups = 0, misprints = 0;
    };
    std::map<std::string, Count> by_source;
    std::map<int, int> by_digits;
    int rows = 0, worked = 0;
    for (const Row& row : all_rows()) {
        SCOPED_TRACE(row.id + ", " + row.source);
        ++rows;
        worked += !row.lookup;
        Count& count = by_source[row.source];
        ++count.rows;
        count.lookups += row.lookup;
        count.misprints += row.misprint;
        Answer got;
        try {
            got = answer(row);
        } catch (const std::exception& bad) {
            ADD_FAILURE() << row.id << ": " << bad.what();
            continue;
        }
        if (row.misprint) {
            EXPECT_FALSE(agrees(row, got)) << row.id << ": agrees with a misprint, " << row.result;
            continue;
        }
        EXPECT_TRUE(agrees(row, got))
            << row.id << ": printed " << row.result << " " << row.unit << ", got " << shown(row, got);
        if (row.number) ++by_digits[digits(row.result)];
    }
    for (const auto& [source, count] : by_source)
        std::cout << "published: " << count.rows << " rows (" << count.lookups << " look-ups, "
                  << count.misprints << " misprints) from " << source << "\n";
    for (const auto& [n, count] : by_digits)
        std::cout << "published: " << count << " agree to " << n << " digits\n";
    std::cout << "published: " << rows << " rows, " << worked << " of them worked out\n";
    EXPECT_GE(rows, 80);
    EXPECT_GE(worked, 35);
}

TEST(Published, EveryTableIsLookedUpFiveTimes) {
    std::map<std::string, int> looked_up;
    for (const Row& row : all_rows())
        if (row.lookup) ++looked_up[row.source];
    EXPECT_GE(looked_up.size(), 5u);
    for (const auto& [source, count] : looked_up) EXPECT_GE(count, 5) << source;
}

TEST(Published, EveryExampleIsUsedOrExcused) {
    const NotUsed list = not_used();
    const std::set<std::string> series(list.series.begin(), list.series.end());
    EXPECT_EQ(series.size(), list.series.size()) << "an id stands twice";
    std::set<std::string> used, excused, seen;
    for (const Row& row : all_rows()) {
        EXPECT_TRUE(seen.insert(row.id).second) << row.id << " stands twice";
        used.insert(example(row.id));
    }
    for (const auto& reason : list.reasons) {
        EXPECT_FALSE(reason.why.empty());
        for (const std::string& id : reason.ids)
            EXPECT_TRUE(excused.insert(id).second) << id << " is excused twice";
    }
    for (const std::string& id : series)
        EXPECT_NE(used.contains(id), excused.contains(id))
            << id << (used.contains(id) ? " is used and excused" : " is neither used nor excused");
    for (const std::string& id : excused) EXPECT_TRUE(series.contains(id)) << id << " is in no series";
    for (const auto& figure : list.left_out) {
        EXPECT_TRUE(used.contains(figure.of)) << figure.of << ": a figure of an example that is not used";
        EXPECT_FALSE(figure.what.empty() || figure.why.empty()) << figure.of;
    }
    std::cout << "published: " << series.size() << " worked examples, " << excused.size()
              << " of them not used, " << list.left_out.size() << " figures of used ones left out\n";
}

// The judge itself, by hand.
TEST(Published, RoundsToWhatIsPrinted) {
    EXPECT_TRUE(agrees(0.9416, "0.942"));
    EXPECT_FALSE(agrees(0.9414, "0.942"));
    EXPECT_TRUE(agrees(12.4, "12"));
    EXPECT_FALSE(agrees(12.6, "12"));
    EXPECT_TRUE(agrees(16.775, "16.78")); // a half may go up
    EXPECT_FALSE(agrees(3.992, "4.00"));
    EXPECT_TRUE(agrees(3.992, "4.0"));
    EXPECT_EQ(digits("0.0320"), 3);
    EXPECT_EQ(digits("116035"), 6);
    EXPECT_EQ(decimals("0.0320"), 4);
    EXPECT_EQ(example("E14.a"), "E14");
}

Row plain_row() {
    // by hand: 1 ohm·mm²/m over 2 m and 4 mm² is 0.5 ohm
    Row row;
    row.function = "sizing.plain_resistance";
    row.inputs = {{"area", "4 mm2"}, {"length", "2 m"}, {"rho", "1 ohm.mm2/m"}};
    row.result = "0.50";
    row.unit = "ohm";
    return row;
}

TEST(Published, ARowThatIsNotRightFails) {
    Row row = plain_row();
    EXPECT_TRUE(agrees(row, answer(row)));
    row.result = "0.51";
    EXPECT_FALSE(agrees(row, answer(row)));
    row = plain_row();
    row.number = false; // a number is no text
    EXPECT_FALSE(agrees(row, answer(row)));
    row = plain_row();
    row.function = "sizing.plain_resistanc";
    EXPECT_THROW(answer(row), BadRow);
    row = plain_row();
    row.inputs["colour"] = "red"; // read by nothing
    EXPECT_THROW(answer(row), BadRow);
    row = plain_row();
    row.inputs.erase("rho");
    EXPECT_THROW(answer(row), BadRow);
    row = plain_row();
    row.inputs["area"] = "4 acres";
    EXPECT_THROW(answer(row), BadRow);
}

} // namespace
