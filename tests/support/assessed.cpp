#include "tests/support/assessed.h"

#include "tests/support/case.h"

#include <gtest/gtest.h>

namespace fl::test {

std::shared_ptr<const assess::Assessment> assessed(std::string_view text) {
    const Case read = read_case(text);
    EXPECT_TRUE(read.problems.empty()) << (read.problems.empty() ? "" : read.problems.front());
    return assess::assess(read.installation);
}

} // namespace fl::test
