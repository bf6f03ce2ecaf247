#pragma once

#include <vector>

// Shared inside this room only. A numeric kernel.
namespace fl::fault {

/// Entries of the inverse of a symmetric positive definite matrix, without the rest of it: factored as
/// L D L^T in an order that keeps L thin (AMD), then Takahashi's recurrence, which gives the inverse wherever
/// L has an entry (K. Takahashi, J. Fagan, M.-S. Chin, 1973; from memory).
class Inverse {
public:
    struct Entry {
        int row, column;
        double value;
    };
    /// Entries of one place add up; of two that mirror each other give only one. An entry of 0 asks for the
    /// inverse there.
    Inverse(int size, const std::vector<Entry>& entries);

    /// False when the matrix is singular or not positive definite to working accuracy.
    bool usable() const { return usable_; }
    /// The inverse at (row, column); that place must have been given.
    double at(int row, int column) const;

    /// A row and a number for it.
    struct Item {
        int row;
        double value;
    };
    /// Room to work in, used over and over.
    struct Scratch {
        std::vector<double> value;
        std::vector<int> mark, forward, backward;
        int stamp = 0;
    };
    /// The solution for this right side, in the rows `wanted` alone: the work is that of the few columns of L
    /// that lead from either to the end, not of all.
    void solve(const std::vector<Item>& right, const std::vector<int>& wanted, std::vector<double>& out,
               Scratch& scratch) const;

private:
    void order(const std::vector<Entry>& entries);
    void factor(const std::vector<Entry>& entries);
    void invert();

    int size_ = 0;
    bool usable_ = false;
    std::vector<int> place_;                // of each row in the order of elimination
    std::vector<int> starts_, rows_;        // of L below its diagonal, by columns, rows rising
    std::vector<double> lower_, down_;      // L; the inverse at the same places
    std::vector<double> pivots_, diagonal_; // D; the inverse's diagonal
};

} // namespace fl::fault
