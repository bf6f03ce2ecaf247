#include "core/condition/latches.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace fl::condition {
namespace {

constexpr double no_hold_s = 0.1;         // a latch without a hold changes after this time
constexpr int events_per_latch = 64;      // method 2.2: beyond this nothing is known
constexpr std::size_t positions_kept = 8; // of one that hunts

using Position = std::vector<bool>;

/// The latches' way from a first position, event by event.
class Walk {
public:
    Walk(const State& state, Setup setup, const std::vector<Latch>& latches, Position at)
        : state_(state)
        , setup_(std::move(setup))
        , latches_(latches)
        , at_(std::move(at))
        , waited_s_(latches.size()) {}

    struct End {
        Position at;
        solve::Solution solution;
        bool known = true;
        std::vector<bool> hunts; ///< per latch
        std::vector<std::pair<Position, solve::Solution>> also;
    };

    End run() {
        const int most = events_per_latch * std::max(1, count(latches_));
        for (int step = 0; step < most; ++step) {
            solution_ = at_position();
            passed_.emplace_back(at_, solution_);
            if (!solution_.usable || !next_event()) return {at_, solution_, true, none(), {}};
            if (const auto before = seen_before()) return hunting(*before);
        }
        solution_.usable = false;
        return {at_, solution_, false, none(), {}};
    }

    const Setup& setup_at(const Position& at) {
        at_ = at;
        apply();
        return setup_;
    }

private:
    Position none() const { return Position(latches_.size()); }

    void apply() {
        for (int i = 0; i < count(latches_); ++i) {
            const Latch& l = item(latches_, i);
            if (l.charger) {
                item(setup_.circuit.converters, l.index).on = item(at_, i);
                continue;
            }
            item(setup_.circuit.resistors, l.index).closed = item(at_, i);
            if (l.coil < 0) continue;
            const auto* relay =
                network::parameters<plan::Relay>(state_.drawn.in, item(state_.drawn.network.ports, l.coil));
            if (relay && relay->control == plan::RelayControl::voltage_sensing)
                item(setup_.circuit.loads, item(setup_.map.load_of_port, l.coil)).on = item(at_, i);
        }
    }

    solve::Solution at_position() {
        apply();
        return solve::operating_point(setup_.circuit);
    }

    double hold_s(int latch) const {
        const Latch& l = item(latches_, latch);
        return item(at_, latch) ? std::max(no_hold_s, l.off_hold_s) : no_hold_s;
    }

    /// The violated latch whose hold ends first changes; the others' clocks run on. False = steady.
    bool next_event() {
        int first = -1;
        for (int i = 0; i < count(latches_); ++i) {
            const bool on = item(at_, i);
            if (wanted(state_, setup_, solution_, item(latches_, i), on) == on) {
                item(waited_s_, i) = 0;
                running_.erase(i);
                continue;
            }
            running_[i] = hold_s(i) - item(waited_s_, i);
            if (first < 0 || running_[i] < running_[first] - 1e-9) first = i;
        }
        if (first < 0) return false;
        const double passes_s = running_[first];
        for (const auto& [i, left] : running_) item(waited_s_, i) += passes_s;
        item(at_, first) = !item(at_, first);
        item(waited_s_, first) = 0;
        running_.erase(first);
        return true;
    }

    /// Index of the earlier step with the same positions and clocks.
    std::optional<std::size_t> seen_before() {
        std::vector<long> key;
        for (int i = 0; i < count(latches_); ++i) {
            key.push_back(item(at_, i));
            key.push_back(std::lround(item(waited_s_, i) * 1e3));
        }
        const auto [found, added] = seen_.try_emplace(std::move(key), passed_.size());
        if (added) return {};
        return found->second;
    }

    /// All positions passed since step `from` come round again.
    End hunting(std::size_t from) {
        End end{passed_[from].first, passed_[from].second, true, none(), {}};
        for (std::size_t step = from; step < passed_.size(); ++step)
            for (std::size_t i = 0; i < latches_.size(); ++i)
                if (passed_[step].first[i] != end.at[i]) end.hunts[i] = true;
        for (std::size_t step = from + 1; step < passed_.size() && end.also.size() < positions_kept; ++step) {
            const auto same = [&](const auto& other) { return other.first == passed_[step].first; };
            if (passed_[step].first != end.at && std::none_of(end.also.begin(), end.also.end(), same))
                end.also.push_back(passed_[step]);
        }
        return end;
    }

    const State& state_;
    Setup setup_;
    const std::vector<Latch>& latches_;
    Position at_;
    std::vector<double> waited_s_;
    std::map<int, double> running_; // violated latches, with what is left of their hold
    solve::Solution solution_;
    std::vector<std::pair<Position, solve::Solution>> passed_;
    std::map<std::vector<long>, std::size_t> seen_;
};

Setup first_setup(const State& state) {
    std::vector<bool> on, closed;
    for (const auto& c : state.drawn.network.converters) {
        const bool cold = !has_latch(state.drawn, c); // chargers start off, plain converters are on
        on.push_back(state.forced(c.component).value_or(cold));
    }
    for (const auto& b : state.drawn.network.branches) closed.push_back(is_closed(state, b));
    return assemble(state, on, closed);
}

/// The position from which a second steady state would be found: all on but what can't be.
Position all_on(const std::vector<Latch>& latches) {
    Position p;
    for (const Latch& l : latches) p.push_back(!l.never);
    return p;
}

std::vector<Runs> runs_of(const Setup& setup) {
    std::vector<Runs> runs;
    for (const auto& c : setup.circuit.converters) runs.push_back(c.on ? Runs::yes : Runs::no);
    return runs;
}

Solved made(const plan::Condition& condition, const Setup& setup, const solve::Solution& solution) {
    Solved s{condition, setup, solution, runs_of(setup), {}};
    leave_out_open(s.setup);
    return s;
}

void mark(Solved& solved, const std::vector<Latch>& latches, const std::vector<bool>& which, Runs as) {
    for (std::size_t i = 0; i < latches.size(); ++i)
        if (which[i] && latches[i].charger) item(solved.runs, latches[i].index) = as;
}

} // namespace

Solved solve(const Drawn& drawn, const plan::Condition& condition) {
    const State state{drawn, condition};
    const auto latches = latches_of(state);
    const Setup first = first_setup(state);
    Walk walk(state, first, latches, Position(latches.size()));
    const auto cold = walk.run();
    Solved out = made(condition, walk.setup_at(cold.at), cold.solution);
    mark(out, latches, cold.hunts, Runs::hunts);
    for (const auto& [at, solution] : cold.also)
        out.also.push_back(made(condition, walk.setup_at(at), solution));
    const bool hunts = std::find(cold.hunts.begin(), cold.hunts.end(), true) != cold.hunts.end();
    if (!cold.known || hunts || latches.empty() || cold.at == all_on(latches)) return out;

    Walk again(state, first, latches, all_on(latches));
    const auto warm = again.run();
    if (!warm.known || !warm.solution.usable || warm.at == cold.at) return out;
    std::vector<bool> differs;
    for (std::size_t i = 0; i < latches.size(); ++i) differs.push_back(warm.at[i] != cold.at[i]);
    mark(out, latches, differs, Runs::both);
    out.also.push_back(made(condition, again.setup_at(warm.at), warm.solution));
    for (const auto& [at, solution] : warm.also)
        out.also.push_back(made(condition, again.setup_at(at), solution));
    return out;
}

Solved solve(const plan::Installation& in, const network::Network& network,
             const plan::Condition& condition) {
    return solve(Drawn(in, network), condition);
}

} // namespace fl::condition
