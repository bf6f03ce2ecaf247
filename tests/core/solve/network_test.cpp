#include "core/solve/heat.h"
#include "core/solve/laws.h"
#include "core/solve/point.h"
#include "core/solve/ramp.h"
#include "tests/support/draft.h"
#include "tests/support/property.h"
#include "tests/support/random_circuit.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <map>

namespace fl::test {
namespace {

using namespace fl::solve;

/// How often each thing came up; one that hardly did makes the test worthless.
class Tally {
public:
    void count(const std::string& what, int times = 1) { counts_[what] += times; }
    void print() const {
        for (const auto& [what, times] : counts_) std::printf("    %7d  %s\n", times, what.c_str());
    }
    int of(const std::string& what) const {
        const auto found = counts_.find(what);
        return found == counts_.end() ? 0 : found->second;
    }

private:
    std::map<std::string, int> counts_;
};

const char* name(VerdictCode code) {
    switch (code) {
    case VerdictCode::starved:
        return "verdict starved";
    case VerdictCode::over_voltage:
        return "verdict over_voltage";
    case VerdictCode::dead:
        return "verdict dead";
    case VerdictCode::converter_starved:
        return "verdict converter_starved";
    case VerdictCode::feeds_itself:
        return "verdict feeds_itself";
    case VerdictCode::circulates:
        return "verdict circulates";
    case VerdictCode::opposed_sources:
        return "verdict opposed_sources";
    case VerdictCode::too_hot:
        return "verdict too_hot";
    case VerdictCode::not_known:
        return "verdict not_known";
    }
    return "?";
}

void tally(const Circuit& c, const Solution& s, Tally& t) {
    t.count(s.usable ? "usable" : "not usable");
    t.count(s.counts.ramp > 0           ? "way: load ramp"
            : s.counts.continuation > 0 ? "way: continuation"
                                        : "way: Newton alone");
    for (const Verdict& v : s.verdicts) t.count(name(v.code));
    if (!s.usable) return;
    for (std::size_t k = 0; k < c.resistors.size(); ++k) {
        if (c.resistors[k].r20_ohm + c.resistors[k].fixed_ohm == 0) t.count("resistor of 0 ohm");
        if (!c.resistors[k].thermal) continue;
        const Warm w = warm(*c.resistors[k].thermal, s.resistor_A[k]);
        t.count(w.beyond                                        ? "conductor beyond"
                : w.copper_C >= c.resistors[k].thermal->limit_C ? "conductor at its limit"
                                                                : "conductor warm");
    }
    for (const double i : s.battery_A)
        t.count(i > 0 ? "battery charging" : i < 0 ? "battery discharging" : "battery idle");
    for (const RegulatorMode m : s.regulator_mode)
        t.count(m == RegulatorMode::limited      ? "regulator limited"
                : m == RegulatorMode::regulating ? "regulator regulating"
                                                 : "regulator idle");
    for (const ConverterMode m : s.converter_mode)
        t.count(m == ConverterMode::output_limited  ? "converter output_limited"
                : m == ConverterMode::input_limited ? "converter input_limited"
                : m == ConverterMode::regulating    ? "converter regulating"
                : m == ConverterMode::idle          ? "converter idle"
                                                    : "converter off");
    for (std::size_t k = 0; k < c.loads.size(); ++k)
        t.count(!c.loads[k].on                           ? "load off"
                : s.load_mode[k] == LoadMode::below_knee ? "load below its knee"
                : c.loads[k].law == LoadLaw::power       ? "load of power"
                : c.loads[k].law == LoadLaw::current     ? "load of current"
                                                         : "load of resistance");
}

/// Loss in conductors and batteries from the currents alone, and what enters and leaves the network by EMFs,
/// sources and loads; they must be the same.
void books_close(const Circuit& c, const Solution& s) {
    double in_W = 0, out_W = 0, loss_W = 0;
    for (std::size_t k = 0; k < c.resistors.size(); ++k) {
        const Resistor& r = c.resistors[k];
        const double ohm = r.r20_ohm * (1 + (s.resistor_C[k] - 20) / 254.5) + r.fixed_ohm;
        loss_W += s.resistor_A[k] * s.resistor_A[k] * ohm;
    }
    for (std::size_t k = 0; k < c.batteries.size(); ++k) {
        const double i = s.battery_A[k];
        loss_W += i * i * (i > 0 ? c.batteries[k].charge_ohm : c.batteries[k].discharge_ohm);
        in_W -= i * c.batteries[k].emf_V;
    }
    for (std::size_t k = 0; k < c.regulators.size(); ++k)
        in_W += s.regulator_A[k] * between(s, c.regulators[k].plus, c.regulators[k].minus);
    for (std::size_t k = 0; k < c.converters.size(); ++k) {
        in_W += s.converter_out_A[k] * between(s, c.converters[k].out_plus, c.converters[k].out_minus);
        out_W += s.converter_in_A[k] * between(s, c.converters[k].in_plus, c.converters[k].in_minus);
    }
    for (std::size_t k = 0; k < c.loads.size(); ++k)
        out_W += s.load_A[k] * between(s, c.loads[k].plus, c.loads[k].minus);
    for (std::size_t k = 0; k < c.diodes.size(); ++k)
        out_W += s.diode_A[k] * between(s, c.diodes[k].a, c.diodes[k].b);
    EXPECT_NEAR(in_W, out_W + loss_W, 1e-8 * std::max({1.0, in_W, out_W}));
}

TEST(RandomCircuit, SameSeedSameCircuit) {
    EXPECT_EQ(show(random_circuit(7, 40)), show(random_circuit(7, 40)));
    EXPECT_NE(show(random_circuit(7, 40)), show(random_circuit(8, 40)));
}

TEST(RandomNetworks, EndWithAnAnswer) {
    const int count = deep(2000);
    Tally t;
    long newton = 0, most_newton = 0;
    for (int k = 0; k < count; ++k) {
        const Circuit c = random_circuit(static_cast<std::uint32_t>(k), 40);
        const Solution s = operating_point(c);
        tally(c, s, t);
        newton += s.counts.newton;
        most_newton = std::max<long>(most_newton, s.counts.newton);
        EXPECT_LE(s.counts.ramp, Options{}.ramp_most);
        if (!s.usable) {
            EXPECT_TRUE(verdict(s, VerdictCode::opposed_sources) || verdict(s, VerdictCode::not_known));
            EXPECT_FALSE(verdict(s, VerdictCode::not_known)) << "seed " << k << "\n" << show(c) << show(c, s);
            continue;
        }
        EXPECT_EQ(lines(laws_not_met(c, s)), "") << "seed " << k << "\n" << show(c);
        books_close(c, s);
        if (HasFailure()) {
            std::printf("seed %d\n%s%s", k, show(c).c_str(), show(c, s).c_str());
            break;
        }
    }
    say_ran(count);
    t.print();
    std::printf("    %7.1f  Newton steps on average, %ld at most\n", static_cast<double>(newton) / count,
                most_newton);
    if (count < 1000) return; // too few to say how often
    // Each thing often enough to mean something.
    for (const char* what :
         {"way: Newton alone", "way: load ramp", "verdict starved", "verdict dead", "verdict over_voltage",
          "verdict too_hot", "verdict converter_starved", "conductor at its limit", "battery charging",
          "regulator limited", "regulator regulating", "regulator idle", "converter output_limited",
          "converter input_limited", "converter regulating", "converter idle", "converter off",
          "load below its knee", "resistor of 0 ohm"})
        EXPECT_GE(t.of(what), count / 100) << what;
    EXPECT_GE(t.of("way: continuation"), count / 500);
}

/// Largest difference between two points in what flows through batteries, sources and loads.
double difference_A(const System& system, const std::vector<double>& x, const std::vector<double>& y) {
    double most = 0;
    const Topology& t = system.topology();
    for (std::size_t p = 0; p < t.ports.size(); ++p) {
        if (!t.live[p]) continue;
        const Port& port = t.ports[p];
        if (const auto i = system.current(x, p)) {
            most = std::max(most, std::abs(*i - *system.current(y, p)));
        } else if (port.element.kind == ElementKind::load) {
            const auto k = static_cast<std::size_t>(port.element.index);
            const Load& l = system.circuit().loads[k];
            const double knee = system.load_knee_V[k];
            most =
                std::max(most, std::abs(load_current(l, knee, system.across(x, port.plus, port.minus)).amps -
                                        load_current(l, knee, system.across(y, port.plus, port.minus)).amps));
        }
    }
    return most;
}

// The operating point is by definition the one that the load ramp joins to no load: what the quick ways of
// the chain found must be what the ramp arrives at, or falls to behind a fold.
TEST(RandomNetworks, QuickWayEndsWhereTheRampDoes) {
    const int count = deep(2000);
    int quick = 0, folds = 0;
    for (int k = 0; k < count; ++k) {
        const Circuit c = random_circuit(static_cast<std::uint32_t>(k), 40);
        const Topology t = topology_of(c);
        if (!t.opposed.empty()) continue;
        const Options options;
        System system(c, t);
        Newton newton(system, options);
        const Point point = find_point(system, newton, options);
        if (!point.found || newton.counts.ramp > 0) continue; // the ramp itself decided
        ++quick;
        system.demand = 0;
        const int sign = newton.determinant_sign(point.rest);
        Ramp ramp = ramp_demand(system, newton, point.rest, sign, options);
        if (!ramp.reached) {
            ++folds;
            ASSERT_TRUE(newton.settle(ramp.x)) << "seed " << k;
        }
        EXPECT_LE(difference_A(system, ramp.x, point.x), 1e-4) << "seed " << k << "\n" << show(c);
    }
    say_ran(quick);
    std::printf("    %7d  folds on the way\n", folds);
    EXPECT_GT(quick, count / 2);
}

// A starved load gets what is said to be the greatest it can have, and no more.
TEST(RandomNetworks, GreatestPowerCanBeHadAndNoMore) {
    const int count = deep(4000);
    int asked = 0, kept = 0;
    for (int k = 0; k < count; ++k) {
        Circuit c = random_circuit(static_cast<std::uint32_t>(k) + 100000u, 16);
        const Solution s = operating_point(c);
        for (const Verdict& v : s.verdicts) {
            if (v.code != VerdictCode::starved || !v.greatest_W || *v.greatest_W < 0.1) continue;
            const auto n = static_cast<std::size_t>(v.subject.index);
            const double lowest = std::max(c.loads[n].lowest_V, s.load_knee_V[n]);
            if (c.loads[n].lowest_V < s.load_knee_V[n]) continue; // the fold may lie below the knee
            ++asked;
            Circuit tried = c;
            Load& load = tried.loads[n];
            load.law = LoadLaw::power;
            load.knee_V = lowest;
            load.value = *v.greatest_W * 0.998;
            const Solution less = operating_point(tried);
            load.value = *v.greatest_W * 1.01;
            const Solution more = operating_point(tried);
            const double less_V = between(less, load.plus, load.minus),
                         more_V = between(more, load.plus, load.minus);
            // Others as they are: where another load falls or recovers between the two, the question is
            // another.
            bool others = less.usable && more.usable;
            for (std::size_t m = 0; others && m < c.loads.size(); ++m)
                others =
                    m == n || (less.load_mode[m] == s.load_mode[m] && more.load_mode[m] == s.load_mode[m]);
            if (!others) continue;
            ++kept;
            EXPECT_GE(less_V, lowest * (1 - 1e-6)) << "seed " << k + 100000 << " load " << n << "\n"
                                                   << show(c);
            EXPECT_LT(more_V, lowest) << "seed " << k + 100000 << " load " << n << "\n" << show(c);
        }
    }
    say_ran(kept);
    std::printf("    %7d  starved loads, %d with the others as they were\n", asked, kept);
    EXPECT_GT(kept, count / 200);
}

// 5 mA of standby beside bars of 20 micro-ohm that carry 400 A: the small current is as exact as the large
// one.
TEST(Networks, StandbyBesideBars) {
    Draft d;
    const int minus = d.node(), plus = d.node(), bar = d.node(), next = d.node(), last = d.node();
    d.battery(plus, minus, 12.8, 0.002);
    d.resistor(plus, bar, 20e-6);
    d.resistor(bar, next, 20e-6);
    const int small = d.resistor(next, last, 20e-6);
    d.amps(bar, minus, 400, 6);
    d.amps(last, minus, 0.005, 6);
    const Solution s = operating_point(d.c);
    ASSERT_TRUE(s.usable) << lines(s.not_met);
    // What flows in the last bar is the standby current and nothing else, to 1e-9 of itself.
    EXPECT_NEAR(s.resistor_A[static_cast<std::size_t>(small)], 0.005, 0.005 * 1e-9);
    EXPECT_NEAR(s.resistor_A[0], 400.005, 400 * 1e-9);
    EXPECT_NEAR(-s.battery_A[0], s.resistor_A[0], 1e-9 * 400);
}

// The same island by island, and in a chain of 200 bars: no digits get lost on the way.
TEST(Networks, LongChainOfBars) {
    Draft d;
    const int minus = d.node();
    int at = d.node();
    d.battery(at, minus, 12.8, 0.002);
    for (int k = 0; k < 200; ++k) {
        const int next = d.node();
        d.resistor(at, next, k % 2 ? 0 : 20e-6);
        d.amps(next, minus, 0.005, 6);
        at = next;
    }
    const Solution s = operating_point(d.c);
    ASSERT_TRUE(s.usable) << lines(s.not_met);
    for (int k = 0; k < 200; ++k) {
        const double want = 0.005 * (200 - k);
        EXPECT_NEAR(s.resistor_A[static_cast<std::size_t>(k)], want, want * 1e-9);
    }
}

} // namespace
} // namespace fl::test
