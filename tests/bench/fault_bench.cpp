// Fault currents at every node and of every device, as the installation grows, and against placing each fault
// and running ngspice again.
#include "core/fault/back.h"
#include "core/fault/snapshot.h"
#include "core/fault/through.h"
#include "tests/bench/large.h"
#include "tests/oracle/spice_process.h"

#include <benchmark/benchmark.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <string>
#include <utility>
#include <vector>

namespace {

using namespace fl;

double seconds() { // of the wall: ngspice runs in a process of its own
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

template <class Work>
double least_s(int runs, Work work) {
    double least = 1e9;
    for (int i = 0; i < runs; ++i) {
        const double start = seconds();
        work();
        least = std::min(least, seconds() - start);
    }
    return least;
}

struct Drawn {
    plan::Installation in;
    network::Network net;
    explicit Drawn(int components, bool meshed)
        : in(bench::large(components, meshed))
        , net(network::build(in)) {}
};

void totals(const Drawn& d) {
    benchmark::DoNotOptimize(fault::everywhere(d.in, d.net));
}
void devices(const Drawn& d) {
    benchmark::DoNotOptimize(fault::through_devices(d.in, d.net));
}

/// With six sources throughout; the growth is the slope through the logarithms.
template <class Work>
void growth(benchmark::State& state, Work work) {
    for (auto _ : state) {
        double x = 0, y = 0, xx = 0, xy = 0, n = 0, all_s = 0;
        for (const int components : {500, 1000, 2000, 4000, 8000}) {
            const Drawn d(components, state.range(0) != 0);
            const double time_s = least_s(3, [&] { work(d); });
            const double a = std::log(static_cast<double>(d.net.nodes.size())), b = std::log(time_s);
            x += a, y += b, xx += a * a, xy += a * b, n += 1, all_s += time_s;
            state.counters[std::to_string(d.net.nodes.size()) + "_nodes_ms"] = time_s * 1e3;
        }
        state.counters["exponent"] = (n * xy - x * y) / (n * xx - x * x);
        state.SetIterationTime(all_s);
    }
}
void fault_totals(benchmark::State& state) {
    growth(state, totals);
}
BENCHMARK(fault_totals)->Arg(0)->Arg(1)->ArgName("meshed")->UseManualTime()->Iterations(1);
void fault_devices(benchmark::State& state) {
    growth(state, devices);
}
BENCHMARK(fault_devices)->Arg(0)->Arg(1)->ArgName("meshed")->UseManualTime()->Iterations(1);

std::string text(double value) {
    char digits[40];
    return {digits, std::to_chars(digits, digits + sizeof digits, value).ptr};
}

/// The network with a wire between the two nodes: resistors, EMFs behind resistors, and the clamps' law.
std::string netlist(const fault::Snapshot& s, int a, int b) {
    const auto node = [&](int n) { return n == b ? std::string("0") : "n" + std::to_string(n); };
    std::string out = "fault\n.options reltol=1e-9 abstol=1e-9 vntol=1e-10 rshunt=1e12\nvdemand demand 0 0\n";
    out += "vshort " + node(a) + " 0 0\n";
    for (std::size_t i = 0; i < s.elements.size(); ++i) {
        const auto& e = s.elements[i];
        const std::string between = std::to_string(i) + " " + node(e.a) + " " + node(e.b) + " ";
        if (e.a != e.b) out += e.ohm < 1e-9 ? "v" + between + "0\n" : "r" + between + text(e.ohm) + "\n";
    }
    for (std::size_t i = 0; i < s.feeders.size(); ++i) {
        const auto& f = s.feeders[i];
        const std::string k = std::to_string(i), mid = " m" + k + " ";
        if (!f.limited()) {
            out += "ve" + k + mid + node(f.minus) + " " + text(f.emf_V) + "\n";
            out += "re" + k + mid + node(f.plus) + " " + text(f.ohm) + "\n";
            continue;
        }
        const std::string v = "v(" + node(f.plus) + "," + node(f.minus) + ")", i_ = "i(ve" + k + ")";
        const double m = std::max(f.ohm, 0.1 * f.emf_V / f.limit_A);
        out += "ve" + k + " " + node(f.minus) + mid + "0\n";
        out += "be" + k + mid + node(f.plus) + " v = " + text(m) + "*" + i_ + "-" + v + "-max(0,min(" +
               text(m - f.ohm) + "*" + i_ + "+" + text(f.emf_V) + "-" + v + "," + text(m * f.limit_A) +
               "))\n";
    }
    return out + ".dc vdemand 0 1 1\n.end\n"; // two points, the second there already
}

/// What one more fault costs ngspice.
double spice_s(const Drawn& d, int& solved) {
    const auto snapshot = fault::strongest(d.in, d.net);
    const auto backs = fault::backs(d.in, d.net);
    std::vector<test::SpiceQuestion> questions;
    constexpr std::size_t many = 21;
    for (std::size_t n = 0, step = backs.size() / many / 2; questions.size() < many && n < backs.size();
         n += step)
        if (!backs[n].empty())
            questions.push_back({netlist(snapshot, static_cast<int>(n), backs[n].front()), 0, {"vshort"}});
    const double one_s = least_s(2, [&] { test::run_spice({questions.front()}); });
    std::vector<test::SpiceAnswer> answers;
    const double all_s = least_s(2, [&] { answers = test::run_spice(questions); });
    solved = static_cast<int>(std::count_if(answers.begin(), answers.end(), [](const auto& answer) {
        return answer.kind == test::SpiceAnswer::Kind::solved;
    }));
    return (all_s - one_s) / static_cast<double>(questions.size() - 1);
}

/// At least 500 times for totals, 100 times with devices. Of ngspice only what cannot be done without counts:
/// two runs for each fault, the largest and the least, though the extremes of devices ask for more.
void faults_against_ngspice(benchmark::State& state) {
    const Drawn d(440, state.range(0) != 0); // about 1,000 nodes
    for (auto _ : state) {
        const auto all = fault::everywhere(d.in, d.net);
        const auto faults = std::count_if(all.begin(), all.end(), [](const auto& f) { return f.largest; });
        int solved = 0;
        const double their_s = 2 * static_cast<double>(faults) * spice_s(d, solved);
        const double totals_s = least_s(5, [&] { totals(d); });
        const double devices_s = least_s(5, [&] { devices(d); });
        state.counters["nodes"] = static_cast<double>(d.net.nodes.size());
        state.counters["faults"] = static_cast<double>(faults);
        state.counters["ngspice_solved"] = solved;
        state.counters["ngspice_s"] = their_s;
        state.counters["totals_ms"] = totals_s * 1e3;
        state.counters["devices_ms"] = devices_s * 1e3;
        state.counters["totals_ratio"] = their_s / totals_s;
        state.counters["devices_ratio"] = their_s / (totals_s + devices_s);
        state.SetIterationTime(totals_s + devices_s);
    }
}
BENCHMARK(faults_against_ngspice)->Arg(0)->Arg(1)->ArgName("meshed")->UseManualTime()->Iterations(1);

} // namespace
