// What an assessment costs from nothing as the installation grows, stage by stage, and from one edit to the
// next.
#include "core/assess/engine.h"
#include "core/assess/sizes.h"
#include "core/edit/edit.h"
#include "core/edit/sheet.h"
#include "tests/bench/growth.h"
#include "tests/bench/large.h"

#include <benchmark/benchmark.h>

#include <cstdlib>
#include <functional>
#include <memory>
#include <string>

namespace {

using namespace fl;

plan::Installation installation(int components, bool meshed) {
    auto in = bench::large(components, meshed);
    if (!edit::faults(in).empty()) std::abort(); // would measure what nobody can draw
    return in;
}

/// Times `work` at all five sizes, the least of three each, and gives all five and the growth.
template <class Prepare>
void growth(benchmark::State& state, Prepare prepare) {
    const bool meshed = state.range(0) != 0;
    for (auto _ : state) {
        bench::Growth times_s;
        for (const int size : bench::sizes) {
            const auto in = installation(size, meshed);
            const std::function<void()> work = prepare(in);
            const double least_s = bench::least_s(3, work);
            times_s.add(in.components.size(), least_s);
            state.counters[std::to_string(size) + "_ms"] = least_s * 1e3;
        }
        state.counters["exponent"] = times_s.exponent();
        state.SetIterationTime(times_s.all());
    }
}

#define GROWTH(name) BENCHMARK(name)->Arg(0)->Arg(1)->ArgName("meshed")->UseManualTime()->Iterations(1)

void prompt_assessment(benchmark::State& state) {
    growth(state, [](const plan::Installation& in) {
        return [&in] { benchmark::DoNotOptimize(assess::assess(in)); };
    });
}
GROWTH(prompt_assessment);

/// One stage of an assessment that is otherwise there.
template <class Work>
void stage(benchmark::State& state, Work work) {
    growth(state, [work](const plan::Installation& in) {
        auto a = std::make_shared<assess::Assessment>(*assess::assess(in));
        return [a, work] { work(*a); };
    });
}

void stage_network(benchmark::State& state) {
    stage(state, [](assess::Assessment& a) { a.network = network::build(a.installation); });
}
GROWTH(stage_network);
void stage_circuits(benchmark::State& state) {
    stage(state, [](assess::Assessment& a) { a.circuits = network::circuits(a.installation, a.network); });
}
GROWTH(stage_circuits);
void stage_conditions(benchmark::State& state) {
    stage(state, [](assess::Assessment& a) { assess::solve_conditions(a); });
}
GROWTH(stage_conditions);
void stage_placements(benchmark::State& state) {
    stage(state, [](assess::Assessment& a) { assess::place(a); });
}
GROWTH(stage_placements);
void stage_faults(benchmark::State& state) {
    stage(state, [](assess::Assessment& a) { a.faults = fault::everywhere(a.installation, a.network); });
}
GROWTH(stage_faults);
void stage_sizes(benchmark::State& state) {
    stage(state, [](assess::Assessment& a) { a.sizes = assess::sizes(a); });
}
GROWTH(stage_sizes);
void stage_findings(benchmark::State& state) {
    stage(state, [](assess::Assessment& a) {
        const rules::Facts facts{a.installation, catalogue::rules_of(a.installation),
                                 a.network,      a.conditions,
                                 a.envelope,     a.may_carry,
                                 a.placements,   a.faults,
                                 a.circuits};
        a.findings = rules::findings(facts);
        a.open_questions = rules::open_questions(facts);
        a.site_checks = rules::site_checks(facts);
    });
}
GROWTH(stage_findings);

/// From one edit to the next on an installation of about 150 components, whichever is edited: to be inside
/// one frame of a 60 Hz screen, 16.7 ms, together with painting.
template <class Edit>
void after_an_edit(benchmark::State& state, Edit edit) {
    plan::Installation in = installation(175, state.range(0) != 0);
    assess::Engine engine;
    engine.update(in);
    std::uint64_t revision = 0;
    for (auto _ : state) {
        state.PauseTiming();
        in = edit(in, ++revision);
        state.ResumeTiming();
        benchmark::DoNotOptimize(engine.update(in, revision));
    }
    state.counters["components"] = static_cast<double>(in.components.size());
    state.counters["solved"] = engine.solved();
}

plan::Conductor some_conductor(const plan::Installation& in, std::uint64_t turn) {
    auto at = in.conductors.begin();
    for (std::uint64_t i = 40 + turn * 7 % 50; i > 0; --i) ++at;
    return *at;
}

void edit_a_length(benchmark::State& state) {
    after_an_edit(state, [](const plan::Installation& in, std::uint64_t turn) {
        plan::Installation next = in;
        plan::Conductor w = some_conductor(in, turn);
        w.length = Length::si(1 + 0.01 * static_cast<double>(turn % 300));
        next.conductors = in.conductors.with(w);
        return next;
    });
}
BENCHMARK(edit_a_length)->Arg(0)->Arg(1)->ArgName("meshed")->Unit(benchmark::kMillisecond);

void edit_a_fuse(benchmark::State& state) {
    after_an_edit(state, [](const plan::Installation& in, std::uint64_t turn) {
        plan::Installation next = in;
        for (const auto& c : in.components)
            if (const auto* fuse = std::get_if<plan::Fuse>(&c.with)) {
                plan::Component row = c;
                auto changed = *fuse;
                changed.rating = Current::si(turn % 2 == 0 ? 250 : 300);
                row.with = changed;
                next.components = in.components.with(row);
                break;
            }
        return next;
    });
}
BENCHMARK(edit_a_fuse)->Arg(0)->Arg(1)->ArgName("meshed")->Unit(benchmark::kMillisecond);

void edit_a_name(benchmark::State& state) {
    after_an_edit(state, [](const plan::Installation& in, std::uint64_t turn) {
        plan::Installation next = in;
        plan::Conductor w = some_conductor(in, 1);
        w.designation = "K" + std::to_string(100000 + turn);
        next.conductors = in.conductors.with(w);
        return next;
    });
}
BENCHMARK(edit_a_name)->Arg(0)->Arg(1)->ArgName("meshed")->Unit(benchmark::kMillisecond);

void edit_a_place_on_paper(benchmark::State& state) {
    after_an_edit(state, [](const plan::Installation& in, std::uint64_t turn) {
        const auto placed = edit::place(in, in.components.begin()->id,
                                        {0, {50.0 + 2.5 * static_cast<double>(turn % 40), 50}, 0, false});
        return placed.value_or(in);
    });
}
BENCHMARK(edit_a_place_on_paper)->Arg(0)->Arg(1)->ArgName("meshed")->Unit(benchmark::kMillisecond);

} // namespace
