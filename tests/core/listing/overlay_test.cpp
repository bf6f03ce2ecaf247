#include "core/listing/overlay.h"
#include "core/quantity/parse.h"
#include "tests/support/case.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>

namespace {

using namespace fl;
using listing::Overlay;

// One battery, one lamp of 12 ohm at the end of 2 x 1 m of 2.5 mm2; the drop of each lead by hand: about
// 12.8 V / 12 ohm = 1.07 A through 1 m of 7.4 to 8.2 mohm, some 9 mV.
const char* const lamp = "rules van 12V plain-copper\n"
                         "battery G1 lead 12V 70Ah\n"
                         "load E1 12ohm knee=9V\n"
                         "wire W1 G1:+ E1:+ 1m 2.5mm2 PVC70\n"
                         "return W2 E1:- G1:- 1m 2.5mm2 PVC70\n"
                         "expect only 1 finding\n";

class OverlayOf : public testing::Test {
protected:
    OverlayOf()
        : read(test::read_case(lamp))
        , results(assess::assess(read.installation)) {
        EXPECT_TRUE(read.problems.empty());
    }
    const listing::OverlayFigure* of(const std::vector<listing::OverlayFigure>& all,
                                     const char* designation) {
        const auto id = plan::find_conductor(read.installation, designation)->id;
        const auto at =
            std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.conductor == id; });
        return at == all.end() ? nullptr : &*at;
    }
    test::Case read;
    std::shared_ptr<const assess::Assessment> results;
};

TEST_F(OverlayOf, CurrentRunsToTheLoadAndBack) {
    const std::string condition = results->conditions.front().condition.name;
    const auto all = listing::overlay(*results, Overlay::current, condition);
    ASSERT_NE(of(all, "W1"), nullptr);
    EXPECT_EQ(of(all, "W1")->direction, 1);
    EXPECT_EQ(of(all, "W2")->direction, 1);
    EXPECT_TRUE(of(all, "W1")->text.starts_with("1.0")) << of(all, "W1")->text;
    EXPECT_EQ(of(all, "W1")->condition, condition);
}

TEST_F(OverlayOf, TheWorstNamesTheConditionThatSetIt) {
    const auto all = listing::overlay(*results, Overlay::current, {});
    EXPECT_FALSE(of(all, "W1")->condition.empty());
    EXPECT_TRUE(of(all, "W1")->share.has_value());
}

TEST_F(OverlayOf, VoltageIsAgainstTheReturn) {
    const auto all = listing::overlay(*results, Overlay::voltage, results->conditions.front().condition.name);
    EXPECT_TRUE(of(all, "W1")->text.starts_with("12")) << of(all, "W1")->text;
    EXPECT_EQ(of(all, "W2"), nullptr) << "a conductor of the return has no voltage against itself";
}

TEST_F(OverlayOf, TheWorstVoltageIsARange) {
    std::optional<Voltage> least, most;
    for (const auto& solved : results->conditions) {
        const auto said = of(listing::overlay(*results, Overlay::voltage, solved.condition.name), "W1")->text;
        const auto volts = parse<Voltage>(said);
        ASSERT_TRUE(volts.has_value()) << said;
        if (!least || *volts < *least) least = *volts;
        if (!most || *volts > *most) most = *volts;
    }
    const std::string range = of(listing::overlay(*results, Overlay::voltage, {}), "W1")->text;
    const std::string dots = "…";
    const auto cut = range.find(dots);
    ASSERT_NE(cut, std::string::npos) << range << ": a battery loaded and one at rest differ";
    const double low = parse_number(range.substr(0, cut)).value_or(0);
    const double high = parse<Voltage>(range.substr(cut + dots.size())).value_or(Voltage()).si();
    EXPECT_NEAR(low, least->si(), 0.06) << range; // three digits of what the conditions say
    EXPECT_GT(high, low);
    EXPECT_LE(high, most->si() + 0.06) << "a condition that may set no highest voltage is left out";
}

TEST_F(OverlayOf, NothingProtectsABareLead) {
    const auto all = listing::overlay(*results, Overlay::protected_by, {});
    EXPECT_EQ(of(all, "W1")->text, "1 m exposed");
    EXPECT_EQ(of(all, "W2"), nullptr) << "a return has no device of its own";
}

TEST_F(OverlayOf, AZeroIsMarkedAsNothing) {
    int zeros = 0, others = 0;
    for (const auto& solved : results->conditions)
        for (const auto& one : listing::overlay(*results, Overlay::current, solved.condition.name)) {
            EXPECT_EQ(one.nothing, one.text == "0 A");
            ++(one.nothing ? zeros : others);
        }
    EXPECT_GT(others, 0);
}

// What is meant by each word of the protection, by hand: two batteries in parallel, a fuse at each. Between
// them whichever is nearer opens; before a fuse lies what only the other battery's smaller one protects; 1.5
// mm2 carries neither 60 nor 40 A by any table.
TEST(OverlayOfProtection, SaysWhatIsExposedAndWhatOpens) {
    const test::Case read = test::read_case("rules van 12V plain-copper\n"
                                            "battery G1 lead 12V 70Ah\n"
                                            "battery G2 lead 12V 70Ah\n"
                                            "fuse F1 60A\n"
                                            "fuse F2 40A\n"
                                            "load E1 12ohm knee=9V\n"
                                            "wire W1 G1:+ F1:1 0.2m 16mm2 PVC70\n"
                                            "wire W2 F1:2 F2:1 0.5m 16mm2 PVC70\n"
                                            "wire W3 F1:2 E1:+ 3m 1.5mm2 PVC70\n"
                                            "wire W6 F2:2 G2:+ 5m 10mm2 PVC70\n"
                                            "return W7 E1:- G1:- 3m 1.5mm2 PVC70\n"
                                            "return W8 G2:- G1:- 5m 10mm2 PVC70\n");
    const auto results = assess::assess(read.installation);
    std::map<std::string, std::string> said;
    for (const auto& one : listing::overlay(*results, Overlay::protected_by, {}))
        said[read.installation.conductors.find(one.conductor)->designation] = one.text;
    const std::map<std::string, std::string> expected{{"W1", "0.2 m exposed, else F2"},
                                                      {"W2", "F1, F2"},
                                                      {"W3", "3 m exposed behind F1, F2"},
                                                      {"W6", "5 m exposed, else F2"}};
    EXPECT_EQ(said, expected);
}

TEST_F(OverlayOf, AFaultAtTheLampIsHundredsOfAmperes) {
    // 12.8 V over 20 mohm or so of battery and 15 mohm of leads: some 300 A.
    const std::string said = of(listing::overlay(*results, Overlay::fault, {}), "W1")->text;
    EXPECT_TRUE(said.ends_with(" A")) << said;
    EXPECT_GE(said.size(), 5U) << said;
}

TEST(OverlayOfTheDemo, AFuseBoxIsNamedWithItsWay) {
    const test::Case demo = test::read_case(test::source_file("tests/fixtures/demo/bicycle_workshop.case"));
    const auto results = assess::assess(demo.installation);
    std::map<std::string, std::string> said;
    for (const auto& one : listing::overlay(*results, Overlay::protected_by, {}))
        said[demo.installation.conductors.find(one.conductor)->designation] = one.text;
    EXPECT_EQ(said["W31"], "F6.1"); // as drawn: the fridge's plus leaves the first way
    EXPECT_EQ(said["W35"], "F6.3");
    EXPECT_EQ(said["W8"], "F3");
}

// The demo is sound and has an inverter that surges and a pump that runs for minutes: what lasts is compared
// with what a conductor may carry, what does not is said as short.
TEST(OverlayOfTheDemo, ShortCurrentsAreNoOverload) {
    const test::Case demo = test::read_case(test::source_file("tests/fixtures/demo/bicycle_workshop.case"));
    const auto results = assess::assess(demo.installation);
    int compared = 0, brief = 0;
    for (const auto& one : listing::overlay(*results, Overlay::share, {})) {
        if (!one.share) continue;
        ++compared;
        EXPECT_LE(one.share->si(), 1.0) << plan::Subject::of(one.conductor).id;
    }
    for (const auto& one : listing::overlay(*results, Overlay::current, {})) {
        const int branch = results->network.branch_of(one.conductor);
        if (one.text.ends_with(" short")) {
            ++brief;
            EXPECT_FALSE(one.share.has_value());
        } else if (const auto& lasting = results->envelope.branch_current[static_cast<std::size_t>(branch)]) {
            EXPECT_EQ(one.text, text(lasting.value)) << "the number that the details explain";
        }
    }
    EXPECT_GT(compared, 20);
    EXPECT_EQ(brief, 2) << "the pump's conductor and its return";
    for (const condition::Solved& solved : results->conditions) {
        if (!solved.condition.duration) continue;
        for (const auto& one : listing::overlay(*results, Overlay::share, solved.condition.name))
            EXPECT_FALSE(one.share.has_value()) << solved.condition.name;
    }
}

} // namespace
