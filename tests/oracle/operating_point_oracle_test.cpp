#include "core/solve/heat.h"
#include "core/solve/laws.h"
#include "core/solve/solution.h"
#include "core/solve/topology.h"
#include "tests/oracle/spice_netlist.h"
#include "tests/oracle/spice_process.h"
#include "tests/support/draft.h"
#include "tests/support/property.h"
#include "tests/support/random_circuit.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <map>
#include <numeric>
#include <sstream>

// Our operating point against ngspice, which shares no line with it: random networks of all kinds of
// elements.
namespace fl::test {
namespace {

using namespace fl::solve;

/// Largest difference of the voltages across all live ports, relative to 1 V or what is there.
double difference(const Topology& t, const Solution& s, const std::vector<double>& spice_V) {
    double most = 0;
    for (std::size_t p = 0; p < t.ports.size(); ++p) {
        if (!t.live[p]) continue;
        const Port& port = t.ports[p];
        const double ours = between(s, port.plus, port.minus);
        const double theirs =
            spice_V[static_cast<std::size_t>(port.plus)] - spice_V[static_cast<std::size_t>(port.minus)];
        most = std::max(most, std::abs(ours - theirs) / std::max(1.0, std::abs(ours)));
    }
    return most;
}

/// Largest difference of the ammeters: 1 stands for 1e-6 of the current itself, or 1e-9 of the largest, or
/// 0.1 uA (what the other solver's own tolerance of 1e-10 V is across a milliohm).
double difference_A(const std::vector<double>& ours, const std::vector<double>& theirs) {
    double largest = 0, most = 0;
    for (const double i : ours) largest = std::max(largest, std::abs(i));
    for (std::size_t k = 0; k < ours.size(); ++k)
        most = std::max(most, std::abs(ours[k] - theirs[k]) /
                                  std::max({1e-6 * std::abs(ours[k]), 1e-9 * largest, 1e-7}));
    return most;
}

/// The ammeters that are off by more than they may, for a message.
std::string off_by(const Written& written, const std::vector<double>& theirs) {
    std::ostringstream out;
    for (std::size_t k = 0; k < theirs.size(); ++k)
        if (difference_A({written.ours_A[k]}, {theirs[k]}) > 1)
            out << written.ammeters[k] << " ours " << written.ours_A[k] << " theirs " << theirs[k] << " less "
                << theirs[k] - written.ours_A[k] << "\n";
    return out.str();
}

/// What the other solver says, as a solution that can be checked by the laws: its voltages and ammeters, and
/// what follows from them.
Solution as_solution(const Circuit& c, const Solution& ours, const Written& written,
                     const SpiceAnswer& theirs) {
    Solution s = ours;
    s.node_V = theirs.node_V;
    for (std::size_t k = 0; k < theirs.amps.size(); ++k) {
        const std::string kind = written.ammeters[k].substr(1, 3);
        const std::size_t digits = written.ammeters[k].find_first_of("0123456789");
        const auto n = static_cast<std::size_t>(std::stoi(written.ammeters[k].substr(digits)));
        auto& all = kind == "bat"   ? s.battery_A
                    : kind == "reg" ? s.regulator_A
                    : kind == "con" ? s.converter_out_A
                    : kind == "dio" ? s.diode_A
                                    : s.resistor_A;
        all[n] = theirs.amps[k];
    }
    for (std::size_t k = 0; k < c.resistors.size(); ++k)
        if (c.resistors[k].thermal) s.resistor_C[k] = warm(*c.resistors[k].thermal, s.resistor_A[k]).copper_C;
    for (std::size_t k = 0; k < c.loads.size(); ++k)
        if (ours.load_A[k] != 0)
            s.load_A[k] =
                load_current(c.loads[k], s.load_knee_V[k], between(s, c.loads[k].plus, c.loads[k].minus))
                    .amps;
    for (std::size_t k = 0; k < c.converters.size(); ++k) {
        const Converter& v = c.converters[k];
        if (ours.converter_in_A[k] == 0) continue;
        const double in_V = between(s, v.in_plus, v.in_minus), knee = s.converter_knee_V[k];
        s.converter_in_A[k] =
            v.on
                ? converter_law(v, knee, in_V, between(s, v.out_plus, v.out_minus), s.converter_out_A[k]).in_A
                : standby_current(v, knee, in_V).amps;
    }
    return s;
}

/// Laws that fall with rising voltage can meet in more than one point. Which of them is ours is not judged
/// here but by the load ramp; without such laws there is only one.
bool may_have_two_roots(const Circuit& c) {
    return !c.converters.empty() || std::any_of(c.loads.begin(), c.loads.end(), [](const Load& l) {
        return l.on && l.law == LoadLaw::power;
    }) || std::any_of(c.regulators.begin(), c.regulators.end(), [](const Regulator& r) {
        return r.on && std::isfinite(r.limit_W);
    });
}

/// Gives every limited source something to do, a twentieth of its limit: ngspice finds no way from 0 V to a
/// source that nothing loads.
void load_sources(Circuit& c) {
    auto add = [&c](int plus, int minus, double volts, double limit_A) {
        if (plus < 0 || minus < 0 || plus == minus || !std::isfinite(limit_A)) return;
        Load l;
        l.plus = plus, l.minus = minus, l.law = LoadLaw::resistance, l.value = volts / (0.05 * limit_A);
        c.loads.push_back(l);
    };
    for (const Regulator& r : c.regulators)
        if (r.on) add(r.plus, r.minus, r.set_V, r.limit_A);
    for (const Converter& v : c.converters)
        if (v.on) add(v.out_plus, v.out_minus, v.set_V, v.out_limit_A);
}

TEST(Oracle, AgreesWithNgspice) {
    const int count = deep(600, 3000);
    const std::size_t batch = 100;
    std::vector<std::uint32_t> seeds;
    std::vector<Circuit> circuits;
    std::vector<Solution> ours;
    for (std::uint32_t seed = 0; static_cast<int>(seeds.size()) < count; ++seed) {
        Circuit c = random_circuit(seed, 24);
        load_sources(c);
        const Topology t = topology_of(c);
        // Converters in a ring have several answers, and so have loops of 0 ohm.
        if (!t.rings.empty() || !t.feed_selves.empty() || !t.opposed.empty()) continue;
        Solution s = operating_point(c);
        ASSERT_TRUE(s.usable) << "seed " << seed;
        if (verdict(s, VerdictCode::opposed_sources)) continue;
        seeds.push_back(seed);
        circuits.push_back(std::move(c));
        ours.push_back(std::move(s));
    }
    std::vector<std::size_t> left(seeds.size());
    std::iota(left.begin(), left.end(), std::size_t{0});
    int solved[2] = {0, 0}, lost = 0, floating = 0;
    double worst = 0, worst_A = 0;
    std::map<std::size_t, std::string> differs; // the last it said otherwise, by network
    std::vector<Writing> writings;
    writings.push_back({true, 0.8, 1e-12, 0.1});
    for (const bool heat : {true, false})
        for (const double from : {0.8, 0.2, 0.96, 0.02})
            for (const double margin : {0.1, 1.0, 10.0, 0.02, 100.0, 0.3})
                writings.push_back({heat, from, 1e-9, margin});
    for (const Writing& writing : writings) {
        std::vector<std::size_t> refused;
        for (std::size_t from = 0; from < left.size(); from += batch) {
            const std::vector<std::size_t> now(
                left.begin() + static_cast<std::ptrdiff_t>(from),
                left.begin() + static_cast<std::ptrdiff_t>(std::min(from + batch, left.size())));
            std::vector<SpiceQuestion> questions;
            std::vector<Written> written;
            for (const std::size_t n : now) {
                written.push_back(spice_netlist(circuits[n], ours[n], writing));
                questions.push_back({written.back().text, circuits[n].nodes, written.back().ammeters});
            }
            const std::vector<SpiceAnswer> answers = run_spice(questions);
            for (std::size_t k = 0; k < now.size(); ++k) {
                const std::size_t n = now[k];
                lost += answers[k].kind == SpiceAnswer::Kind::lost;
                if (answers[k].kind == SpiceAnswer::Kind::refused) refused.push_back(n);
                if (answers[k].kind != SpiceAnswer::Kind::solved) continue;
                const double off = difference(topology_of(circuits[n]), ours[n], answers[k].node_V);
                const double off_A = difference_A(written[k].ours_A, answers[k].amps);
                if (off_A <= 1) {
                    // Behind what blocks, any voltage would do: where all currents agree the point is the
                    // same.
                    ++solved[writing.heat ? 0 : 1];
                    if (off > 1e-8)
                        ++floating;
                    else
                        worst = std::max(worst, off);
                    worst_A = std::max(worst_A, off_A);
                    differs.erase(n);
                    continue;
                }
                // Between the pieces of a law it sometimes stops where the law does not hold, as separate
                // code sees; written otherwise it finds its way or says so itself. Not an answer to compare
                // with.
                refused.push_back(n);
                const Solution point = as_solution(circuits[n], ours[n], written[k], answers[k]);
                if (!laws_not_met(circuits[n], point, 1e-6).empty()) continue;
                std::ostringstream out;
                out << "seed " << seeds[n] << " differs by " << off << " V, " << off_A
                    << " of what currents may\n"
                    << off_by(written[k], answers[k].amps) << show(circuits[n]) << show(circuits[n], ours[n])
                    << written[k].text;
                differs[n] = out.str();
            }
        }
        left = refused;
    }
    say_ran(count);
    std::printf(
        "    %d solved with the heat balance, %d more with temperatures given; worst difference %.2g of a "
        "voltage, %.2g of what a current may\n",
        solved[0], solved[1], worst, worst_A);
    std::printf("    %d refused, %d lost, %d elsewhere\n", static_cast<int>(left.size() - differs.size()),
                lost, static_cast<int>(differs.size()));
    std::printf("    %d with a voltage that nothing holds\n", floating);
    EXPECT_LE(floating, (count + 99) / 100);
    int roots = 0;
    for (const auto& [n, what] : differs) {
        if (may_have_two_roots(circuits[n]))
            ++roots;
        else
            ADD_FAILURE() << what;
    }
    std::printf("    %d other roots, which meet every law too\n", roots);
    EXPECT_LE(roots, (count + 199) / 200);
    for (const std::size_t n : left) std::printf("    refused: seed %u\n", seeds[n]);
    EXPECT_EQ(lost, 0) << "ngspice ended on its own";
    EXPECT_LE(static_cast<int>(left.size()), (count + 99) / 100);
    EXPECT_GE(solved[0], count / 2);
}

} // namespace
} // namespace fl::test
