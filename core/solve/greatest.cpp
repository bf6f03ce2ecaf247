#include "core/solve/greatest.h"

#include "core/solve/index.h"
#include "core/solve/laws.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace fl::solve {

namespace {

/// The load's voltage is held and walked instead of its power: so the fold is only the top of a hill.
class Walk {
public:
    Walk(const System& solved, const std::vector<double>& x, int load, int shortened, const Options& options)
        : options_(options)
        , system_(solved.circuit(), solved.topology())
        , newton_(system_, options_) {
        system_.load_knee_V = solved.load_knee_V;
        system_.converter_knee_V = solved.converter_knee_V;
        if (shortened >= 0) system_.shorten(shortened);
        system_.probe_load(load);
        x_ = x;
        x_.resize(at(system_.size()), 0);
    }

    /// Power taken when the load stands at `volts`; nothing when no point is found.
    std::optional<double> watts(double volts) {
        system_.probe.volts = volts;
        std::vector<double> trial = x_;
        if (!newton_.follow(trial, options_.newton_most)) {
            trial = x_;
            if (!newton_.solve(trial, options_.newton_most)) {
                trial = x_;
                if (!newton_.settle(trial)) return std::nullopt;
            }
        }
        x_ = std::move(trial);
        return volts * x_[at(system_.probe_unknown())];
    }

    /// Golden section over the one hill between `low` and `high`.
    std::optional<double> top(double low, double high, int halvings) {
        constexpr double ratio = 0.6180339887498949; // (sqrt 5 - 1)/2
        std::optional<double> best;
        auto take = [&](double volts) {
            const std::optional<double> w = watts(volts);
            if (w && (!best || *w > *best)) best = w, best_V = volts;
            return w.value_or(-unlimited);
        };
        double a = low, b = high;
        double right = b - (1 - ratio) * (b - a), left = a + (1 - ratio) * (b - a);
        double at_right = take(right), at_left = take(left);
        for (int k = 0; k < halvings; ++k) {
            if (at_left <= at_right) {
                a = left;
                left = right, at_left = at_right;
                right = b - (1 - ratio) * (b - a), at_right = take(right);
            } else {
                b = right;
                right = left, at_right = at_left;
                left = a + (1 - ratio) * (b - a), at_left = take(left);
            }
        }
        take(low);
        return best;
    }

    /// Resistors by what their resistance costs the power here, to first order, dearest first.
    std::vector<int> dearest(std::size_t most) {
        watts(best_V);
        const std::vector<double> gain = newton_.gains(x_, system_.probe_unknown());
        std::vector<std::pair<double, int>> order;
        for (std::size_t k = 0; k < gain.size(); ++k)
            if (gain[k] > 0) order.emplace_back(-gain[k], static_cast<int>(k));
        std::sort(order.begin(), order.end());
        std::vector<int> out;
        for (std::size_t k = 0; k < std::min(most, order.size()); ++k) out.push_back(order[k].second);
        return out;
    }

    double best_V = 0;

private:
    Options options_;
    System system_;
    Newton newton_;
    std::vector<double> x_;
};

} // namespace

std::optional<Greatest> greatest_power(const System& system, const std::vector<double>& x, int load,
                                       double rest_V, const Options& options) {
    const double low = std::max(system.circuit().loads[at(load)].lowest_V, least_knee_V);
    if (rest_V <= low) return Greatest{};
    constexpr int fine = 18, coarse = 10;
    Walk walk(system, x, load, -1, options);
    const std::optional<double> watts = walk.top(low, rest_V, fine);
    if (!watts) return std::nullopt;
    Greatest greatest{std::max(0.0, *watts), {}};
    double best = greatest.watts * (1 + 1e-6);
    for (const int resistor : walk.dearest(3)) {
        const std::optional<double> without =
            Walk(system, x, load, resistor, options).top(low, rest_V, coarse);
        if (!without || *without <= best) continue;
        best = *without;
        greatest.limiting = {ElementKind::resistor, resistor};
    }
    return greatest;
}

} // namespace fl::solve
