#include "core/file/file.h"
#include "tests/support/any_installation.h"

#include <benchmark/benchmark.h>

#include <cstdio>
#include <filesystem>
#include <string>

// A document of so many components, as many conductors, and all tables. Budget of a save with its syncs: 3 ms
// for 150 components, 250 ms for 10,000.
namespace {

using fl::test::any_installation;

void save(benchmark::State& state) {
    const auto document = any_installation(1, static_cast<int>(state.range(0)));
    for (auto _ : state) benchmark::DoNotOptimize(fl::file::save(document));
}
BENCHMARK(save)->Arg(150)->Arg(10'000)->Unit(benchmark::kMillisecond);

void save_file(benchmark::State& state) {
    const auto document = any_installation(1, static_cast<int>(state.range(0)));
    const std::string path = (std::filesystem::temp_directory_path() / "fuseloom-bench.fuseloom").string();
    for (auto _ : state)
        if (!fl::file::save_file(path, document)) state.SkipWithError("can't be written");
    std::remove(path.c_str());
}
BENCHMARK(save_file)->Arg(150)->Arg(10'000)->UseRealTime()->Unit(benchmark::kMillisecond);

void load(benchmark::State& state) {
    const auto text = fl::file::save(any_installation(1, static_cast<int>(state.range(0))));
    for (auto _ : state) benchmark::DoNotOptimize(fl::file::load(*text));
}
BENCHMARK(load)->Arg(150)->Arg(10'000)->Unit(benchmark::kMillisecond);

} // namespace
