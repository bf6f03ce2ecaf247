#include "core/rules/suited.h"

#include "core/protect/curve.h"
#include "core/quantity/limit.h"
#include "core/rules/suiting.h"
#include "core/rules/through.h"
#include "core/sizing/endure.h"

#include <algorithm>
#include <cmath>

namespace fl::rules {
namespace {

constexpr double never = std::numeric_limits<double>::infinity();

double over(double meets, double bears) {
    return meets <= 0 ? 0 : bears > 0 ? meets / bears : never;
}

void keep(std::optional<Suit>& worst, Suit suit) {
    if (!worst || suit.share > worst->share) worst = std::move(suit);
}

class Suiting {
public:
    explicit Suiting(const Seen& facts)
        : facts_(facts)
        , throughs_(facts, facts.live)
        , breaks_(breaks(facts))
        , backed_(backed_up(facts, breaks_))
        , highest_(highest_of_islands(facts))
        , protects_(facts.network.branches.size()) {
        for (std::size_t b = 0; b < facts.network.branches.size(); ++b)
            if (const auto* p = placement_of(facts, static_cast<int>(b));
                p && !p->return_side && p->is_protected)
                for (const int d : p->devices) protects_[at(d)].push_back(static_cast<int>(b));
    }

    Suited judge(const Device& d) const {
        Suited out{d.branch, d.subject, {}};
        const auto put = [&](std::optional<Suit> suit) {
            if (suit) out.checks.push_back(std::move(*suit));
        };
        put(continuous(d));
        put(conductor(d));
        put(voltage(d));
        put(breaking(d));
        put(opens(d, false));
        put(opens(d, true));
        put(rides_through(d));
        return out;
    }

private:
    std::optional<Suit> continuous(const Device& d) const {
        const auto& running = facts_.envelope.branch_current[at(d.branch)];
        if (!d.rating) return {};
        const Current bears = *d.rating * continuous_factor();
        return Suit{.check = Check::continuous,
                    .share = over(running.value.si(), bears.si()),
                    .meets = running.value,
                    .bears = bears,
                    .current = running.value,
                    .condition = condition_of(facts_, running),
                    .conductor = {}};
    }
    std::optional<Suit> conductor(const Device& d) const {
        std::optional<Suit> worst;
        if (!d.rating) return worst;
        for (const int b : protects_[at(d.branch)]) {
            const Current allowed = placement_of(facts_, b)->allowed;
            if (allowed.si() <= 0) continue;
            keep(worst, {.check = Check::conductor,
                         .share = over(d.rating->si(), allowed.si()),
                         .meets = *d.rating,
                         .bears = allowed,
                         .current = {},
                         .condition = {},
                         .conductor = facts_.network.branches[at(b)].conductor});
        }
        return worst;
    }
    std::optional<Suit> voltage(const Device& d) const {
        const auto highest = highest_.find(facts_.live_island[at(facts_.network.branches[at(d.branch)].a)]);
        if (!d.voltage || highest == highest_.end()) return {};
        return Suit{.check = Check::voltage,
                    .share = over(highest->second.si(), d.voltage->si()),
                    .meets = highest->second,
                    .bears = *d.voltage,
                    .current = {},
                    .condition = {},
                    .conductor = {}};
    }
    std::optional<Suit> breaking(const Device& d) const {
        const auto found = std::find_if(breaks_.begin(), breaks_.end(),
                                        [&](const Break& b) { return b.device.branch == d.branch; });
        if (found == breaks_.end() || backed_[static_cast<std::size_t>(found - breaks_.begin())]) return {};
        return Suit{.check = Check::breaking,
                    .share = over(found->fault.si(), found->capacity.si()),
                    .meets = found->fault,
                    .bears = found->capacity,
                    .current = found->fault,
                    .condition = {},
                    .conductor = {},
                    .node = found->node};
    }

    /// At the least short at either end of what it alone protects; `whole`: at all currents up to the
    /// largest, too.
    std::optional<Suit> opens(const Device& d, bool whole) const {
        std::optional<Suit> worst;
        if (!d.type || !d.rating) return worst;
        const auto& branch = facts_.network.branches[at(d.branch)];
        for (const int b : protects_[at(d.branch)]) {
            const auto* wire = conductor_of(facts_, b);
            if (!wire || !wire->size || wire->origin == plan::Origin::as_found) continue;
            const auto& core = facts_.network.branches[at(b)];
            const auto lie = sizing::lie_of(facts_.installation, *wire);
            for (const auto& [from, to] : {std::pair{branch.a, branch.b}, {branch.b, branch.a}}) {
                // What feeds in beyond it keeps its current down only until that has opened.
                if (throughs_.has_battery(d.branch, to)) continue;
                Current least = Current::si(never), most;
                int far = -1;
                for (const int node : {core.a, core.b}) {
                    using Which = Throughs::Which;
                    if (!throughs_.is_only_way(d.branch, from, node)) continue;
                    const auto low = throughs_.into(d.branch, from, node, Which::least);
                    const auto high = throughs_.into(d.branch, from, node, Which::largest);
                    if (low && *low > Current{} && *low < least) least = *low, far = node;
                    if (high) most = std::max(most, *high);
                }
                if (far < 0) continue;
                if (electronics_open(far, least)) { // then it stays whole; they may fail closed, too
                    if (!whole || most <= least) continue;
                    least = most;
                }
                for (const Current i : whole ? between(d, least, most) : std::vector<Current>{least})
                    if (auto suit = at_current(d, *wire->size, lie, i)) {
                        suit->conductor = wire->id;
                        suit->check = whole ? Check::withstand : Check::opens;
                        suit->node = far;
                        keep(worst, std::move(*suit));
                    }
            }
        }
        return worst;
    }
    /// True when batteries whose own electronics open below a current are all that gives it.
    bool electronics_open(int node, Current current) const {
        const auto& least = facts_.faults[at(node)].least;
        return least && !least->shares.empty() &&
               std::all_of(least->shares.begin(), least->shares.end(), [&](const fault::Share& share) {
                   const auto* b = network::parameters<plan::Battery>(facts_.installation, share.source);
                   const auto limit =
                       b ? (b->pulse_limit ? b->pulse_limit : b->discharge_limit).value : std::nullopt;
                   return b && b->electronics.value == true && (!limit || above(current, *limit));
               });
    }
    static std::optional<Suit> at_current(const Device& d, const WireSize& size, const catalogue::Lie& lie,
                                          Current i) {
        const auto share = opening_share(d, size, lie, i);
        if (!share) return {};
        const auto opens = protect::opening(*d.type, *d.rating, i).greatest;
        return Suit{.share = *share,
                    .meets = opens.value_or(Time::si(never)),
                    .bears = *sizing::endures(size, lie, i),
                    .current = i,
                    .condition = {},
                    .conductor = {}};
    }
    /// Both, the gates between, and enough others: between gates the band is straight in logarithms, the
    /// wire's limit nearly so.
    std::vector<Current> between(const Device& d, Current least, Current most) const {
        std::vector<Current> all{least};
        if (most <= least) return all;
        all.push_back(most);
        for (const auto& gate : catalogue::gates_for(*d.type, *d.rating))
            if (const Current i = *d.rating * gate.multiple; i > least && i < most) all.push_back(i);
        constexpr int steps = 12;
        for (int n = 1; n < steps; ++n)
            all.push_back(least * std::pow(most / least, static_cast<double>(n) / steps));
        return all;
    }

    /// The conditions of seconds; what runs for longer than such a condition says so itself.
    std::optional<Suit> rides_through(const Device& d) const {
        std::optional<Suit> worst;
        if (!d.type || !d.rating) return worst;
        for (const auto& solved : facts_.conditions) {
            const auto& lasts = solved.condition.duration;
            const int r = solved.setup.map.resistor_of_branch[at(d.branch)];
            if (!lasts || r < 0 || !solved.solution.usable) continue;
            const Current i = Current::si(std::fabs(solved.solution.resistor_A[at(r)]));
            const auto opens = protect::opening(*d.type, *d.rating, i).least;
            if (!opens || !above(i, *d.rating)) continue;
            const Time time = std::max(*lasts, longest_duty(solved, i));
            keep(worst, {.check = Check::rides_through,
                         .share = over(time.si(), opens->si()),
                         .meets = time,
                         .bears = *opens,
                         .current = i,
                         .condition = solved.condition.name,
                         .conductor = {}});
        }
        return worst;
    }
    /// How long the loads of short duty run that make up most of a current.
    Time longest_duty(const condition::Solved& solved, Current i) const {
        Time longest;
        for (std::size_t p = 0; p < facts_.network.ports.size(); ++p) {
            const auto* load = network::parameters<plan::Load>(facts_.installation, facts_.network.ports[p]);
            const int index = solved.setup.map.load_of_port[p];
            if (!load || !load->on_time || load->duty == plan::Duty::continuous || index < 0) continue;
            const double own_A = std::fabs(solved.solution.load_A[at(index)]);
            if (own_A >= i.si() / 2 && own_A <= i.si() * (1 + 1e-6))
                longest = std::max(longest, *load->on_time);
        }
        return longest;
    }

    const Seen& facts_;
    Throughs throughs_;
    std::vector<Break> breaks_;
    std::vector<bool> backed_; ///< per break
    std::map<int, Voltage> highest_;
    std::vector<std::vector<int>> protects_; ///< per device's branch: conductors that are protected by it
};

} // namespace

std::optional<double> opening_share(const Device& device, const WireSize& size, const catalogue::Lie& lie,
                                    Current current) {
    if (!device.type || !device.rating) return {};
    const auto band = protect::opening(*device.type, *device.rating, current);
    const auto stands = sizing::endures(size, lie, current);
    if (!stands || (!band.least && !band.greatest)) return {};
    if (std::isinf(stands->si())) return 0;
    return band.greatest ? over(band.greatest->si(), stands->si()) : never;
}

const Suit* Suited::of(Check check) const {
    const auto found =
        std::find_if(checks.begin(), checks.end(), [&](const Suit& s) { return s.check == check; });
    return found != checks.end() ? &*found : nullptr;
}

const Suit* Suited::tightest() const {
    const auto most = std::max_element(checks.begin(), checks.end(),
                                       [](const Suit& x, const Suit& y) { return x.share < y.share; });
    return most != checks.end() ? &*most : nullptr;
}

std::vector<Suited> suited(const Seen& facts) {
    const Suiting suiting(facts);
    std::vector<Suited> all;
    for (const Device& d : facts.devices) all.push_back(suiting.judge(d));
    return all;
}

std::vector<Suited> suited(const Facts& facts) {
    return suited(Seen(facts));
}

} // namespace fl::rules
