#include "core/network/part.h"
#include "core/quantity/limit.h"
#include "core/rules/list.h"
#include "core/rules/orders.h"

#include <algorithm>
#include <map>

// Does a short in one circuit put out another one that must stay live?

namespace fl::rules {
namespace {

/// Loads that must stay live, and what they hang on.
class Live {
public:
    explicit Live(const Seen& facts)
        : facts_(facts) {
        for (const auto& p : facts.network.ports)
            if (const auto* load = network::parameters<plan::Load>(facts.installation, p);
                load && load->stays_live)
                loads_.emplace_back(p.component, p.plus);
    }
    bool any() const { return !loads_.empty(); }

    /// Those that go dark when this device opens.
    const std::vector<plan::ComponentId>& behind(int branch) {
        const auto [found, fresh] = behind_.try_emplace(branch);
        if (!fresh) return found->second;
        auto usable = facts_.live;
        usable[at(branch)] = false;
        std::vector<int> from;
        for (const auto& s : facts_.sources) from.push_back(s.node);
        const auto fed = reached(facts_.network, from, usable);
        for (const auto& [load, node] : loads_)
            if (!fed[at(node)]) found->second.push_back(load);
        return found->second;
    }

private:
    const Seen& facts_;
    std::vector<std::pair<plan::ComponentId, int>> loads_;
    std::map<int, std::vector<plan::ComponentId>> behind_; ///< per device
};

/// The largest smaller rating that still carries what runs, with which they open in order.
std::optional<Current> smaller(const Seen& facts, const Series& pair, const Device& low, const Device& up) {
    if (!low.type || !low.rating || !up.type || !up.rating) return {};
    const Current running = facts.envelope.branch_current[at(low.branch)].value;
    for (auto rating = low.type->ratings.rbegin(); rating != low.type->ratings.rend(); ++rating) {
        if (*rating >= *low.rating || above(running, *rating * continuous_factor())) continue;
        const auto order = protect::order_of_opening(*low.type, *rating, *up.type, *up.rating, pair.most,
                                                     pair.upper_most / pair.most);
        if (order && order->kind == protect::Order::Kind::full) return *rating;
    }
    return {};
}

} // namespace

void puts_out_live(const Seen& facts, std::vector<Finding>& out) {
    Live live(facts);
    if (!live.any()) return;
    std::map<int, std::vector<Series>> by_upper; // one device that opens too soon, one finding
    for (const Series& pair : series(facts)) {
        if (!pair.order || pair.order->kind == protect::Order::Kind::full) continue;
        const auto& here = live.behind(pair.lower);
        const auto& all = live.behind(pair.upper);
        const bool others = std::any_of(all.begin(), all.end(), [&](plan::ComponentId id) {
            return std::find(here.begin(), here.end(), id) == here.end();
        });
        const auto id = facts.network.branches[at(pair.lower)].component;
        if (others && !as_found(facts, id)) by_upper[pair.upper].push_back(pair);
    }
    for (auto& [upper, pairs] : by_upper) {
        std::stable_sort(pairs.begin(), pairs.end(), [](const Series& x, const Series& y) {
            return x.order->up_to < y.order->up_to; // none is 0
        });
        const Series& worst = pairs.front();
        Finding f = make(facts, "puts-out-live");
        f.subjects.push_back(subject_of(facts.network.branches[at(worst.lower)]));
        f.subjects.push_back(subject_of(facts.network.branches[at(upper)]));
        const auto& here = live.behind(worst.lower);
        for (const auto id : live.behind(upper))
            if (std::find(here.begin(), here.end(), id) == here.end()) {
                if (!f.values.contains("load")) f.values["load"] = designation(facts, id);
                f.subjects.push_back(plan::Subject::of(id));
            }
        f.values["upper"] = designation(facts, f.subjects[1]);
        f.values["fault_current"] = worst.most;
        if (worst.order->kind == protect::Order::Kind::partial) f.values["up_to"] = worst.order->up_to;
        const auto low = device(facts, worst.lower), up = device(facts, upper);
        if (const auto fit = smaller(facts, worst, *low, *up)) f.values["fit"] = *fit;
        if (pairs.size() > 1) f.values["others"] = static_cast<std::int64_t>(pairs.size() - 1);
        out.push_back(std::move(f));
    }
}

} // namespace fl::rules
