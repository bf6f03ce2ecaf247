#pragma once

#include "core/solve/matrix.h"

#include <memory>
#include <vector>

namespace fl::solve {

/// Sparse LU made for circuits (KLU). The pattern is analysed once; numbers are factored anew with the old
/// pivots as long as these stay good, else with new ones.
class Factor {
public:
    /// The order of elimination, which depends on the pattern alone.
    struct Analysis;

    /// `known`: that of matrices of the same pattern, where there is one.
    explicit Factor(std::shared_ptr<const Analysis> known = {});
    ~Factor();
    Factor(Factor&&) noexcept;
    Factor& operator=(Factor&&) noexcept;
    Factor(const Factor&) = delete;
    Factor& operator=(const Factor&) = delete;

    /// Factors the matrix; every call must bring the same pattern. False when it is singular to working
    /// accuracy, and then nothing may be solved.
    bool factor(const Matrix& matrix);

    /// Overwrites the right side with the solution. False if it came out not finite.
    bool solve(std::vector<double>& right_side) const;
    /// The same with the transposed matrix.
    bool solve_transposed(std::vector<double>& right_side) const;

    /// Sign of the determinant: -1, 0 (singular), +1.
    int determinant_sign() const;
    /// Least over greatest pivot, a crude measure of condition; 0 when singular.
    double pivot_ratio() const;

    /// Of the matrices factored so far; null when there were none.
    std::shared_ptr<const Analysis> analysis() const;

    int factorisations() const { return factorisations_; }
    int refactorisations() const { return refactorisations_; }

private:
    struct Klu;
    std::unique_ptr<Klu> klu_;
    int factorisations_ = 0, refactorisations_ = 0;
};

} // namespace fl::solve
