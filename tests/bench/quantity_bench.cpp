#include "core/quantity/parse.h"
#include "core/quantity/print.h"

#include <benchmark/benchmark.h>

namespace {

void read_current(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(fl::parse<fl::Current>("37,5 A"));
}
BENCHMARK(read_current);

void read_size(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(fl::parse_size("2.5 mm2"));
}
BENCHMARK(read_size);

void write_current(benchmark::State& state) {
    const fl::Current current = fl::Current::si(75.6);
    for (auto _ : state) benchmark::DoNotOptimize(fl::text(current));
}
BENCHMARK(write_current);

} // namespace
