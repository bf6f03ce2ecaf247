#include "core/solve/newton.h"

#include "core/solve/index.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace fl::solve {

namespace {

constexpr int undamped_most = 10, halvings_most = 12;
constexpr int polishing_most = 4;
constexpr double shortest_S = 1e9; // of capacity over time: nothing moves any more
// Rows are met when they are this much better than what is asked of the answer.
constexpr double in_hand = 0.1;

double largest(const std::vector<double>& x, int count) {
    double most = 0;
    for (int k = 0; k < count; ++k) most = std::max(most, std::abs(x[at(k)]));
    return most;
}

} // namespace

Newton::Newton(System& system, const Options& options, Factor factor)
    : system_(&system)
    , options_(&options)
    , factor_(std::move(factor))
    , factored_before_(factor_.factorisations())
    , refactored_before_(factor_.refactorisations()) {
    for (const Port& port : system.topology().ports) {
        volt_scale_ = std::max(volt_scale_, std::abs(port.volts));
        bound_V_ += 2 * std::abs(port.volts);
    }
}

Newton::State Newton::judge(const std::vector<double>& x) const {
    State state;
    const int voltages = system_->voltages();
    // Where all sources together couldn't push a node there is nothing to find, only numbers running away.
    const double highest_V = largest(x, voltages);
    if (!(highest_V <= bound_V_)) return {unlimited, unlimited};
    // A difference of two node voltages is good to a few last places of the voltages themselves, or of the
    // EMF that they come from: a dead short pulls a node to 0 V, but not nearer than EMF less I·R rounds to.
    const double rounding_V = 8 * std::numeric_limits<double>::epsilon() * std::max(volt_scale_, highest_V);
    for (int k = 0; k < system_->size(); ++k) {
        const double row = rows_[at(k)];
        if (!std::isfinite(row)) return {unlimited, unlimited};
        const double relative = in_hand * options_->tolerance * scale_[at(k)];
        const double allowed =
            k < voltages ? std::max(relative, in_hand * options_->balance_floor_A) : relative + rounding_V;
        state.merit += row * row;
        state.worst = std::max(state.worst, std::abs(row) / allowed);
    }
    return state;
}

bool Newton::met(const std::vector<double>& x) {
    system_->residual(x, rows_, scale_);
    return judge(x).worst <= 1;
}

Newton::State Newton::look(const std::vector<double>& x) {
    system_->linearise(x, rows_, scale_);
    return judge(x);
}

bool Newton::factor() {
    const bool good = factor_.factor(system_->jacobian());
    counts.factorisations = factor_.factorisations() - factored_before_;
    counts.refactorisations = factor_.refactorisations() - refactored_before_;
    return good;
}

bool Newton::factor(const std::vector<double>& x, double capacity_S) {
    system_->linearise(x, rows_, scale_, capacity_S);
    return factor();
}

int Newton::determinant_sign(const std::vector<double>& x) {
    return factor(x, 0) ? factor_.determinant_sign() : 0;
}

std::vector<double> Newton::gains(const std::vector<double>& x, int of) {
    std::vector<double> adjoint(x.size(), 0);
    adjoint[at(of)] = 1;
    if (!factor(x, 0) || !factor_.solve_transposed(adjoint)) return {};
    return system_->row_changes(x, adjoint);
}

std::vector<int> Newton::dearest(const std::vector<double>& x,
                                 const std::vector<std::pair<int, int>>& pairs) {
    if (!factor(x, 0)) return {};
    std::vector<int> out;
    for (const auto& [plus, minus] : pairs) {
        std::vector<double> adjoint(x.size(), 0);
        if (plus >= 0) adjoint[at(plus)] = 1;
        if (minus >= 0) adjoint[at(minus)] = -1;
        int best = -1;
        if (factor_.solve_transposed(adjoint)) {
            const std::vector<double> gain = system_->row_changes(x, adjoint);
            const auto most = std::max_element(gain.begin(), gain.end());
            if (most != gain.end() && *most > 0) best = static_cast<int>(most - gain.begin());
        }
        out.push_back(best);
    }
    return out;
}

bool Newton::solve(std::vector<double>& x, int most) {
    // Full steps first: on pieces of straight line they are exact as soon as the right pieces are met, even
    // where the residual rises on the way. What they don't reach, the damped ones start anew from the
    // beginning.
    const int full = std::min(undamped_most, most / 2);
    std::vector<double> trial = x;
    if (steps(trial, full, 0)) {
        x = std::move(trial);
        return true;
    }
    return steps(x, most - full, halvings_most);
}

bool Newton::steps(std::vector<double>& x, int most, int halvings) {
    int polished = 0;
    bool factored = false, here_factored = false; // the factors are of a point on the way; of `x` itself
    State here = look(x);
    for (int k = 0; k <= most + polishing_most; ++k) {
        const bool good = here.worst <= 1;
        // Once met, a few more steps down to rounding make the books close; the last factors do for them.
        if (good && (here.merit == 0 || polished++ >= polishing_most)) return true;
        if (!good && (k >= most || std::isinf(here.merit))) return false;
        if (!good || !factored) {
            if (!factor()) return good;
            factored = here_factored = true;
        }
        step_ = rows_;
        if (!factor_.solve(step_)) return good;
        ++counts.newton;
        // A step that may be shortened is looked at first; any other is where the next one begins.
        const bool straight_on = !good && halvings == 0;
        State there;
        bool fell = false;
        double length = 1;
        for (int h = 0; h <= (good ? 0 : halvings) && !fell; ++h, length /= 2) {
            trial_.resize(x.size());
            for (std::size_t n = 0; n < x.size(); ++n) trial_[n] = x[n] - length * step_[n];
            if (straight_on) {
                there = look(trial_);
            } else {
                system_->residual(trial_, rows_, scale_);
                there = judge(trial_);
            }
            if (good)
                fell = there.merit < 0.25 * here.merit && there.worst <= 1;
            else if (halvings == 0)
                fell = std::isfinite(there.merit);
            else
                fell = there.merit <= (1 - 1e-4 * length) * here.merit || there.worst <= 1;
        }
        if (!fell) {
            // Met by a step over the corner of a law: the factors were those before it.
            if (!good || here_factored || polished > 1) return good;
            here = look(x);
            if (!factor()) return true;
            here_factored = true;
            --polished;
            continue;
        }
        std::swap(x, trial_);
        here_factored = false;
        here = good || straight_on ? there : look(x);
    }
    return false;
}

bool Newton::follow(std::vector<double>& x, int most) {
    constexpr double fast = 0.01; // of the sum of squares
    State here = look(x);
    bool fresh = true; // the Jacobian is that at x
    int polished = 0;
    for (int k = 0; k < most; ++k) {
        const bool good = here.worst <= 1;
        if (good && (here.merit == 0 || polished++ >= polishing_most)) return true;
        if (std::isinf(here.merit)) return false;
        if (fresh && !factor()) return false;
        step_ = rows_;
        if (!factor_.solve(step_)) return good;
        ++counts.newton;
        trial_.resize(x.size());
        for (std::size_t n = 0; n < x.size(); ++n) trial_[n] = x[n] - step_[n];
        system_->residual(trial_, rows_, scale_);
        const State there = judge(trial_);
        if (good && !(there.merit < 0.25 * here.merit && there.worst <= 1)) return true;
        fresh = !good && there.merit > fast * here.merit && there.worst > 1;
        std::swap(x, trial_);
        here = fresh ? look(x) : there;
    }
    return false;
}

bool Newton::settle(std::vector<double>& x, bool slow_sources) {
    const double volts = volt_scale();
    const double most_V = 0.08 * volts; // a larger move in one step would no longer follow the network
    system_->slow_sources = slow_sources;
    // With very short steps every course is followed, also one that runs away; a longer step that changes the
    // sign of the determinant would end in a state the network leaves by itself.
    const int sign = factor(x, shortest_S) ? factor_.determinant_sign() : 0;
    double greatest_A = 1e-3;
    for (int k = 0; k < system_->voltages(); ++k) greatest_A = std::max(greatest_A, std::abs(rows_[at(k)]));
    double capacity = greatest_A / (0.02 * volts); // 1 F over the length of the time step
    double merit = judge(x).merit;
    int refused = 0;
    for (int k = 0; k < options_->continuation_most && capacity < shortest_S; ++k) {
        ++counts.continuation;
        if (!factor(x, capacity) || (sign != 0 && factor_.determinant_sign() != sign)) {
            capacity *= 4;
            continue;
        }
        std::vector<double> step = rows_;
        if (!factor_.solve(step)) {
            capacity *= 4;
            continue;
        }
        const double move = largest(step, system_->voltages());
        // Across 0 ohm even the shortest step mends a wrong guess at once.
        if (move > most_V && capacity < 1e4 * greatest_A) {
            capacity *= std::min(16.0, 1.5 * move / most_V);
            continue;
        }
        std::vector<double> trial(x.size());
        for (std::size_t n = 0; n < x.size(); ++n) trial[n] = x[n] - step[n];
        system_->residual(trial, rows_, scale_);
        const double now = judge(trial).merit;
        // One step of Newton's method for one step of time: a leap over a corner of a law shows as a leap of
        // the residual, and is taken in smaller steps.
        if (now > 4 * merit && refused < 6) {
            capacity *= 4;
            ++refused;
            continue;
        }
        if (std::isinf(now)) break;
        refused = 0;
        x = std::move(trial);
        if (move < 1e-6 * volts && capacity < 1e-5) break;
        // The step grows as the network calms down, or while it drifts along slowly.
        if (now < 0.8 * merit)
            capacity /= std::min(4.0, 1.2 * std::sqrt(merit / now));
        else if (now > 1.3 * merit)
            capacity *= 2;
        else if (move < 0.25 * most_V)
            capacity /= 2;
        merit = now;
    }
    system_->slow_sources = false;
    return solve(x, options_->newton_most);
}

} // namespace fl::solve
