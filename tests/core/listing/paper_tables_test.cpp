#include "core/listing/conditions.h"
#include "core/listing/tables.h"
#include "tests/support/assessed.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace fl::listing {
namespace {

using test::assessed;

// A battery, a fuse, a pump that only runs for a short time: constant currents in plain copper.
constexpr std::string_view pump = R"(
rules     van 12V plain-copper
battery   G1 lead service 12V 70Ah resistance=10mohm "Service battery"
load      E1 6A "Pump" duty=short on_time=5min
load      E2 9.826A "Lamp"
wire      W10 G1:+ E1:+ 4m 2.5mm2 PVC70
fuse      F2 ISO8820-3-C 7.5A on=W10 at=0.1m "Pump fuse"
return    W2 E1:- G1:- 4m 2.5mm2 PVC70
wire      W9 G1:+ E2:+ 4m 2.5mm2 PVC70
return    W3 E2:- G1:- 4m 2.5mm2 PVC70
condition parked on=E2 engine=off soc=100%
expect    parked W9 current 9.826A
)";

std::string cell_of(const Listing& listing, std::string_view row, std::string_view title) {
    for (std::size_t c = 0; c < listing.columns.size(); ++c)
        for (const auto& cells : listing.rows)
            if (listing.columns[c].title == title && cells[0] == row) return cells[c];
    return "no such cell";
}

TEST(PaperTables, CablesStandByDesignation) {
    const Listing list = cable_list(*assessed(pump));
    std::vector<std::string> order;
    for (const auto& row : list.rows) order.push_back(row[0]);
    EXPECT_EQ(order, (std::vector<std::string>{"W2", "W3", "W9", "W10", "W10a"}));
    EXPECT_EQ(cell_of(list, "W2", "from"), "E1.−");
    EXPECT_EQ(cell_of(list, "W2", "role"), "");
    EXPECT_EQ(cell_of(list, "W2", "length"), "4");
    EXPECT_EQ(cell_of(list, "W2", "insulation"), "PVC 70 °C");
}

TEST(PaperTables, AShortCurrentIsNoNothing) {
    const Listing list = cable_list(*assessed(pump));
    EXPECT_EQ(cell_of(list, "W10", "greatest current"), "6 short");
    EXPECT_EQ(cell_of(list, "W9", "greatest current"), "9.83") << "9.826 A to three digits";
}

TEST(PaperTables, DevicesSayWhatTheyProtect) {
    const Listing list = devices(*assessed(pump));
    ASSERT_EQ(list.rows.size(), 1U);
    EXPECT_EQ(cell_of(list, "F2", "name"), "Pump fuse");
    EXPECT_EQ(cell_of(list, "F2", "rating"), "7.5");
    EXPECT_EQ(cell_of(list, "F2", "greatest current"), "6 short");
    EXPECT_EQ(cell_of(list, "F2", "protects"), "W10") << "the stretch before it hangs on the battery";
}

// A 10 A blade behind a 15 A one: C over C needs 2.8 to 1 (order_test.cpp), so in part only; behind 40 A of
// the slow type (1.6 to 1) at every current. What nothing opens before is empty.
TEST(PaperTables, DevicesSayWhichOpensFirst) {
    const Listing list = devices(*assessed("rules van 12V ambient=30C\n"
                                           "battery G1 agm service 12V 100Ah resistance=15mohm\n"
                                           "load E1 5A Pump\n"
                                           "wire W1 G1:+ E1:+ 3m 10mm2\n"
                                           "fuse F1 ISO8820-3-E 40A on=W1 at=0.1m\n"
                                           "fuse F2 ISO8820-3-C 15A on=W1 at=0.5m\n"
                                           "fuse F3 ISO8820-3-C 10A on=W1 at=0.5m\n"
                                           "return W2 E1:- G1:- 3m 10mm2\n"
                                           "expect only 0 findings\n"));
    ASSERT_EQ(list.rows.size(), 3U);
    EXPECT_EQ(cell_of(list, "F1", "opens before"), "");
    EXPECT_EQ(cell_of(list, "F2", "opens before"), "F1");
    EXPECT_TRUE(cell_of(list, "F3", "opens before").starts_with("F2 up to 1"))
        << cell_of(list, "F3", "opens before");
    EXPECT_EQ(cell_of(list, "F3", "nearest its limit"), "current 62 %") << "5 A of 0.8 · 10 A";
}

TEST(PaperTables, OperatingPointsStandSideBySide) {
    const auto a = assessed(pump);
    const std::vector<Point> all = points(*a);
    ASSERT_EQ(all.size(), 1U) << "one source";
    const Listing list = operating_points(*a, all, {"parked"});
    ASSERT_EQ(list.rows.size(), 1U);
    EXPECT_EQ(list.rows[0][0], letter_of(*a, "parked"));
    EXPECT_EQ(list.rows[0][3], "9.8") << "the lamp alone, as the condition says";
    EXPECT_EQ(operating_points(*a, all).rows.size(), a->conditions.size());
    EXPECT_EQ(letter_of(*a, "no such condition"), "");
    EXPECT_EQ(letter_of(*a, a->conditions.front().condition.name), "a");
}

TEST(PaperTables, DesignationsAreInTheOrderPeopleCount) {
    EXPECT_TRUE(before("W9", "W10"));
    EXPECT_FALSE(before("W10", "W9"));
    EXPECT_TRUE(before("W15", "W15a"));
    EXPECT_TRUE(before("W15a", "W16"));
    EXPECT_TRUE(before("F6 way 2", "F6 way 10"));
    EXPECT_FALSE(before("W1", "W1"));
    EXPECT_FALSE(before("", ""));
}

} // namespace
} // namespace fl::listing
