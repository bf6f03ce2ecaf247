#include "core/solve/dense.h"

#include <cmath>
#include <cstddef>
#include <utility>

namespace fl::solve {

bool eliminate(std::vector<std::vector<double>>& m, std::vector<double>& right) {
    const std::size_t n = right.size();
    for (std::size_t k = 0; k < n; ++k) {
        std::size_t best = k;
        for (std::size_t i = k + 1; i < n; ++i)
            if (std::fabs(m[i][k]) > std::fabs(m[best][k])) best = i;
        if (!(std::fabs(m[best][k]) > 1e-300)) return false;
        std::swap(m[k], m[best]);
        std::swap(right[k], right[best]);
        for (std::size_t i = k + 1; i < n; ++i) {
            const double f = m[i][k] / m[k][k];
            for (std::size_t j = k; j < n; ++j) m[i][j] -= f * m[k][j];
            right[i] -= f * right[k];
        }
    }
    for (std::size_t k = n; k-- > 0;) {
        for (std::size_t j = k + 1; j < n; ++j) right[k] -= m[k][j] * right[j];
        right[k] /= m[k][k];
        if (!std::isfinite(right[k])) return false;
    }
    return true;
}

} // namespace fl::solve
