// The solver follows the copper no further than what its insulation stands: a sentence must not take that
// for the temperature.
#include "core/assess/assess.h"
#include "core/wording/wording.h"
#include "tests/support/case.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

using namespace fl;

TEST(Overheats, SaysNoTemperatureThatWasNotWorkedOut) {
    const auto read =
        test::read_case(test::source_file("tests/fixtures/rules/conductor-overheats-breaks.case"));
    ASSERT_TRUE(read.problems.empty());
    const auto a = assess::assess(read.installation);
    ASSERT_EQ(a->findings.size(), 1u);
    const rules::Finding& f = a->findings.front();
    EXPECT_FALSE(f.values.contains("temperature"));
    // PVC70: 70 °C, IEC 60364-4-43.
    EXPECT_THAT(wording::sentence(f, read.installation), testing::HasSubstr("hotter than the 70 °C"));
}
