#include "core/quantity/limit.h"
#include "core/quantity/print.h"
#include "core/sizing/sizing.h"

#include <algorithm>
#include <utility>

namespace fl::sizing {
namespace {

const std::vector<WireSize>& sizes(bool gauges) {
    return gauges ? catalogue::gauge_sizes() : catalogue::metric_sizes();
}

template <class Meets>
std::optional<WireSize> first(const std::vector<WireSize>& all, Meets&& meets) {
    const auto found = std::find_if(all.begin(), all.end(), std::forward<Meets>(meets));
    if (found == all.end()) return {};
    return *found;
}

bool carries(const WireSize& size, const Lie& lie, Current current) {
    const std::optional<Current> allowed = may_carry(size, lie);
    return allowed && !above(current, *allowed);
}

Temperature judged_at(const Needs& needs, const Lie& lie, const WireSize& size) {
    const Temperature limit = lie.insulation ? lie.insulation->limit : lie.ambient;
    switch (needs.temperature) {
    case plan::ConductorTemperature::plain_20C:
        return Temperature::celsius(20);
    case plan::ConductorTemperature::rated:
        return limit;
    case plan::ConductorTemperature::solved:
        break;
    }
    return temperature(size, lie, needs.drop_current.value_or(needs.running)).value_or(limit);
}

std::optional<Voltage> lost(const Needs& needs, const Lie& lie, const WireSize& size) {
    const Temperature at = judged_at(needs, lie, size);
    const Current current = needs.drop_current.value_or(needs.running);
    if (!needs.ideal_copper) return drop(size, *needs.loop, current, at);
    const Resistance cold = plain_resistance(size.area, *needs.loop, annealed_copper_ohm_mm2_per_m);
    return current * at_temperature(cold, at);
}

std::vector<Demand> demands(const Needs& needs, const Lie& lie) {
    const std::vector<WireSize>& all = sizes(needs.gauges);
    std::vector<Demand> out;
    auto ask = [&](const char* code, std::string by, auto&& meets) {
        out.push_back({code, first(all, meets), std::move(by)});
    };
    ask("current", "running current " + text(needs.running),
        [&](const WireSize& s) { return carries(s, lie, needs.running); });
    if (needs.device)
        ask("protection", "device " + text(*needs.device), [&](const WireSize& s) {
            return needs.device_multiple > 0 && carries(s, lie, *needs.device / needs.device_multiple);
        });
    if (needs.drop && needs.loop)
        ask("drop", "drop " + text(*needs.drop) + " over " + text(*needs.loop), [&](const WireSize& s) {
            const std::optional<Voltage> v = lost(needs, lie, s);
            return v && !above(*v, *needs.drop);
        });
    if (needs.let_through && lie.insulation && lie.insulation->k_A_sqrt_s_per_mm2) {
        const Area least = area_to_withstand(*needs.let_through, *lie.insulation->k_A_sqrt_s_per_mm2);
        ask("withstand", "let-through " + text(*needs.let_through),
            [&](const WireSize& s) { return !above(least, s.area); });
    }
    ask("minimum", "smallest allowed " + text(needs.minimum),
        [&](const WireSize& s) { return !above(needs.minimum.area, s.area); });
    return out;
}

} // namespace

Size least_size(const Needs& needs, const Lie& lie) {
    Size out{.demands = demands(needs, lie), .least = {}, .governing = {}};
    for (const Demand& demand : out.demands) {
        if (!demand.least) {
            out.least.reset();
            out.governing = demand.code;
            return out;
        }
        if (out.least && demand.least->area <= out.least->area) continue;
        out.least = demand.least;
        out.governing = demand.code;
    }
    return out;
}

std::optional<WireSize> next_size(Area at_least, bool gauges) {
    return first(sizes(gauges), [&](const WireSize& s) { return !above(at_least, s.area); });
}

std::optional<WireSize> size_for_drop(Length loop, Current current, Voltage allowed, double rho_ohm_mm2_per_m,
                                      bool gauges) {
    return next_size(area_for_drop(loop, current, allowed, rho_ohm_mm2_per_m), gauges);
}

std::optional<Current> next_rating(const catalogue::FuseType& type, Current at_least) {
    for (const Current rating : type.ratings)
        if (!above(at_least, rating)) return rating;
    return {};
}

std::optional<Current> rating_for(const catalogue::FuseType& type, Current continuous,
                                  double continuous_factor) {
    if (!(continuous_factor > 0)) return {};
    return next_rating(type, continuous / continuous_factor);
}

} // namespace fl::sizing
