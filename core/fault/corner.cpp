#include "core/fault/corner.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace fl::fault {

Corner::Corner(const Ground& ground)
    : ground_(ground)
    , modes_(ground.feeders.size(), Mode::regulating) {}

/// With the modes as they are: unknown are the current of the short and what each feeder that does not follow
/// its strong EMF gives beside that EMF's current. All are linear in each other.
bool Corner::with_modes(const Ends& ends) {
    held_.clear();
    for (std::size_t k = 0; k < ground_.feeders.size(); ++k)
        if (clamps(k) ? modes_[k] != Mode::regulating : states_[k] != SourceState::strong) held_.push_back(k);
    const std::size_t n = held_.size() + 1;
    matrix_.assign(n * n, 0);
    right_.assign(n, 0);
    matrix_[0] = -ends.own_ohm;
    right_[0] = -ends.open_V;
    for (std::size_t j = 1; j < n; ++j) matrix_[j] = ends.ohm[held_[j - 1]];
    for (std::size_t i = 1; i < n; ++i) {
        const std::size_t k = held_[i - 1];
        const Feeder& f = ground_.feeders[k];
        // Given in all: (emf - v) / ohm + extra. A weak one gives (weak emf - v) / weak ohm instead; all
        // times ohm, so that nothing is divided by what may be small.
        double share = 0, wanted_V = 0; // of v; and what stands on the right
        if (!f.limited() && states_[k] == SourceState::weak) {
            share = f.ohm / f.weak_ohm;
            wanted_V = f.weak_emf_V * share;
        } else if (acts(k, Mode::limited)) {
            wanted_V = limit_A(k) * f.ohm;
        }
        // extra ohm - (1 - share) v = wanted - emf, v = open - x short + coupling extra
        const double of_v = 1 - share;
        double* row = &matrix_[i * n];
        row[0] = of_v * ends.ohm[k]; // what 1 A of the short does to the feeder, the feeder's does to it
        right_[i] = wanted_V - f.emf_V + of_v * ground_.open_V[k];
        for (std::size_t j = 1; j < n; ++j)
            row[j] = (i == j ? f.ohm : 0) - of_v * ground_.coupling[k][held_[j - 1]];
    }
    if (!eliminate()) return false;
    total_A_ = right_[0];
    volts_ = ground_.open_V;
    extra_.assign(volts_.size(), 0);
    for (std::size_t j = 1; j < n; ++j) extra_[held_[j - 1]] = right_[j];
    for (std::size_t k = 0; k < volts_.size(); ++k) {
        volts_[k] -= total_A_ * ends.ohm[k];
        for (std::size_t j = 1; j < n; ++j) volts_[k] += right_[j] * ground_.coupling[k][held_[j - 1]];
    }
    return true;
}

/// With row exchange; `right_` is the answer then.
bool Corner::eliminate() {
    const std::size_t n = right_.size();
    const auto row = [&](std::size_t i) { return matrix_.begin() + static_cast<std::ptrdiff_t>(i * n); };
    for (std::size_t k = 0; k < n; ++k) {
        std::size_t best = k;
        for (std::size_t i = k + 1; i < n; ++i)
            if (std::fabs(matrix_[i * n + k]) > std::fabs(matrix_[best * n + k])) best = i;
        if (!(std::fabs(matrix_[best * n + k]) > 1e-300)) return false;
        if (best != k) {
            std::swap_ranges(row(k), row(k + 1), row(best));
            std::swap(right_[k], right_[best]);
        }
        for (std::size_t i = k + 1; i < n; ++i) {
            const double f = matrix_[i * n + k] / matrix_[k * n + k];
            if (f == 0) continue;
            for (std::size_t j = k; j < n; ++j) matrix_[i * n + j] -= f * matrix_[k * n + j];
            right_[i] -= f * right_[k];
        }
    }
    for (std::size_t k = n; k-- > 0;) {
        for (std::size_t j = k + 1; j < n; ++j) right_[k] -= matrix_[k * n + j] * right_[j];
        right_[k] /= matrix_[k * n + k];
        if (!std::isfinite(right_[k])) return false;
    }
    return true;
}

/// Changes the first limited feeder that does not meet its law; false when all do.
bool Corner::change_first() {
    for (std::size_t k = 0; k < modes_.size(); ++k) {
        const Feeder& f = ground_.feeders[k];
        if (!clamps(k)) continue;
        const double emf_A = (f.emf_V - volts_[k]) / f.ohm, most_A = limit_A(k);
        const double margin_A = 1e-9 * most_A;
        const Mode right = emf_A > most_A + margin_A ? Mode::limited
                           : emf_A < -margin_A       ? Mode::idle
                                                     : Mode::regulating;
        // On the very edge both are right.
        const bool edge = std::fabs(emf_A - most_A) <= margin_A || std::fabs(emf_A) <= margin_A;
        if (right == modes_[k] || (edge && modes_[k] != Mode::regulating)) continue;
        // From one limit to the other only by way of the EMF between them.
        modes_[k] = modes_[k] == Mode::regulating ? right : Mode::regulating;
        return true;
    }
    return false;
}

bool Corner::solve(const Ends& ends, const std::vector<SourceState>& states) {
    // The laws are monotone, so changing the first that is not met, one at a time, ends (a box-constrained
    // complementarity problem with a positive definite matrix).
    states_ = states;
    constexpr int most = 1000;
    for (int round = 0; round < most; ++round) {
        if (!with_modes(ends)) return false;
        if (!change_first()) return true;
    }
    // Never seen; what all give at their limits is no less than what they can.
    for (std::size_t k = 0; k < modes_.size(); ++k)
        if (ground_.feeders[k].limited()) modes_[k] = Mode::limited;
    return with_modes(ends);
}

bool Corner::clamps(std::size_t feeder) const {
    return ground_.feeders[feeder].limited() && states_[feeder] != SourceState::absent;
}

double Corner::limit_A(std::size_t feeder) const {
    const Feeder& f = ground_.feeders[feeder];
    return states_[feeder] == SourceState::weak ? f.weak_limit_A : f.limit_A;
}

bool Corner::acts(std::size_t feeder, Mode mode) const {
    return clamps(feeder) && modes_[feeder] == mode;
}

double Corner::feeder_A(std::size_t k) const {
    const Feeder& f = ground_.feeders[k];
    // Exactly that, without what rounding leaves.
    if (acts(k, Mode::limited)) return limit_A(k);
    if (states_[k] == SourceState::absent || acts(k, Mode::idle)) return 0;
    return (f.emf_V - volts_[k]) / f.ohm + extra_[k];
}

} // namespace fl::fault
