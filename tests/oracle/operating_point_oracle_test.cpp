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
#include <numeric>

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
    const int count = deep(300);
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
    int solved[2] = {0, 0}, lost = 0, elsewhere = 0;
    double worst = 0;
    std::vector<Writing> writings;
    for (const bool heat : {true, false})
        for (const double from : {0.8, 0.2})
            for (const double margin : {0.1, 1.0, 10.0, 0.02}) writings.push_back({heat, from, margin});
    for (const Writing& writing : writings) {
        std::vector<std::size_t> refused;
        for (std::size_t from = 0; from < left.size(); from += batch) {
            const std::vector<std::size_t> now(
                left.begin() + static_cast<std::ptrdiff_t>(from),
                left.begin() + static_cast<std::ptrdiff_t>(std::min(from + batch, left.size())));
            std::vector<std::string> netlists;
            std::vector<int> nodes;
            for (const std::size_t n : now) {
                netlists.push_back(spice_netlist(circuits[n], ours[n], writing));
                nodes.push_back(circuits[n].nodes);
            }
            const std::vector<SpiceAnswer> answers = run_spice(netlists, nodes);
            for (std::size_t k = 0; k < now.size(); ++k) {
                const std::size_t n = now[k];
                lost += answers[k].kind == SpiceAnswer::Kind::lost;
                if (answers[k].kind == SpiceAnswer::Kind::refused) refused.push_back(n);
                if (answers[k].kind != SpiceAnswer::Kind::solved) continue;
                ++solved[writing.heat ? 0 : 1];
                const double off = difference(topology_of(circuits[n]), ours[n], answers[k].node_V);
                worst = std::max(worst, off);
                if (off <= 1e-6) continue;
                ++elsewhere;
                ADD_FAILURE() << "seed " << seeds[n] << " differs by " << off << "\n" << netlists[k];
            }
        }
        left = refused;
    }
    say_ran(count);
    std::printf(
        "    %d solved with the heat balance, %d more with temperatures given; worst difference %.2g\n",
        solved[0], solved[1], worst);
    std::printf("    %d refused, %d lost, %d elsewhere\n", static_cast<int>(left.size()), lost, elsewhere);
    for (const std::size_t n : left) std::printf("    refused: seed %u\n", seeds[n]);
    EXPECT_EQ(lost, 0) << "ngspice ended on its own";
    EXPECT_LE(static_cast<int>(left.size()), (count + 99) / 100);
    EXPECT_GE(solved[0], count / 2);
}

} // namespace
} // namespace fl::test
