#include "tests/support/property.h"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <string_view>

namespace fl::test {

int deep(int full) {
    const char* wish = std::getenv("FL_DEEP");
    const bool all = wish != nullptr && std::string_view(wish) == "1";
    return all ? full : std::max(1, full / 10);
}

rc::detail::TestParams property_params(int full) {
    rc::detail::TestParams params = rc::detail::configuration().testParams;
    params.maxSuccess = deep(full);
    return params;
}

void say_ran(int examples) {
    std::printf("[ examples ] %d\n", examples);
    ::testing::Test::RecordProperty("examples", examples);
}

} // namespace fl::test
