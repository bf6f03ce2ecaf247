#include "core/fault/inverse.h"

#include "core/base/check.h"

#include <amd.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace fl::fault {
namespace {

std::size_t index(int i) {
    return static_cast<std::size_t>(i);
}

} // namespace

Inverse::Inverse(int size, const std::vector<Entry>& entries)
    : size_(size) {
    if (size == 0) {
        usable_ = true;
        return;
    }
    order(entries);
    factor(entries);
    if (usable_) invert();
}

void Inverse::order(const std::vector<Entry>& entries) {
    std::vector<std::pair<int, int>> places;
    for (const Entry& e : entries)
        if (e.row != e.column) places.emplace_back(std::min(e.row, e.column), std::max(e.row, e.column));
    std::sort(places.begin(), places.end());
    places.erase(std::unique(places.begin(), places.end()), places.end());
    std::vector<int> starts(index(size_) + 1), rows, order(index(size_));
    for (const auto& [column, row] : places) ++starts[index(column) + 1], rows.push_back(row);
    for (std::size_t i = 1; i < starts.size(); ++i) starts[i] += starts[i - 1];
    rows.reserve(1); // AMD takes no null, even where there is nothing
    const int done = amd_order(size_, starts.data(), rows.data(), order.data(), nullptr, nullptr);
    FL_CHECK(done == AMD_OK);
    place_.resize(index(size_));
    for (int i = 0; i < size_; ++i) place_[index(order[index(i)])] = i;
}

/// Column by column, each with the earlier ones that reach it.
void Inverse::factor(const std::vector<Entry>& entries) {
    const std::size_t n = index(size_);
    std::vector<std::vector<std::pair<int, double>>> given(n); // per column: rows below, values
    pivots_.assign(n, 0);
    for (const Entry& e : entries) {
        const int a = place_[index(e.row)], b = place_[index(e.column)];
        if (a == b)
            pivots_[index(a)] += e.value;
        else
            given[index(std::min(a, b))].emplace_back(std::max(a, b), e.value);
    }
    std::vector<std::vector<int>> reaching(n); // earlier columns whose next row is this one
    std::vector<int> next(n);                  // of each column: place of that row
    std::vector<int> mark(n, -1), column_rows;
    std::vector<double> work(n);
    starts_.assign(1, 0);
    usable_ = true;
    for (std::size_t j = 0; j < n; ++j) {
        column_rows.clear();
        const auto add = [&](int row, double value) {
            if (mark[index(row)] != static_cast<int>(j)) {
                mark[index(row)] = static_cast<int>(j);
                work[index(row)] = 0;
                column_rows.push_back(row);
            }
            work[index(row)] += value;
        };
        for (const auto& [row, value] : given[j]) add(row, value);
        const double first = pivots_[j];
        for (const int k : reaching[j]) {
            int at = next[index(k)];
            const double here = lower_[index(at)] * pivots_[index(k)];
            pivots_[j] -= lower_[index(at)] * here;
            for (int i = at + 1; i < starts_[index(k) + 1]; ++i)
                add(rows_[index(i)], -lower_[index(i)] * here);
            if (++at < starts_[index(k) + 1]) {
                next[index(k)] = at;
                reaching[index(rows_[index(at)])].push_back(k);
            }
        }
        if (!(pivots_[j] > 1e-14 * first) || !std::isfinite(pivots_[j])) {
            usable_ = false;
            return;
        }
        std::sort(column_rows.begin(), column_rows.end());
        for (const int row : column_rows) {
            rows_.push_back(row);
            lower_.push_back(work[index(row)] / pivots_[j]);
        }
        next[j] = starts_.back();
        starts_.push_back(static_cast<int>(rows_.size()));
        if (!column_rows.empty()) reaching[index(column_rows.front())].push_back(static_cast<int>(j));
    }
}

/// From the last column to the first: Z(i,j) = - sum over k of Z(i,k) L(k,j), Z(j,j) = 1/D(j) less the same.
void Inverse::invert() {
    down_.assign(lower_.size(), 0);
    diagonal_.assign(index(size_), 0);
    for (int j = size_ - 1; j >= 0; --j) {
        const int begin = starts_[index(j)], end = starts_[index(j) + 1];
        for (int p = begin; p < end; ++p) {
            const int i = rows_[index(p)];
            down_[index(p)] -= lower_[index(p)] * diagonal_[index(i)];
            // Rows that column i and column j have in common.
            int q = p + 1;
            for (int at = starts_[index(i)]; at < starts_[index(i) + 1] && q < end; ++at) {
                while (q < end && rows_[index(q)] < rows_[index(at)]) ++q;
                if (q == end || rows_[index(q)] != rows_[index(at)]) continue;
                down_[index(p)] -= lower_[index(q)] * down_[index(at)];
                down_[index(q)] -= lower_[index(p)] * down_[index(at)];
            }
        }
        diagonal_[index(j)] = 1 / pivots_[index(j)];
        for (int p = begin; p < end; ++p) diagonal_[index(j)] -= lower_[index(p)] * down_[index(p)];
    }
}

/// What L mixes with a row are the rows on its way up the tree of elimination: from a column to the first row
/// below its diagonal.
void Inverse::solve(const std::vector<Item>& right, const std::vector<int>& wanted, std::vector<double>& out,
                    Scratch& s) const {
    s.value.resize(index(size_));
    s.mark.resize(index(size_));
    const auto way_up = [&](int from, std::vector<int>& way) {
        for (int j = from; s.mark[index(j)] != s.stamp;) {
            s.mark[index(j)] = s.stamp;
            way.push_back(j);
            if (starts_[index(j)] == starts_[index(j) + 1]) break;
            j = rows_[index(starts_[index(j)])];
        }
    };
    ++s.stamp;
    s.forward.clear();
    for (const Item& item : right) way_up(place_[index(item.row)], s.forward);
    ++s.stamp;
    s.backward.clear();
    for (const int row : wanted) way_up(place_[index(row)], s.backward);
    std::sort(s.forward.begin(), s.forward.end());
    std::sort(s.backward.begin(), s.backward.end());
    for (const int j : s.backward) s.value[index(j)] = 0;
    for (const int j : s.forward) s.value[index(j)] = 0;
    for (const Item& item : right) s.value[index(place_[index(item.row)])] += item.value;
    for (const int j : s.forward)
        for (int p = starts_[index(j)]; p < starts_[index(j) + 1]; ++p)
            s.value[index(rows_[index(p)])] -= lower_[index(p)] * s.value[index(j)];
    for (auto at = s.backward.rbegin(); at != s.backward.rend(); ++at) {
        double& x = s.value[index(*at)];
        x /= pivots_[index(*at)];
        for (int p = starts_[index(*at)]; p < starts_[index(*at) + 1]; ++p)
            x -= lower_[index(p)] * s.value[index(rows_[index(p)])];
    }
    out.clear();
    for (const int row : wanted) out.push_back(s.value[index(place_[index(row)])]);
}

double Inverse::at(int row, int column) const {
    const int a = place_[index(row)], b = place_[index(column)];
    if (a == b) return diagonal_[index(a)];
    const auto begin = rows_.begin() + starts_[index(std::min(a, b))],
               end = rows_.begin() + starts_[index(std::min(a, b)) + 1];
    const auto found = std::lower_bound(begin, end, std::max(a, b));
    FL_CHECK(found != end && *found == std::max(a, b));
    return down_[index(static_cast<int>(found - rows_.begin()))];
}

} // namespace fl::fault
