#pragma once

#include "core/condition/latches.h"

#include <map>
#include <optional>
#include <utility>
#include <vector>

namespace fl::condition {

/// On or off, per latch.
using Places = std::vector<bool>;

/// The latches' way from a first position, event by event (docs/method.md 2.2): of all that want to change
/// the one whose hold ends first does. Ends steady, hunting, or not known after 64 events a latch.
class Walk {
public:
    Walk(const State& state, Setup setup, const std::vector<Latch>& latches, Places at);

    struct End {
        Places at;
        solve::Solution solution;
        bool known = true;
        Places hunts;                                         ///< per latch
        std::vector<std::pair<Places, solve::Solution>> also; ///< other positions of one round
        double round_s = 0;                                   ///< time of one round
        std::vector<double> share_on;                         ///< per latch, of a round
        std::vector<std::pair<int, LetGo>> let_go;            ///< latch, why; each protection once, in order
    };

    /// `known`: the operating point of the first position, where there is one already.
    End run(std::optional<solve::Solution> known = {});

    /// The circuit with its latches in this position.
    const Setup& setup_at(const Places& at);

private:
    void apply();
    double hold_s(int latch) const;
    bool next_event();
    std::optional<std::size_t> seen_before();
    End hunting(std::size_t from) const;
    End ended(bool known) const;

    struct Passed {
        Places at;
        solve::Solution solution;
        double since_s = 0;
    };

    const State& state_;
    Setup setup_;
    const std::vector<Latch>& latches_;
    Places at_;
    std::vector<double> waited_s_;
    std::map<int, double> running_; // latches that want to change, with what is left of their hold
    solve::Solution solution_;
    double now_s_ = 0;
    std::vector<Passed> passed_;
    std::map<std::vector<long>, std::size_t> seen_;
    std::vector<std::pair<int, LetGo>> let_go_;
};

} // namespace fl::condition
