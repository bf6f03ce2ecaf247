#include "core/fault/through.h"

#include "core/fault/back.h"
#include "core/fault/near.h"
#include "core/fault/shorts.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace fl::fault {
namespace {

std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

using States = std::vector<SourceState>;

/// One short in one snapshot: what each device carries with the sources in given states, worked out once.
class Case {
public:
    Case(const Shorts& shorts, Corner& corner, Ends ends, std::vector<std::size_t> here,
         std::vector<Shorts::Carried> carried)
        : shorts_(shorts)
        , corner_(corner)
        , ends_(std::move(ends))
        , here_(std::move(here))
        , carried_(std::move(carried)) {}

    /// Feeders on this live side; only they change their states.
    const std::vector<std::size_t>& here() const { return here_; }
    const Feeder& feeder(std::size_t k) const { return shorts_.ground().feeders[here_[k]]; }

    /// The short's own current, every source strong.
    double strongest_A() {
        corner_.solve(ends_, States(shorts_.ground().feeders.size(), SourceState::strong));
        return corner_.total_A();
    }

    /// Per device, from its first end, in amperes; `states` are those of the feeders here.
    const std::vector<double>& currents(const States& states) {
        const auto [known, fresh] = known_.try_emplace(states);
        if (fresh) known->second = work_out(states);
        return known->second;
    }

private:
    std::vector<double> work_out(const States& states) {
        std::vector<double> out(carried_.size());
        // Without a source nothing flows, and no matrix tells it.
        const auto gives = [](SourceState s) { return s != SourceState::absent; };
        if (std::none_of(states.begin(), states.end(), gives)) return out;
        States all(shorts_.ground().feeders.size(), SourceState::strong);
        for (std::size_t k = 0; k < here_.size(); ++k) all[here_[k]] = states[k];
        if (!corner_.solve(ends_, all)) return out;
        for (std::size_t d = 0; d < out.size(); ++d) {
            const auto& c = carried_[d];
            out[d] = c.open_A + c.by_short * corner_.total_A();
            for (std::size_t k = 0; k < all.size(); ++k) out[d] += c.by_feeder[k] * corner_.extra_A()[k];
        }
        return out;
    }

    const Shorts& shorts_;
    Corner& corner_;
    Ends ends_;
    std::vector<std::size_t> here_;
    std::vector<Shorts::Carried> carried_;
    std::map<States, std::vector<double>> known_;
};

struct Extreme {
    double current_A = 0;
    States states;
};

/// The greatest of `sign` times the current of a device over the states that `may` allows.
class Search {
public:
    using May = std::vector<std::vector<SourceState>>; ///< per feeder here, the usual one first

    Search(Case& of, May may)
        : of_(of)
        , may_(std::move(may)) {}

    Extreme most(std::size_t device, double sign) const {
        std::size_t all = 1;
        for (const auto& m : may_) all = std::min(all * m.size(), few + 1);
        if (all <= few) return of_all(device, sign);
        // A device's current rises or falls with what one source gives, whatever the others do: so each is
        // set to its better state until none has one. Where one source keeps another from giving, that can
        // end at less than the most; hence from several beginnings.
        Extreme best = step_by_step(usual(), device, sign);
        for (std::size_t k = 0; k < may_.size(); ++k) {
            States others = usual(), alone = others;
            others[k] = may_[k].back();
            for (std::size_t j = 0; j < may_.size(); ++j)
                if (j != k) alone[j] = may_[j].back();
            for (States* from : {&others, &alone})
                if (auto now = step_by_step(std::move(*from), device, sign); now.current_A > best.current_A)
                    best = std::move(now);
        }
        return best;
    }

private:
    static constexpr std::size_t few = 243; ///< states of five batteries

    Extreme with(States states, std::size_t device, double sign) const {
        return {sign * of_.currents(states)[device], std::move(states)};
    }

    States usual() const {
        States states;
        for (const auto& m : may_) states.push_back(m.front());
        return states;
    }

    Extreme of_all(std::size_t device, double sign) const {
        Extreme best = with(usual(), device, sign);
        std::vector<std::size_t> digits(may_.size());
        States states = best.states;
        for (std::size_t k = 0; k < digits.size();) { // counts through them all
            if (++digits[k] == may_[k].size()) {
                digits[k] = 0;
                states[k] = may_[k].front();
                ++k;
                continue;
            }
            states[k] = may_[k][digits[k]];
            if (auto now = with(states, device, sign); now.current_A > best.current_A) best = std::move(now);
            k = 0;
        }
        return best;
    }

    Extreme step_by_step(States from, std::size_t device, double sign) const {
        Extreme best = with(std::move(from), device, sign);
        constexpr int most_rounds = 8;
        bool better = true;
        for (int round = 0; better && round < most_rounds; ++round) {
            better = false;
            for (std::size_t k = 0; k < may_.size(); ++k)
                for (const SourceState state : may_[k]) {
                    if (state == best.states[k]) continue;
                    States states = best.states;
                    states[k] = state;
                    auto now = with(std::move(states), device, sign);
                    if (!(now.current_A > best.current_A + 1e-9 * std::fabs(best.current_A))) continue;
                    best = std::move(now);
                    better = true;
                }
        }
        return best;
    }

    Case& of_;
    May may_;
};

bool is_device(const network::Branch& b) {
    return b.kind == network::BranchKind::fuse || b.kind == network::BranchKind::breaker ||
           b.kind == network::BranchKind::way;
}

/// One of the two networks: what devices carry in it, and where they stand.
class Side {
public:
    Side(Snapshot snapshot, const network::Network& net, const std::vector<std::vector<int>>& backs)
        : shorts_(std::move(snapshot), backs)
        , corner_(shorts_.ground())
        , near_(shorts_.snapshot(), devices_of(shorts_.snapshot(), net))
        , element_(net.branches.size(), -1) {
        const auto& elements = shorts_.snapshot().elements;
        for (std::size_t i = 0; i < elements.size(); ++i)
            element_[at(elements[i].branch)] = static_cast<int>(i);
    }

    /// The devices first or second from either end of the short.
    struct Device {
        int branch;
        bool next_to;
    };
    std::vector<Device> devices(int node, int back) {
        std::vector<Device> out;
        for (const int end : {node, back})
            for (const auto& near : near_.devices(end)) {
                const int branch = shorts_.snapshot().elements[at(near.element)].branch;
                const auto same =
                    std::find_if(out.begin(), out.end(), [&](const Device& d) { return d.branch == branch; });
                if (same == out.end())
                    out.push_back({branch, near.next_to});
                else
                    same->next_to = same->next_to || near.next_to;
            }
        return out;
    }

    /// Devices that this network lacks carry nothing in it.
    std::optional<Case> seen(int node, int back, const std::vector<Device>& devices) {
        auto ends = shorts_.ends(node, back);
        if (!ends) return {};
        std::vector<std::size_t> here;
        const Snapshot& s = shorts_.snapshot();
        const auto& feeders = shorts_.ground().feeders;
        for (std::size_t k = 0; k < feeders.size(); ++k)
            if (s.live_part[at(feeders[k].plus)] == s.live_part[at(node)]) here.push_back(k);
        if (here.empty()) return {};
        std::vector<int> wanted;
        for (const Device& d : devices)
            if (element_[at(d.branch)] >= 0) wanted.push_back(element_[at(d.branch)]);
        std::vector<Shorts::Carried> found, carried;
        shorts_.carried(node, back, wanted, found, scratch_);
        auto next = found.begin();
        const std::vector<double> nothing(feeders.size());
        for (const Device& d : devices)
            carried.push_back(element_[at(d.branch)] >= 0 ? std::move(*next++)
                                                          : Shorts::Carried{0, 0, nothing});
        return Case(shorts_, corner_, std::move(*ends), std::move(here), std::move(carried));
    }

    std::size_t size() const { return shorts_.snapshot().elements.size(); }

private:
    static std::vector<bool> devices_of(const Snapshot& snapshot, const network::Network& net) {
        std::vector<bool> out;
        for (const Element& e : snapshot.elements) out.push_back(is_device(net.branches[at(e.branch)]));
        return out;
    }

    Shorts shorts_;
    Corner corner_;
    Near near_;
    std::vector<int> element_; // of each branch; -1 = not in this network
    Inverse::Scratch scratch_;
};

/// What each device carries at least in one short.
class Least {
public:
    Least(Side& hot, bool all_known, int node, int back, const std::vector<Side::Device>& devices)
        : seen_(hot.seen(node, back, devices)) {
        if (!seen_) return;
        if (!all_known) near_ = hot.devices(node, back);
        all_known_ = all_known;
        for (std::size_t k = 0; k < seen_->here().size(); ++k) {
            const bool limited = seen_->feeder(k).limited();
            battery_ = battery_ || !limited;
            may_.push_back({SourceState::strong});
            if (limited)
                may_.back().push_back(SourceState::absent);
            else if (seen_->feeder(k).weak_ohm > 0)
                may_.back().push_back(SourceState::weak);
        }
    }

    /// Empty where it is not known.
    std::optional<Extreme> of(std::size_t device, int branch, double sign) {
        const auto is_here = [&](const Side::Device& d) { return d.branch == branch; };
        if (!seen_ || (!all_known_ && std::none_of(near_.begin(), near_.end(), is_here))) return {};
        Extreme out = battery_ ? Search(*seen_, may_).most(device, -sign) : of_one(device, -sign);
        out.current_A = -out.current_A;
        return out;
    }

    const Case& seen() const { return *seen_; }

private:
    /// Where only limited sources reach: one alone, at its plain limit.
    Extreme of_one(std::size_t device, double sign) {
        std::optional<Extreme> best;
        for (std::size_t k = 0; k < may_.size(); ++k) {
            States states(may_.size(), SourceState::absent);
            states[k] = SourceState::weak;
            const double current_A = sign * seen_->currents(states)[device];
            // One that does not reach the fault through it makes no fault there.
            const bool none = std::fabs(current_A) < 1e-6;
            if (!none && (!best || current_A > best->current_A)) best = {current_A, std::move(states)};
        }
        return best.value_or(Extreme{0, States(may_.size(), SourceState::absent)});
    }

    std::optional<Case> seen_;
    Search::May may_;
    std::vector<Side::Device> near_;
    bool all_known_ = true, battery_ = false;
};

std::vector<InState> named(const Case& of, const States& states) {
    std::vector<InState> out;
    for (std::size_t k = 0; k < states.size(); ++k) out.push_back({of.feeder(k).component, states[k]});
    return out;
}

/// A place may be shorted to several returns; a device then has the extremes over all of them.
void add(Through made, Devices& out) {
    const auto same =
        std::find_if(out.begin(), out.end(), [&](const Through& t) { return t.branch == made.branch; });
    if (same == out.end()) {
        out.push_back(std::move(made));
        return;
    }
    if (made.forward != same->forward) { // carried either way: the greater one counts
        if (made.greatest > same->greatest) *same = std::move(made);
        return;
    }
    same->next_to = same->next_to || made.next_to;
    if (made.greatest > same->greatest)
        same->greatest = made.greatest, same->at_greatest = std::move(made.at_greatest);
    if (!made.least || !same->least)
        same->least = {}, same->at_least = {};
    else if (*made.least < *same->least)
        same->least = made.least, same->at_least = std::move(made.at_least);
}

class Study {
public:
    Study(const plan::Installation& in, const network::Network& net, const std::vector<int>& opened)
        : Study(range(in, net), net, backs(in, net), opened) {}

    Devices at_node(int node) {
        Devices out;
        double total_A = 0;
        for (const int back : backs_[at(node)]) one_short(node, back, out, total_A);
        constexpr double least_share = 0.01;
        std::erase_if(out, [&](const Through& t) { return t.greatest.si() < least_share * total_A; });
        return out;
    }

private:
    Study(Range range, const network::Network& net, std::vector<std::vector<int>> backs,
          const std::vector<int>& opened)
        : backs_(std::move(backs))
        , cold_(without(std::move(range.cold), opened), net, backs_)
        , hot_(without(std::move(range.hot), opened), net, backs_) {}

    static Snapshot without(Snapshot snapshot, const std::vector<int>& opened) {
        std::erase_if(snapshot.elements, [&](const Element& e) {
            return std::find(opened.begin(), opened.end(), e.branch) != opened.end();
        });
        return snapshot;
    }

    void one_short(int node, int back, Devices& out, double& total_A) {
        const auto devices = cold_.devices(node, back);
        auto cold = cold_.seen(node, back, devices);
        if (!cold) return;
        total_A = std::max(total_A, cold->strongest_A());
        Search::May may;
        for (std::size_t k = 0; k < cold->here().size(); ++k) {
            may.push_back({SourceState::strong});
            if (!cold->feeder(k).limited() && cold->feeder(k).weak_ohm > 0)
                may.back().push_back(SourceState::weak);
            may.back().push_back(SourceState::absent);
        }
        const Search search(*cold, may);
        Least least(hot_, hot_.size() == cold_.size(), node, back, devices);
        for (std::size_t d = 0; d < devices.size(); ++d) {
            const Extreme up = search.most(d, 1), down = search.most(d, -1);
            Through made;
            made.branch = devices[d].branch;
            made.next_to = devices[d].next_to;
            made.forward = up.current_A >= down.current_A;
            const Extreme& most = made.forward ? up : down;
            if (!(most.current_A > 1e-6)) continue;
            made.greatest = Current::si(most.current_A);
            made.at_greatest = named(*cold, most.states);
            if (const auto low = least.of(d, made.branch, made.forward ? 1.0 : -1.0)) {
                made.least = Current::si(low->current_A);
                made.at_least = named(least.seen(), low->states);
            }
            add(std::move(made), out);
        }
    }

    const std::vector<std::vector<int>> backs_;
    Side cold_, hot_;
};

} // namespace

std::vector<Devices> through_devices(const plan::Installation& installation,
                                     const network::Network& network) {
    std::vector<Devices> out;
    Study study(installation, network, {});
    for (std::size_t n = 0; n < network.nodes.size(); ++n) out.push_back(study.at_node(static_cast<int>(n)));
    return out;
}

Devices through_devices(const plan::Installation& installation, const network::Network& network, int node,
                        const std::vector<int>& opened) {
    return Study(installation, network, opened).at_node(node);
}

} // namespace fl::fault
