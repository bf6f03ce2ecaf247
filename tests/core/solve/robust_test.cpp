#include "core/solve/blocks.h"
#include "core/solve/heat.h"
#include "core/solve/topology.h"
#include "tests/support/draft.h"
#include "tests/support/property.h"
#include "tests/support/random_circuit.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <map>
#include <set>

// Networks with many limited devices, each of which ends in an accepted point or in a verdict, within the
// bounds; and what there was among them, so that nobody has to believe that it was much.
namespace fl::test {
namespace {

using namespace fl::solve;

using Tally = std::map<std::string, int>;

/// Closed ways among conductors alone, or two supplies in one island.
void shape(const Circuit& c, const Topology& t, Tally& seen) {
    Union joined(c.nodes);
    bool ring = false;
    for (const Resistor& r : c.resistors)
        if (r.closed && r.a >= 0 && r.b >= 0) ring = !joined.join(r.a, r.b) || ring;
    std::map<int, int> supplies;
    for (const Port& p : t.ports)
        if (p.supply) ++supplies[t.island[static_cast<std::size_t>(p.plus)]];
    bool two = false;
    for (const auto& [island, count] : supplies) two = two || count > 1;
    seen["network with rings"] += ring;
    seen["network with two sources in an island"] += two;
}

void elements(const Circuit& c, Tally& seen) {
    seen["resistor"] += static_cast<int>(c.resistors.size());
    seen["battery"] += static_cast<int>(c.batteries.size());
    seen["regulator"] += static_cast<int>(c.regulators.size());
    seen["converter"] += static_cast<int>(c.converters.size());
    seen["load"] += static_cast<int>(c.loads.size());
    seen["diode"] += static_cast<int>(c.diodes.size());
    seen["shared limit"] += static_cast<int>(c.shared_limit_A.size());
    for (const Resistor& r : c.resistors) ++seen[r.closed ? "latch: contact closed" : "latch: contact open"];
    for (const Battery& b : c.batteries) {
        ++seen[b.connected ? "latch: battery connected" : "latch: battery open"];
        if (!b.may_charge) ++seen["latch: charging blocked"];
        if (!b.may_discharge) ++seen["latch: discharging blocked"];
    }
    for (const Converter& v : c.converters) ++seen[v.on ? "latch: converter on" : "latch: converter off"];
    for (const Load& l : c.loads) ++seen[l.on ? "latch: load on" : "latch: load off"];
}

/// Which piece of each law is in force.
void pieces(const Circuit& c, const Solution& s, Tally& seen) {
    for (std::size_t k = 0; k < c.resistors.size(); ++k) {
        const Resistor& r = c.resistors[k];
        if (!r.closed) continue;
        if (!r.thermal) {
            ++seen[r.r20_ohm + r.fixed_ohm == 0 ? "piece: 0 ohm" : "piece: resistance"];
            continue;
        }
        const Warm w = warm(*r.thermal, s.resistor_A[k]);
        ++seen[w.beyond                           ? "piece: conductor without steady temperature"
               : w.copper_C >= r.thermal->limit_C ? "piece: conductor at its limit"
                                                  : "piece: conductor warm"];
    }
    for (std::size_t k = 0; k < c.batteries.size(); ++k) {
        const double i = s.battery_A[k];
        const bool one_way = c.batteries[k].may_charge != c.batteries[k].may_discharge;
        ++seen[i > 0     ? one_way ? "piece: battery that only charges, charging" : "piece: battery charging"
               : i < 0   ? one_way ? "piece: battery that only discharges, discharging"
                                   : "piece: battery discharging"
               : one_way ? "piece: battery blocking"
                         : "piece: battery idle"];
    }
    for (std::size_t k = 0; k < c.diodes.size(); ++k)
        ++seen[s.diode_A[k] > 0 ? "piece: diode conducting" : "piece: diode blocking"];
    for (std::size_t k = 0; k < c.regulators.size(); ++k) {
        const Regulator& r = c.regulators[k];
        const bool by_watts = r.limit_W < r.limit_A * between(s, r.plus, r.minus);
        switch (s.regulator_mode[k]) {
        case RegulatorMode::limited:
            ++seen[r.shared >= 0 && s.regulator_A[k] < r.limit_A * 0.999999 && !by_watts
                       ? "piece: source at the shared limit"
                   : by_watts ? "piece: source at its power"
                              : "piece: source at its current"];
            break;
        case RegulatorMode::regulating:
            ++seen["piece: source regulating"];
            break;
        case RegulatorMode::idle:
        case RegulatorMode::off:
            ++seen["piece: source idle"];
        }
    }
    for (std::size_t k = 0; k < c.converters.size(); ++k) {
        const Converter& v = c.converters[k];
        const bool folds = v.fold_share < 1 && s.converter_out_A[k] < v.out_limit_A * 0.999999;
        switch (s.converter_mode[k]) {
        case ConverterMode::output_limited:
            ++seen[folds ? "piece: converter folding back or shared"
                         : "piece: converter at its output limit"];
            break;
        case ConverterMode::input_limited:
            ++seen["piece: converter at its input limit"];
            break;
        case ConverterMode::regulating:
            ++seen["piece: converter regulating"];
            break;
        case ConverterMode::idle:
            ++seen["piece: converter idle"];
            break;
        case ConverterMode::off:
            ++seen["piece: converter off"];
        }
    }
    for (std::size_t k = 0; k < c.loads.size(); ++k) {
        if (!c.loads[k].on) continue;
        const bool below = s.load_mode[k] == LoadMode::below_knee;
        ++seen[c.loads[k].law == LoadLaw::resistance ? "piece: load of resistance"
               : c.loads[k].law == LoadLaw::current
                   ? below ? "piece: load of current below its knee" : "piece: load of current"
               : below ? "piece: load of power below its knee"
                       : "piece: load of power"];
    }
    const auto largest = [](const std::vector<double>& all) {
        double most = 0;
        for (const double i : all) most = std::max(most, std::abs(i));
        return most;
    };
    for (const double i : s.load_A) seen["current below 10 mA"] += i > 0 && i < 0.01;
    seen["network with more than 5 kA"] += largest(s.battery_A) > 5000;
}

TEST(Robust, ManyLimitedDevicesEndInAnAnswer) {
    const int count = deep(10000);
    Tally seen;
    Counts sum;
    int most_newton = 0, most_continuation = 0, most_ramp = 0;
    for (int k = 0; k < count; ++k) {
        const Circuit c = random_limited_circuit(static_cast<std::uint32_t>(k) + 500000u, 24);
        const Topology t = topology_of(c);
        shape(c, t, seen);
        elements(c, seen);
        const Solution s = operating_point(c);
        sum.newton += s.counts.newton;
        sum.continuation += s.counts.continuation;
        sum.ramp += s.counts.ramp;
        most_newton = std::max(most_newton, s.counts.newton);
        most_continuation = std::max(most_continuation, s.counts.continuation);
        most_ramp = std::max(most_ramp, s.counts.ramp);
        if (!s.usable) {
            const bool opposed = verdict(s, VerdictCode::opposed_sources).has_value();
            ++seen[opposed ? "network: opposed sources" : "network: not known"];
            EXPECT_TRUE(opposed || verdict(s, VerdictCode::not_known)) << "seed " << k + 500000;
            continue;
        }
        ASSERT_EQ(lines(laws_not_met(c, s)), "") << "seed " << k + 500000 << "\n" << show(c);
        pieces(c, s, seen);
        seen["network with a starved load"] += verdict(s, VerdictCode::starved).has_value();
    }
    say_ran(count);
    for (const auto& [what, times] : seen) std::printf("    %7d  %s\n", times, what.c_str());
    std::printf("    on average %.1f, %.1f, %.1f steps of Newton, continuation, ramp; most %d, %d, %d\n",
                static_cast<double>(sum.newton) / count, static_cast<double>(sum.continuation) / count,
                static_cast<double>(sum.ramp) / count, most_newton, most_continuation, most_ramp);
    // Bounds: continuation is entered at most 8 times (two from rest, six behind a fold), the ramp once.
    EXPECT_LE(most_ramp, Options{}.ramp_most);
    EXPECT_LE(most_continuation, 9 * Options{}.continuation_most);
    EXPECT_LE(seen["network: not known"], count / 500);
    if (count < 10000) return;
    for (const char* what :
         {"resistor", "battery", "regulator", "converter", "load", "diode", "shared limit"})
        EXPECT_GE(seen[what], 500) << what;
    for (const auto& [what, times] : seen) {
        const bool counts = what.starts_with("piece: ") || what.starts_with("latch: ");
        EXPECT_GE(times, counts ? 50 : 0) << what;
    }
    EXPECT_GE(seen["network with rings"], count * 3 / 10);
    EXPECT_GE(seen["network with two sources in an island"], count * 3 / 10);
    EXPECT_GE(seen["network with a starved load"], count / 10);
    EXPECT_GE(seen["current below 10 mA"], 50);
    EXPECT_GE(seen["network with more than 5 kA"], 50);
}

} // namespace
} // namespace fl::test
