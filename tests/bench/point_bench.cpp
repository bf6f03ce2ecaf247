// What one operating point costs as the network grows, beside the other solver in the same run.
#include "core/solve/start.h"
#include "tests/bench/growth.h"
#include "tests/bench/some_network.h"
#include "tests/bench/spice.h"

#include <benchmark/benchmark.h>
#include <malloc.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

namespace {

using namespace fl;

constexpr int runs = 15;
constexpr double slow_s = 0.1; // what takes longer than this is asked once

solve::Circuit network(benchmark::State& state, int components) {
    return bench::some_network(1, components, state.range(0) != 0, state.range(1) != 0);
}

std::size_t elements(const solve::Circuit& c) {
    return c.resistors.size() + c.loads.size() + c.batteries.size() + c.regulators.size();
}

/// Times of both at one size, and their ratio beside it.
double compare(benchmark::State& state, int size, double ours_s, double theirs_s) {
    const std::string name = std::to_string(size);
    state.counters[name + "_ms"] = ours_s * 1e3;
    state.counters[name + "_spice_ms"] = theirs_s * 1e3;
    state.counters[name + "_ratio"] = theirs_s / ours_s;
    return theirs_s / ours_s;
}

/// From cold, the pattern known, as the other solver knows it when it is asked again.
void point_from_cold(benchmark::State& state) {
    for (auto _ : state) {
        bench::Growth growth;
        double least = std::numeric_limits<double>::infinity();
        for (const int size : bench::sizes) {
            const solve::Circuit circuit = network(state, size);
            solve::Start start;
            const solve::Solution first = solve::operating_point(circuit, start);
            bench::Spice spice(circuit, first);
            double ours_s = std::numeric_limits<double>::infinity(), theirs_s = ours_s;
            for (int k = 0; k < runs; ++k) {
                start.forget_point();
                ours_s = std::min(ours_s, bench::least_s(1, [&] {
                                      benchmark::DoNotOptimize(solve::operating_point(circuit, start));
                                  }));
                if (k == 0 || theirs_s < slow_s) theirs_s = std::min(theirs_s, spice.op());
            }
            if (!first.usable || !(spice.off_by(first) < 1e-6)) return state.SkipWithError("they differ");
            growth.add(elements(circuit), ours_s);
            least = std::min(least, compare(state, size, ours_s, theirs_s));
        }
        state.counters["least_ratio"] = least;
        state.counters["exponent"] = growth.exponent();
        state.SetIterationTime(growth.all());
    }
}

/// After one edit of a conductor's resistance, begun from the last point.
void point_after_an_edit(benchmark::State& state) {
    const bool warms_up = state.range(1) != 0;
    for (auto _ : state) {
        int from_last = 0;
        bench::Growth growth;
        double least = std::numeric_limits<double>::infinity();
        for (const int size : bench::sizes) {
            solve::Circuit circuit = network(state, size);
            solve::Start start;
            solve::Solution last = solve::operating_point(circuit, start);
            bench::Spice spice(circuit, last);
            double ours_s = std::numeric_limits<double>::infinity(), theirs_s = ours_s;
            for (int k = 0; k < runs; ++k) {
                const auto turn = static_cast<std::uint32_t>(k);
                solve::Resistor& r = bench::some_conductor(circuit, turn);
                const double ohm = r.r20_ohm * (k % 2 == 0 ? 1.5 : 0.7);
                r.r20_ohm = ohm;
                ours_s = std::min(ours_s,
                                  bench::least_s(1, [&] { last = solve::operating_point(circuit, start); }));
                from_last += start.was_warm();
                // A conductor that warms up is a law there, and no value that could be altered: the bare
                // `op`.
                const auto which = static_cast<std::size_t>(&r - circuit.resistors.data());
                if (k > 0 && theirs_s > slow_s) continue;
                const double altered_s = warms_up ? 0 : spice.alter(which, ohm);
                theirs_s = std::min(theirs_s, altered_s + spice.op());
                if (!warms_up && !(spice.off_by(last) < 1e-6)) return state.SkipWithError("they differ");
            }
            growth.add(elements(circuit), ours_s);
            least = std::min(least, compare(state, size, ours_s, theirs_s));
        }
        state.counters["least_ratio"] = least;
        state.counters["exponent"] = growth.exponent();
        state.counters["from_last"] = from_last / static_cast<double>(runs * bench::sizes.size());
        state.SetIterationTime(growth.all());
    }
}

/// The very first time, with topology, pattern and order of elimination; theirs with its netlist read.
void point_with_analysis(benchmark::State& state) {
    for (auto _ : state) {
        bench::Growth growth;
        for (const int size : bench::sizes) {
            const solve::Circuit circuit = network(state, size);
            const solve::Solution first = solve::operating_point(circuit);
            const double ours_s =
                bench::least_s(runs, [&] { benchmark::DoNotOptimize(solve::operating_point(circuit)); });
            const double theirs_s = bench::least_s(1, [&] { bench::Spice(circuit, first).op(); });
            growth.add(elements(circuit), ours_s);
            compare(state, size, ours_s, theirs_s);
        }
        state.counters["exponent"] = growth.exponent();
        state.SetIterationTime(growth.all());
    }
}

/// What stays allocated for a point and for what it leaves, by element.
void point_memory(benchmark::State& state) {
    for (auto _ : state) {
        bench::Growth growth;
        for (const int size : bench::sizes) {
            const solve::Circuit circuit = network(state, size);
            const auto before = mallinfo2();
            solve::Start start;
            const solve::Solution point = solve::operating_point(circuit, start);
            const auto after = mallinfo2();
            const auto bytes = static_cast<double>(after.uordblks + after.hblkhd) -
                               static_cast<double>(before.uordblks + before.hblkhd);
            growth.add(elements(circuit), bytes);
            state.counters[std::to_string(size) + "_bytes_each"] =
                bytes / static_cast<double>(elements(circuit));
        }
        state.counters["exponent"] = growth.exponent();
        state.SetIterationTime(1);
    }
}

#define POINT(name)                                                                                          \
    BENCHMARK(name)                                                                                          \
        ->ArgsProduct({{0, 1}, {0, 1}})                                                                      \
        ->ArgNames({"meshed", "warms_up"})                                                                   \
        ->UseManualTime()                                                                                    \
        ->Iterations(1)                                                                                      \
        ->Unit(benchmark::kMillisecond)
POINT(point_from_cold);
POINT(point_after_an_edit);
POINT(point_with_analysis);
POINT(point_memory);

} // namespace
