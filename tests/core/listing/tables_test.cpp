#include "core/listing/tables.h"
#include "tests/support/assessed.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace fl::listing {
namespace {

using test::assessed;

// A load of constant current behind plain copper, so that every number can be worked out by hand.
constexpr std::string_view fridge = R"(
rules     van 12V plain-copper
battery   G1 lead service 12V 70Ah resistance=10mohm "Service battery"
load      E1 5A "Fridge"
wire      W1 G1:+ E1:+ 4.3m 2.5mm2 PVC70
return    W2 E1:- G1:- 4.3m 2.5mm2 PVC70
condition parked on=E1 engine=off soc=100%
expect    parked W1 current 5A
)";

Figures figures_of(const assess::Assessment& a, std::string_view condition) {
    for (const condition::Solved& solved : a.conditions)
        if (solved.condition.name == condition) return figures(a, solved);
    ADD_FAILURE() << "no condition " << condition;
    return {};
}

// The row whose first cell is this, and its cell below the column of this title.
std::string cell_of(const Listing& listing, std::string_view row, std::string_view title) {
    const auto column = std::find_if(listing.columns.begin(), listing.columns.end(),
                                     [&](const Column& c) { return c.title == title; });
    if (column == listing.columns.end()) return "no such column";
    for (const auto& cells : listing.rows)
        if (cells[0] == row) return cells[static_cast<std::size_t>(column - listing.columns.begin())];
    return "no such row";
}

TEST(Tables, ShowOneCondition) {
    const auto a = assessed(fridge);
    const Figures f = figures_of(*a, "parked");
    // By hand: 17.241 mΩ·mm²/m × 4.3 m / 2.5 mm² × 5 A = 0.1483 V in each conductor, 0.297 V in both.
    const Listing wires = conductors(*a, f);
    EXPECT_EQ(cell_of(wires, "W1", "current"), "5.000");
    EXPECT_EQ(cell_of(wires, "W1", "drop"), "0.148");
    EXPECT_EQ(cell_of(wires, "W2", "from"), "E1.-");
    EXPECT_EQ(cell_of(wires, "W2", "current"), "5.000");
    EXPECT_EQ(cell_of(wires, "W1", "copper"), "20");
    const Listing consumers = loads(*a, f);
    EXPECT_EQ(cell_of(consumers, "E1", "name"), "Fridge");
    EXPECT_EQ(cell_of(consumers, "E1", "draws"), "5.000");
    EXPECT_EQ(cell_of(consumers, "E1", "drop"), "0.297");
    EXPECT_EQ(cell_of(consumers, "E1", "state"), "on");
    const Listing feeding = sources(*a, f);
    EXPECT_EQ(cell_of(feeding, "G1", "delivers"), "5.000");
    EXPECT_EQ(cell_of(feeding, "G1", "state"), "discharging");
    EXPECT_TRUE(chargers(*a, f).rows.empty());
}

TEST(Tables, WriteACommaWhereAsked) {
    const auto a = assessed(fridge);
    EXPECT_EQ(cell_of(conductors(*a, figures_of(*a, "parked"), Style{','}), "W1", "drop"), "0,148");
}

TEST(Tables, AConductorDrawnAgainstTheCurrentShowsItNegative) {
    std::string text(fridge);
    text.replace(text.find("G1:+ E1:+"), 9, "E1:+ G1:+");
    const auto a = assessed(text);
    const Listing wires = conductors(*a, figures_of(*a, "parked"));
    EXPECT_EQ(cell_of(wires, "W1", "current"), "−5.000");
    EXPECT_EQ(cell_of(wires, "W1", "drop"), "−0.148");
}

TEST(Tables, CableListSaysWhatIsNotKnown) {
    std::string text(fridge);
    text.replace(text.find("E1:+ 4.3m"), 9, "E1:+ length=?");
    const auto a = assessed(text);
    const Listing list = cables(*a);
    EXPECT_EQ(cell_of(list, "W1", "length"), not_known);
    EXPECT_EQ(cell_of(list, "W2", "length"), "4.30");
    EXPECT_EQ(cell_of(list, "W2", "area"), "2.5");
    EXPECT_EQ(cell_of(list, "W2", "insulation"), "PVC70");
    EXPECT_EQ(cell_of(list, "W2", "greatest current"), "5.00");
    // resources/rules/rule_sets.json, van: red for plus, black for minus.
    EXPECT_EQ(cell_of(list, "W1", "colour"), "RD");
    EXPECT_EQ(cell_of(list, "W2", "colour"), "BK");
    // Only where a gauge was given is there a column for it.
    EXPECT_EQ(cell_of(list, "W2", "gauge"), "no such column");
    // DIN VDE 0298-4, table 11, two loaded conductors at 30 °C, 2.5 mm²; the ambient of the job rules stands
    // above or at 30 °C, so it is no more than that.
    EXPECT_NE(cell_of(list, "W2", "may carry"), not_known);
}

TEST(Tables, CableListNamesGauges) {
    std::string text(fridge);
    text.replace(text.find("2.5mm2"), 6, "AWG14");
    const auto a = assessed(text);
    EXPECT_EQ(cell_of(cables(*a), "W1", "gauge"), "14");
    // ASTM B258: 0.0641 in, 2.08 mm².
    EXPECT_EQ(cell_of(cables(*a), "W1", "area"), "2.08");
    EXPECT_EQ(cell_of(cables(*a), "W2", "gauge"), "");
}

TEST(Tables, SizesTellWhatGoverns) {
    const auto a = assessed(fridge);
    // By hand: 3 % of 12 V or more is allowed, 0.30 V is lost; 5 A is far below what 1 mm² carries, which is
    // the least the van's rules let a single core have.
    const Listing list = sizes(*a);
    EXPECT_EQ(cell_of(list, "W1", "drawn"), "2.5");
    EXPECT_EQ(cell_of(list, "W1", "by minimum"), "1");
    EXPECT_EQ(cell_of(list, "W1", "verdict"), "");
}

TEST(Tables, AThinConductorIsTooSmall) {
    std::string text(fridge);
    text.replace(text.find("2.5mm2"), 6, "0.5mm2");
    const auto a = assessed(text);
    EXPECT_EQ(cell_of(sizes(*a), "W1", "verdict"), "too small");
    EXPECT_EQ(cell_of(sizes(*a), "W2", "verdict"), "");
}

TEST(Tables, FaultsNameTheirSources) {
    const auto a = assessed(fridge);
    const Listing list = faults(*a);
    EXPECT_EQ(list.rows.size(), 2U); // at either end of W1; the others are return
    EXPECT_TRUE(cell_of(list, "G1.+", "largest from").starts_with("G1 "));
}

TEST(Tables, TooSmallIsAboutAreas) {
    plan::Conductor w;
    sizing::Size size;
    EXPECT_FALSE(too_small(w, size)); // nothing to compare with
    size.least = WireSize::mm2(2.5);
    EXPECT_TRUE(too_small(w, size)); // not known
    w.size = WireSize::mm2(2.5);
    EXPECT_FALSE(too_small(w, size));
    w.size = WireSize::mm2(1.5);
    EXPECT_TRUE(too_small(w, size));
    w.size = WireSize::gauge(Awg{13}); // 2.62 mm²
    EXPECT_FALSE(too_small(w, size));
}

} // namespace
} // namespace fl::listing
