// What `size` asks for and what the checks object to are one: laid in the least size that protection asks
// for, no conductor is found to be too thin for its device.
#include "core/assess/assess.h"
#include "tests/support/case.h"

#include <gtest/gtest.h>

#include <string>

using namespace fl;

namespace {

class LeastSizes : public testing::TestWithParam<const char*> {};

TEST_P(LeastSizes, AreThoseThatTheChecksAccept) {
    const auto read = test::read_case(test::source_file("tests/fixtures/demo/" + std::string(GetParam())));
    ASSERT_TRUE(read.problems.empty());
    const auto drawn = assess::assess(read.installation);
    // One conductor at a time, everything else as drawn: that is what a least size is worked out for.
    for (std::size_t b = 0; b < drawn->sizes.size(); ++b) {
        const sizing::Size& size = drawn->sizes[b];
        if (!size.least) continue;
        plan::Installation in = read.installation;
        plan::Conductor wire = *in.conductors.find(drawn->network.branches[b].conductor);
        wire.size = *size.least;
        in.conductors = in.conductors.with(wire);
        const auto laid = assess::assess(in);
        for (const rules::Finding& f : laid->findings) {
            if (f.code != "device-above-conductor" && f.code != "conductor-overheats") continue;
            for (const plan::Subject& subject : f.subjects)
                EXPECT_FALSE(subject == plan::Subject::of(wire.id)) << f.code << ' ' << wire.designation;
        }
    }
}

INSTANTIATE_TEST_SUITE_P(Demo, LeastSizes,
                         testing::Values("bicycle_workshop.case", "bicycle_workshop_mistakes.case"));

} // namespace
