#pragma once

#include "core/solve/factor.h"
#include "core/solve/system.h"

#include <utility>
#include <vector>

namespace fl::solve {

/// Newton's method and its last resort on one system. Keeps the factors, so that the pattern is analysed
/// once.
class Newton {
public:
    /// `factor`: one that knows the pattern of the system's matrix, or a new one.
    Newton(System& system, const Options& options, Factor factor = Factor());

    /// Full steps, and where these don't get there, steps halved while the residual doesn't fall; `most`
    /// steps in all, and a few to polish. On success `x` meets every row as well as rounding allows; on
    /// failure it is the best point reached.
    bool solve(std::vector<double>& x, int most);

    /// From a point that is near: the Jacobian is made and factored once, and anew only where the residual no
    /// longer falls fast. At most `most` steps; false where it doesn't get there.
    bool follow(std::vector<double>& x, int most);

    /// Pseudo-transient continuation: a capacitor on every node, time steps grown as the network settles. It
    /// follows what the network would do from `x` on, and so ends in a state that can last. At most
    /// `continuation_most` steps, finished by `solve`. With `slow_sources` sources take time to change their
    /// current, as a node does for its voltage: where a converter helps to feed itself, only that has a
    /// course.
    bool settle(std::vector<double>& x, bool slow_sources = false);

    /// Sign of the determinant of the Jacobian at `x`, 0 when singular.
    int determinant_sign(const std::vector<double>& x);

    /// How much the unknown `of` would rise, to first order, if a resistor's resistance were 0; per resistor.
    std::vector<double> gains(const std::vector<double>& x, int of);

    /// The resistor whose resistance costs most, to first order, of the difference of two unknowns (-1: 0);
    /// for each such pair, -1 = none does.
    std::vector<int> dearest(const std::vector<double>& x, const std::vector<std::pair<int, int>>& pairs);

    /// Every row within its tolerance at `x`.
    bool met(const std::vector<double>& x);

    /// Changes of the unknown voltages that count as a jump are measured against this: the greatest supply.
    double volt_scale() const { return volt_scale_; }

    const Factor& factors() const { return factor_; }
    /// Hands out the factors; nothing may be solved any more.
    Factor give_factors() { return std::move(factor_); }

    Counts counts;

private:
    struct State {
        double merit = 0; ///< sum of squares of all rows
        double worst = 0; ///< greatest row over its allowance; 1 or less is met
    };
    bool steps(std::vector<double>& x, int most, int halvings);
    State judge(const std::vector<double>& x) const;
    /// Rows, scales and the Jacobian at `x`.
    State look(const std::vector<double>& x);
    bool factor();
    bool factor(const std::vector<double>& x, double capacity_S);

    System* system_;
    const Options* options_;
    Factor factor_;
    int factored_before_, refactored_before_;
    double volt_scale_ = 1, bound_V_ = 100;
    std::vector<double> rows_, scale_, step_, trial_;
};

} // namespace fl::solve
