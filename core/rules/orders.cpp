#include "core/rules/orders.h"

#include "core/quantity/limit.h"
#include "core/rules/through.h"

#include <algorithm>

namespace fl::rules {
namespace {

/// A device and its end at which what it gets from the sources comes in.
struct Entry {
    const Device* device;
    int from = -1, to = -1;
};

class Rows {
public:
    explicit Rows(const Seen& facts)
        : facts_(facts)
        , sides_(facts.network, facts.live)
        , throughs_(facts, facts.live) {}

    void add(const Device& lower, int from, int to, std::vector<Series>& out) const {
        const auto most = throughs_.into(lower.branch, from, to, Throughs::Which::largest);
        // A short that gives no more than it carries opens nothing.
        if (!most || !above(*most, lower.rating.value_or(Current{}))) return;
        std::vector<Entry> uppers;
        for (const Device& d : facts_.devices)
            if (const auto entry = upper(d, lower, from)) uppers.push_back(*entry);
        for (const Entry& up : uppers) {
            Series s;
            s.lower = lower.branch;
            s.upper = up.device->branch;
            s.forward = from == facts_.network.branches[at(lower.branch)].a;
            s.next = std::none_of(uppers.begin(), uppers.end(), [&](const Entry& other) {
                return other.device != up.device && !sides_.reached(other.device->branch, other.to, up.to);
            });
            s.most = *most;
            const auto through = throughs_.into(up.device->branch, up.from, to, Throughs::Which::largest);
            s.upper_most = through.value_or(Current{});
            if (through && lower.type && lower.rating && up.device->type && up.device->rating)
                s.order = protect::order_of_opening(*lower.type, *lower.rating, *up.device->type,
                                                    *up.device->rating, *most, through->si() / most->si());
            out.push_back(s);
        }
    }

private:
    /// Empty unless it alone joins a source to the lower one's end.
    std::optional<Entry> upper(const Device& d, const Device& lower, int from) const {
        if (d.branch == lower.branch || !sides_.is_bridge(d.branch)) return {};
        const auto& b = facts_.network.branches[at(d.branch)];
        for (const auto& [in, out] : {std::pair{b.a, b.b}, {b.b, b.a}}) {
            if (!sides_.reached(d.branch, out, from)) continue;
            const bool feeds =
                std::any_of(facts_.sources.begin(), facts_.sources.end(), [&, start = in](const auto& s) {
                    return sides_.reached(d.branch, start, s.node) &&
                           sides_.reached(lower.branch, from, s.node);
                });
            if (feeds) return Entry{&d, in, out};
        }
        return {};
    }

    const Seen& facts_;
    network::Sides sides_;
    Throughs throughs_;
};

} // namespace

std::vector<Series> series(const Facts& facts) {
    return series(Seen(facts));
}

std::vector<Series> series(const Seen& seen) {
    const Rows rows(seen);
    std::vector<Series> out;
    for (const Device& d : seen.devices) {
        const auto& b = seen.network.branches[at(d.branch)];
        if (!seen.live[at(d.branch)]) continue;
        rows.add(d, b.a, b.b, out);
        rows.add(d, b.b, b.a, out);
    }
    return out;
}

} // namespace fl::rules
