#include "core/solve/matrix.h"

#include "core/base/check.h"
#include "core/solve/index.h"

#include <algorithm>
#include <numeric>

namespace fl::solve {

void Matrix::begin() {
    next_ = 0;
    if (fixed_)
        std::fill(values_.begin(), values_.end(), 0.0);
    else
        recorded_.clear();
}

void Matrix::add(int row, int column, double value) {
    if (row < 0 || column < 0) return;
    if (fixed_) {
        FL_CHECK(next_ < place_.size());
        values_[place_[next_++]] += value;
    } else {
        recorded_.push_back({column, row, value});
    }
}

void Matrix::end() {
    if (fixed_) {
        FL_CHECK(next_ == place_.size());
        return;
    }
    std::vector<std::size_t> order(recorded_.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(), [this](std::size_t a, std::size_t b) {
        return std::pair(recorded_[a].column, recorded_[a].row) <
               std::pair(recorded_[b].column, recorded_[b].row);
    });
    place_.resize(recorded_.size());
    starts_.assign(at(size_) + 1, 0);
    int last_column = -1;
    for (const std::size_t k : order) {
        const Stamp& stamp = recorded_[k];
        if (stamp.column != last_column || stamp.row != rows_.back()) {
            rows_.push_back(stamp.row);
            values_.push_back(0);
            ++starts_[at(stamp.column) + 1];
            last_column = stamp.column;
        }
        place_[k] = values_.size() - 1;
        values_.back() += stamp.value;
    }
    std::partial_sum(starts_.begin(), starts_.end(), starts_.begin());
    recorded_.clear();
    recorded_.shrink_to_fit();
    fixed_ = true;
}

} // namespace fl::solve
