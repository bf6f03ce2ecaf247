#pragma once

#include <cstddef>
#include <memory>
#include <vector>

namespace fl::solve {

/// A square sparse matrix whose pattern is fixed once and filled many times. Elements are stamped in the same
/// order every time; the first round records where each stamp goes, later rounds only add values, and add
/// them in the same order. Row or column -1 (a node held at 0) is left out. A copy of a filled matrix shares
/// the pattern.
class Matrix {
public:
    explicit Matrix(int size)
        : size_(size)
        , pattern_(std::make_shared<Pattern>()) {}

    /// Begins a round of stamping: all values 0.
    void begin();
    /// Adds `value` at (row, column).
    void add(int row, int column, double value);
    /// Ends the round. The first one fixes the pattern.
    void end();

    int size() const { return size_; }
    /// Compressed columns: start of each column, row numbers, values.
    const std::vector<int>& starts() const { return pattern_->starts; }
    const std::vector<int>& rows() const { return pattern_->rows; }
    const std::vector<double>& values() const { return values_; }

private:
    struct Stamp {
        int column, row;
        double value;
    };
    struct Pattern {
        std::vector<std::size_t> place; ///< of each stamp among the values
        std::vector<int> starts, rows;
    };
    void fix();

    int size_ = 0;
    bool fixed_ = false;
    std::size_t next_ = 0;        // the stamp that comes next in this round
    std::vector<Stamp> recorded_; // first round only
    std::shared_ptr<const Pattern> pattern_;
    std::vector<double> values_;
};

} // namespace fl::solve
