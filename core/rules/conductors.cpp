#include "core/quantity/limit.h"
#include "core/rules/list.h"

#include <algorithm>
#include <cmath>

// Does each conductor carry its current, and is it thick enough to be laid at all?

namespace fl::rules {
namespace {

struct Hot {
    int branch = -1;
    bool live = false;
    double current_A = 0;
    int condition = -1;
};

} // namespace

void conductor_overheats(const Seen& facts, std::vector<Finding>& out) {
    std::vector<Hot> hot;
    for (std::size_t b = 0; b < facts.network.branches.size(); ++b) {
        const auto* c = conductor_of(facts, static_cast<int>(b));
        const auto& running = facts.envelope.branch_current[b];
        if (!c || facts.may_carry[b].si() <= 0 || !above(running.value, facts.may_carry[b])) continue;
        if (c->origin == plan::Origin::as_found && !facts.changed[b]) continue;
        hot.push_back({static_cast<int>(b), facts.live[b], running.value.si(), running.condition});
    }
    // Live ones first: a return that is as thin as its own live conductor is the same cause.
    std::stable_sort(hot.begin(), hot.end(), [](const Hot& x, const Hot& y) { return x.live > y.live; });
    std::vector<std::vector<Hot>> causes;
    for (const Hot& h : hot) {
        const auto same = std::find_if(causes.begin(), causes.end(), [&](const std::vector<Hot>& cause) {
            const Hot& first = cause.front();
            return first.condition == h.condition &&
                   std::fabs(first.current_A - h.current_A) <= 1e-6 * first.current_A;
        });
        if (same != causes.end())
            same->push_back(h);
        else
            causes.push_back({h});
    }
    for (const auto& cause : causes) {
        const bool shared = std::any_of(facts.returns.begin(), facts.returns.end(), [&](const ReturnLoad& r) {
            return r.branch == cause.front().branch && r.shared;
        });
        if (shared) continue; // shared-return-thin says so
        // The one that is furthest above what it may carry speaks.
        const Hot& worst = *std::max_element(cause.begin(), cause.end(), [&](const Hot& x, const Hot& y) {
            return x.current_A / facts.may_carry[at(x.branch)].si() <
                   y.current_A / facts.may_carry[at(y.branch)].si();
        });
        const auto* c = conductor_of(facts, worst.branch);
        const auto& running = facts.envelope.branch_current[at(worst.branch)];
        Finding f = make(facts, "conductor-overheats");
        f.subjects.push_back(plan::Subject::of(c->id));
        for (const Hot& h : cause)
            if (h.branch != worst.branch)
                f.subjects.push_back(subject_of(facts.network.branches[at(h.branch)]));
        f.values["current"] = running.value;
        f.values["may_carry"] = facts.may_carry[at(worst.branch)];
        f.values["size"] = *c->size;
        const auto& warm = facts.envelope.branch_temperature[at(worst.branch)];
        const auto& insulation = catalogue::insulation_of(facts.installation, *c);
        if (warm && facts.installation.basis.temperature == plan::ConductorTemperature::solved) {
            // The solver follows the copper no further than what its insulation stands.
            const bool beyond = !above(insulation.limit.si(), warm.value.si());
            f.values[beyond ? "stands" : "temperature"] = beyond ? insulation.limit : warm.value;
        }
        if (c->origin == plan::Origin::as_found) // never sized
            f.values["as_found"] = c->designation;
        else if (const auto size = size_for(facts, *c, running.value, 1))
            f.values["fit_size"] = *size;
        f.condition = condition_of(facts, running);
        out.push_back(std::move(f));
    }
}

namespace {

/// Conductors that belong together: of one circuit, or in a row with a device between.
class Groups {
public:
    explicit Groups(const Seen& facts)
        : of_(facts.network.branches.size()) {
        for (std::size_t b = 0; b < of_.size(); ++b) of_[b] = static_cast<int>(b);
        for (const auto& circuit : facts.circuits)
            for (const auto id : circuit.conductors)
                join(facts.network.branch_of(circuit.conductors.front()), facts.network.branch_of(id));
        const auto at_node = branches_at(facts.network);
        for (const Device& d : facts.devices) {
            const auto& b = facts.network.branches[at(d.branch)];
            for (const int x : at_node[at(b.a)])
                for (const int y : at_node[at(b.b)])
                    if (conductor_of(facts, x) && conductor_of(facts, y)) join(x, y);
        }
    }
    int of(int branch) const {
        while (of_[at(branch)] != branch) branch = of_[at(branch)];
        return branch;
    }

private:
    void join(int x, int y) {
        if (x >= 0 && y >= 0) of_[at(std::max(of(x), of(y)))] = std::min(of(x), of(y));
    }
    std::vector<int> of_;
};

} // namespace

void area_below_minimum(const Seen& facts, std::vector<Finding>& out) {
    const Groups groups(facts);
    std::map<std::pair<int, double>, std::size_t> causes; // by group and size
    for (std::size_t b = 0; b < facts.network.branches.size(); ++b) {
        const auto* c = conductor_of(facts, static_cast<int>(b));
        if (!c || !c->size || c->origin == plan::Origin::as_found) continue;
        const auto& set = facts.rule_set;
        const bool signal = c->role == plan::Role::signal;
        const WireSize& least = c->cable ? set.least_in_cable : signal ? set.least_signal : set.least_single;
        if (!above(least.area, area_of(*c))) continue;
        const std::pair cause{groups.of(static_cast<int>(b)), area_of(*c).si()};
        const auto [known, fresh] = causes.try_emplace(cause, out.size());
        if (!fresh) {
            out[known->second].subjects.push_back(plan::Subject::of(c->id));
            continue;
        }
        Finding f = make(facts, "area-below-minimum",
                         c->cable ? "area.multicore"
                         : signal ? "area.signal"
                                  : "area.single");
        f.subjects.push_back(plan::Subject::of(c->id));
        f.values["size"] = *c->size;
        f.values["fit_size"] = least;
        out.push_back(std::move(f));
    }
}

} // namespace fl::rules
