#include "tests/support/property.h"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <string_view>

namespace fl::test {

namespace {

std::string_view wished() {
    const char* wish = std::getenv("FL_DEEP");
    return wish ? wish : "";
}

} // namespace

int deep(int full) {
    const std::string_view wish = wished();
    return wish == "1" || wish == "2" ? full : std::max(1, full / 10);
}

int deep(int full, int all) {
    return wished() == "2" ? all : deep(full);
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
