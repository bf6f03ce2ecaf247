// What an assessment costs from nothing, stage by stage, as the installation grows, and from one edit to the
// next.
#include "core/assess/sizes.h"
#include "core/edit/edit.h"
#include "tests/bench/large.h"

#include <benchmark/benchmark.h>

namespace {

using namespace fl;

void sizes_and_shapes(benchmark::internal::Benchmark* b) {
    for (const int meshed : {0, 1})
        for (const int components : {100, 300, 1000, 3000, 10000}) b->Args({components, meshed});
    b->Unit(benchmark::kMillisecond);
}

plan::Installation installation(const benchmark::State& state) {
    auto in = bench::large(static_cast<int>(state.range(0)), state.range(1) != 0);
    if (!edit::faults(in).empty()) std::abort();
    return in;
}

void from_nothing(benchmark::State& state) {
    const auto in = installation(state);
    for (auto _ : state) {
        const auto a = assess::assess(in);
        state.counters["components"] = static_cast<double>(in.components.size());
        state.counters["conditions"] = static_cast<double>(a->conditions.size());
        state.counters["findings"] = static_cast<double>(a->findings.size());
    }
}
BENCHMARK(from_nothing)->Apply(sizes_and_shapes);

} // namespace
