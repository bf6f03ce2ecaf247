#include "core/base/result.h"

namespace fl {

std::string line(const Problem& problem) {
    std::string out;
    for (const std::string* part : {&problem.where, &problem.wrong, &problem.right}) {
        if (part->empty()) continue;
        if (!out.empty()) out += ": ";
        out += *part;
    }
    return out;
}

} // namespace fl
