#include "core/solve/matrix.h"

#include "core/base/check.h"
#include "core/solve/index.h"

#include <algorithm>
#include <numeric>
#include <utility>

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
        FL_CHECK(next_ < pattern_->place.size());
        values_[pattern_->place[next_++]] += value;
    } else {
        recorded_.push_back({column, row, value});
    }
}

void Matrix::end() {
    if (fixed_)
        FL_CHECK(next_ == pattern_->place.size());
    else
        fix();
}

// Sorted by counting, rows first, then columns: linear in the number of stamps.
void Matrix::fix() {
    const auto sorted = [this](const std::vector<std::size_t>& order, int Stamp::*by) {
        std::vector<std::size_t> start(at(size_) + 1, 0), out(order.size());
        for (const Stamp& stamp : recorded_) ++start[at(stamp.*by) + 1];
        std::partial_sum(start.begin(), start.end(), start.begin());
        for (const std::size_t k : order) out[start[at(recorded_[k].*by)]++] = k;
        return out;
    };
    std::vector<std::size_t> order(recorded_.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    order = sorted(sorted(order, &Stamp::row), &Stamp::column);

    auto pattern = std::make_shared<Pattern>();
    pattern->place.resize(recorded_.size());
    pattern->starts.assign(at(size_) + 1, 0);
    int last_column = -1;
    for (const std::size_t k : order) {
        const Stamp& stamp = recorded_[k];
        if (stamp.column != last_column || stamp.row != pattern->rows.back()) {
            pattern->rows.push_back(stamp.row);
            ++pattern->starts[at(stamp.column) + 1];
            last_column = stamp.column;
        }
        pattern->place[k] = pattern->rows.size() - 1;
    }
    std::partial_sum(pattern->starts.begin(), pattern->starts.end(), pattern->starts.begin());
    values_.assign(pattern->rows.size(), 0);
    for (std::size_t k = 0; k < recorded_.size(); ++k) values_[pattern->place[k]] += recorded_[k].value;
    pattern_ = std::move(pattern);
    recorded_.clear();
    recorded_.shrink_to_fit();
    fixed_ = true;
}

} // namespace fl::solve
