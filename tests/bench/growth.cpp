#include "tests/bench/growth.h"

#include <algorithm>
#include <cmath>
#include <ctime>
#include <limits>
#include <numeric>

namespace fl::bench {

double processor_s() {
    timespec now{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

double least_s(int runs, const std::function<void()>& work) {
    double least = std::numeric_limits<double>::infinity();
    for (int run = 0; run < runs; ++run) {
        const double start = processor_s();
        work();
        least = std::min(least, processor_s() - start);
    }
    return std::max(least, 1e-6);
}

void Growth::add(std::size_t size, double amount) {
    sizes_.push_back(static_cast<double>(size));
    amounts_.push_back(amount);
}

double Growth::exponent() const {
    double x = 0, y = 0, xx = 0, xy = 0;
    const auto n = static_cast<double>(sizes_.size());
    for (std::size_t i = 0; i < sizes_.size(); ++i) {
        const double a = std::log(sizes_[i]), b = std::log(amounts_[i]);
        x += a, y += b, xx += a * a, xy += a * b;
    }
    return (n * xy - x * y) / (n * xx - x * x);
}

double Growth::all() const {
    return std::accumulate(amounts_.begin(), amounts_.end(), 0.0);
}

} // namespace fl::bench
