#include "core/arrange/rail.h"

#include <algorithm>

namespace fl::arrange {
namespace {

/// Along the rail and across it: the same code serves level and upright ones.
struct Aim {
    int along = 0, across = 0;
    bool faces = false; ///< leaves its own part straight towards or away from the rail
};

} // namespace

std::vector<Spike> tap(Rail& rail, const std::vector<std::optional<Spike>>& spikes, int most) {
    const auto n = spikes.size();
    std::vector<Aim> aims(n);
    for (std::size_t i = 0; i < n; ++i) {
        if (!spikes[i]) {
            aims[i] = {1 << 20, 8, true}; // goes on elsewhere: at the far end
            continue;
        }
        const Cell d = spikes[i]->at - rail.at;
        aims[i] = rail.upright ? Aim{d.y, d.x, level(spikes[i]->out)} : Aim{d.x, d.y, !level(spikes[i]->out)};
    }
    const int first = 1;
    std::vector<int> along(n, 0);
    std::vector<int> where(n, 0); // -1 at the near end, 1 at the far end, 0 beside
    // the ends take one each: what lies in line with them, else what lies beyond
    const auto take_end = [&](int which, auto beyond) {
        std::size_t best = n;
        for (std::size_t i = 0; i < n; ++i) {
            if (where[i] != 0 || !spikes[i] || !beyond(aims[i])) continue;
            const auto better = [&](const Aim& a, const Aim& b) {
                return std::abs(a.across) < std::abs(b.across);
            };
            if (best == n || better(aims[i], aims[best])) best = i;
        }
        if (best < n) where[best] = which;
    };
    int reach = 0;
    for (std::size_t i = 0; i < n; ++i)
        if (spikes[i] && aims[i].faces && aims[i].across != 0) reach = std::max(reach, aims[i].along);
    if (!rail.upright)
        take_end(-1,
                 [&](const Aim& a) { return a.along < first && (!a.faces || a.across == 0 || a.along < 0); });
    // returns that are gathered upright are led off at the lower end
    take_end(1,
             [&](const Aim& a) { return (a.along > reach || rail.upright) && (!a.faces || a.across == 0); });

    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < n; ++i)
        if (where[i] == 0 && spikes[i]) order.push_back(i);
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return aims[a].along < aims[b].along; });
    const auto beside = static_cast<int>(std::count(where.begin(), where.end(), 0));
    const int gap = first + (beside - 1) * 2 > most ? 1 : 2;
    int next = first, left = static_cast<int>(order.size());
    for (const std::size_t i : order) {
        --left; // leave room for those behind
        along[i] = std::clamp(aims[i].along, next, std::max(next, most - left * gap));
        next = along[i] + gap;
    }
    int last = next - gap;
    // what goes on elsewhere follows the last, or takes a gap between the others
    for (std::size_t i = 0; i < n; ++i) {
        if (where[i] != 0 || spikes[i]) continue;
        int at = last + gap;
        const auto free = [&](int a) {
            for (std::size_t k = 0; k < n; ++k)
                if (k != i && where[k] == 0 && along[k] > 0 && std::abs(along[k] - a) < gap) return false;
            return true;
        };
        if (at > most)
            for (int a = most; a >= first; --a)
                if (free(a)) {
                    at = a;
                    break;
                }
        along[i] = at;
        last = std::max(last, at);
    }
    const bool far_end = std::count(where.begin(), where.end(), 1) > 0;
    rail.length =
        std::max(beside > 0 ? std::max(last, std::min(last + 1, most)) : 0, std::min(4, std::max(most, 1)));
    if (!far_end && n == 0) rail.length = std::max(1, std::min(10, most));

    std::vector<Spike> taps(n);
    for (std::size_t i = 0; i < n; ++i) {
        const int a = where[i] < 0 ? 0 : where[i] > 0 ? rail.length : along[i];
        taps[i].at = rail.at + (rail.upright ? Cell{0, a} : Cell{a, 0});
        if (where[i] != 0)
            taps[i].out = rail.upright ? (where[i] < 0 ? Direction::up : Direction::down)
                                       : (where[i] < 0 ? Direction::left : Direction::right);
        else
            taps[i].out = rail.upright ? (aims[i].across < 0 ? Direction::left : Direction::right)
                                       : (aims[i].across < 0 ? Direction::up : Direction::down);
    }
    return taps;
}

std::vector<Spike> join(Rail& joint, const std::vector<std::optional<Spike>>& aims) {
    const auto n = aims.size();
    // a dot serves three; each further one takes two steps of a short line
    const int inner = std::max(1, static_cast<int>(n) - 2);
    joint.length = 2 * (inner - 1);
    std::vector<std::optional<Spike>> taps(n);
    const auto wish = [&](std::size_t i) {
        if (!aims[i]) return Direction::right;
        const Cell d = aims[i]->at - joint.at;
        if (std::abs(d.y) > std::abs(d.x) || (!level(aims[i]->out) && d.x == 0))
            return d.y < 0 ? Direction::up : Direction::down;
        return d.x < 0 ? Direction::left : Direction::right;
    };
    const auto end = [&](Direction d) {
        return Spike{joint.at + Cell{d == Direction::right ? joint.length : 0, 0}, d};
    };
    const auto taken = [&](const Spike& s) {
        return std::any_of(taps.begin(), taps.end(),
                           [&](const auto& t) { return t && t->at == s.at && t->out == s.out; });
    };
    for (const Direction d : {Direction::left, Direction::right})
        for (std::size_t i = 0; i < n; ++i)
            if (!taps[i] && wish(i) == d && !taken(end(d))) taps[i] = end(d);
    std::vector<std::size_t> rest;
    for (std::size_t i = 0; i < n; ++i)
        if (!taps[i]) rest.push_back(i);
    std::stable_sort(rest.begin(), rest.end(), [&](std::size_t a, std::size_t b) {
        return (aims[a] ? aims[a]->at.x : 1 << 20) < (aims[b] ? aims[b]->at.x : 1 << 20);
    });
    int at = 0;
    for (const std::size_t i : rest) {
        if (at <= joint.length) {
            taps[i] =
                Spike{joint.at + Cell{at, 0}, wish(i) == Direction::up ? Direction::up : Direction::down};
            at += 2;
        } else {
            taps[i] = end(taken(end(Direction::right)) ? Direction::left : Direction::right);
        }
    }
    std::vector<Spike> out;
    for (const auto& t : taps) out.push_back(*t);
    return out;
}

} // namespace fl::arrange
