#include "core/condition/walk.h"

#include <algorithm>
#include <cmath>

namespace fl::condition {
namespace {

constexpr double no_hold_s = 0.1;         // a latch without a hold changes after this time
constexpr int events_per_latch = 64;      // method 2.2: beyond this nothing is known
constexpr std::size_t positions_kept = 8; // of one that hunts

bool is_protection(const Latch& l) {
    return l.of != Latch::Of::charger && l.of != Latch::Of::contact;
}

} // namespace

Walk::Walk(const State& state, Setup setup, const std::vector<Latch>& latches, Places at)
    : state_(state)
    , setup_(std::move(setup))
    , latches_(latches)
    , at_(std::move(at))
    , waited_s_(latches.size()) {}

Walk::End Walk::run(std::optional<solve::Solution> known) {
    const int most = events_per_latch * std::max(1, count(latches_));
    for (int step = 0; step < most; ++step) {
        apply();
        solution_ = step == 0 && known ? std::move(*known) : operating_point(state_, setup_);
        passed_.push_back({at_, solution_, now_s_});
        if (!solution_.usable || !next_event()) return ended(true);
        if (const auto before = seen_before()) return hunting(*before);
    }
    solution_.usable = false;
    return ended(false);
}

const Setup& Walk::setup_at(const Places& at) {
    at_ = at;
    apply();
    const auto& ports = state_.drawn.network.ports;
    if (std::any_of(ports.begin(), ports.end(), [](const network::Port& p) { return p.sense >= 0; }))
        operating_point(state_, setup_); // what the sense lead asks for belongs to the position
    return setup_;
}

Walk::End Walk::ended(bool known) const {
    return {at_, solution_, known, Places(latches_.size()), {}, 0, {}, let_go_};
}

void Walk::apply() {
    for (int i = 0; i < count(latches_); ++i) put(state_, setup_, item(latches_, i), item(at_, i));
}

double Walk::hold_s(int latch) const {
    const Latch& l = item(latches_, latch);
    return item(at_, latch) ? std::max(no_hold_s, l.off_hold_s) : no_hold_s;
}

/// The latch whose hold ends first changes; the others' clocks run on. False = steady.
bool Walk::next_event() {
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
    now_s_ += passes_s;
    const Latch& l = item(latches_, first);
    const bool new_one =
        std::none_of(let_go_.begin(), let_go_.end(), [&](const auto& known) { return known.first == first; });
    if (is_protection(l) && item(at_, first) && new_one)
        let_go_.emplace_back(first, let_go(state_, setup_, solution_, l));
    item(at_, first) = !item(at_, first);
    item(waited_s_, first) = 0;
    running_.erase(first);
    return true;
}

/// Index of the earlier step with the same positions and clocks.
std::optional<std::size_t> Walk::seen_before() {
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
Walk::End Walk::hunting(std::size_t from) const {
    End end{passed_[from].at, passed_[from].solution, true, Places(latches_.size()), {}, 0, {}, let_go_};
    end.round_s = now_s_ - passed_[from].since_s;
    end.share_on.assign(latches_.size(), 0);
    for (std::size_t step = from; step < passed_.size(); ++step) {
        const double until_s = step + 1 < passed_.size() ? passed_[step + 1].since_s : now_s_;
        for (std::size_t i = 0; i < latches_.size(); ++i) {
            if (passed_[step].at[i] != end.at[i]) end.hunts[i] = true;
            if (passed_[step].at[i] && end.round_s > 0)
                end.share_on[i] += (until_s - passed_[step].since_s) / end.round_s;
        }
    }
    for (std::size_t step = from + 1; step < passed_.size() && end.also.size() < positions_kept; ++step) {
        const auto same = [&](const auto& other) { return other.first == passed_[step].at; };
        if (passed_[step].at != end.at && std::none_of(end.also.begin(), end.also.end(), same))
            end.also.emplace_back(passed_[step].at, passed_[step].solution);
    }
    for (auto& [latch, gone] : end.let_go) gone.again = item(end.hunts, latch);
    return end;
}

} // namespace fl::condition
