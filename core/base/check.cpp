#include "core/base/check.h"

#include <cstdio>
#include <cstdlib>

namespace fl {

void check_failed(const char* condition, const char* file, int line) {
    std::fprintf(stderr, "%s:%d: programming fault: %s does not hold\n", file, line, condition);
    std::abort();
}

} // namespace fl
