#include "core/network/sides.h"
#include "core/protect/curve.h"
#include "core/quantity/limit.h"
#include "core/rules/list.h"
#include "core/rules/suiting.h"

#include <algorithm>
#include <cmath>
#include <map>

// Does each link open when it should, and only then?

namespace fl::rules {
namespace {

const Device& device_of(const Seen& facts, int branch) {
    return *std::find_if(facts.devices.begin(), facts.devices.end(),
                         [&](const Device& d) { return d.branch == branch; });
}

/// What devices let through where no battery reaches: a converter or charger gives so much and no more.
class Limited {
public:
    explicit Limited(const Seen& facts)
        : facts_(facts)
        , unlimited_(facts.network.nodes.size()) {
        auto usable = facts.live;
        for (const Device& d : facts.devices) usable[at(d.branch)] = false;
        part_ = network::islands(facts.network, usable);
        for (const auto& s : facts.sources)
            if (!s.limit) unlimited_[at(facts.live_island[at(s.node)])] = true;
    }

    /// The source that alone feeds the device's island; -1 = several, or one without a limit.
    int source_of(const Device& d) const {
        const int island = facts_.live_island[at(facts_.network.branches[at(d.branch)].a)];
        if (unlimited_[at(island)]) return -1;
        int only = -1;
        for (std::size_t s = 0; s < facts_.sources.size(); ++s) {
            if (facts_.live_island[at(facts_.sources[s].node)] != island) continue;
            if (only >= 0) return -1;
            only = static_cast<int>(s);
        }
        return only;
    }
    /// The least that a short behind it gives, before the next device.
    std::optional<Current> least(const Device& d, const network::Sides& sides, int source) const {
        const auto& b = facts_.network.branches[at(d.branch)];
        const int far = sides.reached(d.branch, b.a, facts_.sources[at(source)].node) ? b.b : b.a;
        std::optional<Current> least;
        for (std::size_t n = 0; n < part_.size(); ++n) {
            if (part_[n] != part_[at(far)] || !facts_.faults[n].least) continue;
            if (!least || facts_.faults[n].least->total < *least) least = facts_.faults[n].least->total;
        }
        return least;
    }

private:
    const Seen& facts_;
    std::vector<bool> unlimited_; ///< per live island
    std::vector<int> part_;       ///< per node: what hangs together without devices
};

/// The largest standard rating of a type that is sure to open in time.
std::optional<Current> opens_in_time(const catalogue::FuseType& type, Current current, Time within) {
    std::optional<Current> largest;
    for (const Current rating : type.ratings)
        if (const auto opens = protect::opening(type, rating, current).greatest;
            opens && !above(*opens, within))
            largest = rating;
    return largest;
}

} // namespace

namespace {

void opens_too_late(const Seen& facts, const std::vector<Suited>& all, std::vector<Finding>& out) {
    const Limited limited(facts);
    const double near = catalogue::default_number("fault.near_limit").value;
    for (const Suited& s : all) {
        const Suit* suit = s.of(Check::withstand);
        const Device& d = device_of(facts, s.branch);
        if (!suit || !above(suit->share, 1.0) || limited.source_of(d) >= 0 ||
            as_found(facts, facts.network.branches[at(s.branch)].component))
            continue;
        const auto* wire = facts.installation.conductors.find(suit->conductor);
        Finding f = make(facts, "opens-too-late");
        f.subjects = {s.subject, plan::Subject::of(wire->id)};
        f.values["rating"] = *d.rating;
        f.values["conductor"] = wire->designation;
        f.values["size"] = *wire->size;
        f.values["fault_current"] = suit->current;
        if (const auto& opens = std::get<Time>(suit->meets); std::isfinite(opens.si()))
            f.values["opens_after"] = opens;
        f.values["smokes_after"] = suit->bears;
        if (!above(suit->share, 1 + near)) f.grade = Grade::practice; // curves are not known better
        const auto& running = facts.envelope.branch_current[at(s.branch)];
        const auto lie = sizing::lie_of(facts.installation, *wire);
        for (auto rating = d.type->ratings.rbegin(); rating != d.type->ratings.rend(); ++rating) {
            if (*rating >= *d.rating || above(running.value, *rating * continuous_factor())) continue;
            Device smaller = d;
            smaller.rating = *rating;
            const auto share = opening_share(smaller, *wire->size, lie, suit->current);
            if (!share || above(*share, 1.0)) continue;
            f.values["fit"] = *rating;
            break;
        }
        out.push_back(std::move(f));
    }
}

void opens_in_service(const Seen& facts, const std::vector<Suited>& all, std::vector<Finding>& out) {
    for (const Suited& s : all) {
        const Suit* suit = s.of(Check::rides_through);
        if (!suit || !above(suit->share, 1.0) ||
            as_found(facts, facts.network.branches[at(s.branch)].component))
            continue;
        const Device& d = device_of(facts, s.branch);
        Finding f = make(facts, "opens-in-service");
        f.subjects.push_back(s.subject);
        f.values["rating"] = *d.rating;
        f.values["current"] = suit->current;
        f.values["lasts"] = suit->meets;
        f.values["opens_after"] = suit->bears;
        const Time lasts = std::get<Time>(suit->meets);
        for (const Current rating : d.type->ratings) {
            const auto opens = protect::opening(*d.type, rating, suit->current).least;
            if (above(suit->current, rating) && (!opens || above(lasts, *opens))) continue;
            f.values["fit"] = rating;
            break;
        }
        f.condition = suit->condition;
        out.push_back(std::move(f));
    }
}

} // namespace

void opening_times(const Seen& facts, std::vector<Finding>& out) {
    const auto all = suited(facts);
    opens_too_late(facts, all, out);
    opens_in_service(facts, all, out);
}

void never_opens(const Seen& facts, std::vector<Finding>& out) {
    struct Slow {
        const Device* device;
        Current current;
        double opens_s; ///< infinite = it may not open
    };
    const Time within = catalogue::default_of<Time>("fault.opens_within").value;
    const Limited limited(facts);
    const network::Sides sides(facts.network, facts.live);
    std::map<int, std::vector<Slow>> slow_of; // by source
    std::map<int, int> devices_of;
    for (const Device& d : facts.devices) {
        const int source = limited.source_of(d);
        if (source < 0) continue;
        ++devices_of[source];
        if (!d.type || !d.rating || as_found(facts, facts.network.branches[at(d.branch)].component)) continue;
        const auto least = limited.least(d, sides, source);
        if (!least) continue;
        const auto opens = protect::opening(*d.type, *d.rating, *least).greatest;
        if (opens && !above(*opens, within)) continue;
        slow_of[source].push_back(
            {&d, *least, opens ? opens->si() : std::numeric_limits<double>::infinity()});
    }
    for (auto& [source, slow] : slow_of) {
        std::stable_sort(slow.begin(), slow.end(),
                         [](const Slow& x, const Slow& y) { return x.opens_s > y.opens_s; });
        const Slow& worst = slow.front();
        Finding f = make(facts, "never-opens");
        for (const Slow& s : slow) f.subjects.push_back(s.device->subject);
        f.values["source"] = designation(facts, facts.sources[at(source)].component);
        f.values["fault_current"] = worst.current;
        f.values["rating"] = *worst.device->rating;
        if (std::isfinite(worst.opens_s)) f.values["opens_after"] = Time::si(worst.opens_s);
        if (const auto fit = opens_in_time(*worst.device->type, worst.current, within)) {
            f.values["fit"] = *fit;
            f.values["within"] = within;
        }
        if (slow.size() > 1) f.values["others"] = static_cast<std::int64_t>(slow.size() - 1);
        // Alone on its source it takes nothing else along.
        if (devices_of[source] < 2) f.grade = Grade::practice, f.must = false;
        out.push_back(std::move(f));
    }
}

} // namespace fl::rules
