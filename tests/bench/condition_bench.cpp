#include "core/condition/condition.h"

#include <benchmark/benchmark.h>

#include <string>

namespace {

using namespace fl;

/// About 150 components: a van with a fuse box of loads on its service side.
struct Van {
    plan::Installation in;
    std::vector<plan::Component> components;
    std::vector<plan::Conductor> conductors;

    plan::ComponentId part(plan::Parameters with) {
        plan::Component c;
        c.id = plan::ComponentId{in.next_id++};
        c.designation = "X" + std::to_string(c.id.value);
        c.with = std::move(with);
        components.push_back(c);
        return c.id;
    }
    void wire(plan::ComponentId a, std::string from, plan::ComponentId b, std::string to, double m,
              double mm2) {
        plan::Conductor w;
        w.id = plan::ConductorId{in.next_id++};
        w.from = {a, std::move(from)};
        w.to = {b, std::move(to)};
        w.length = Length::si(m);
        w.size = WireSize::mm2(mm2);
        conductors.push_back(w);
    }

    Van() {
        plan::Alternator alternator;
        alternator.regulation = plan::Regulation::computer_controlled;
        const auto g1 = part(alternator);
        plan::Battery starter;
        starter.role = plan::BatteryRole::starter;
        const auto g2 = part(starter);
        const auto t1 = part(plan::DriveCharger{});
        plan::Battery service;
        service.chemistry = plan::Chemistry::lifepo4;
        service.capacity = Charge::si(200 * 3600.0);
        const auto g3 = part(service);
        const auto key = part(plan::SignalPoint{plan::Supplied::engine_running, {}});
        plan::Inverter inverter;
        inverter.rated_power = Power::si(1000);
        const auto u1 = part(inverter);
        const auto minus = part(plan::Busbar{plan::Polarity::minus, 80, {}});
        wire(g1, "B+", g2, "+", 1, 35);
        wire(g1, "B-", g2, "-", 1, 35);
        wire(g2, "+", t1, "in+", 5, 16);
        wire(g2, "-", minus, "1", 5, 35);
        wire(t1, "-", minus, "2", 1, 16);
        wire(t1, "out+", g3, "+", 1, 16);
        wire(g3, "-", minus, "3", 1, 50);
        wire(key, "1", t1, "run", 5, 0.75);
        wire(g3, "+", u1, "+", 1, 50);
        wire(u1, "-", minus, "4", 1, 50);
        int stud = 5;
        for (int box = 0; box < 6; ++box) {
            plan::FuseBox f;
            f.ways.resize(12);
            for (auto& way : f.ways) way = {"", "ISO8820-3-C", Current::si(10), {}, true};
            f.minus_bar = false;
            const auto id = part(f);
            wire(g3, "+", id, "in", 3, 16);
            for (int way = 1; way <= 12; ++way) {
                plan::Load l;
                l.law = static_cast<plan::LoadLaw>(way % 3);
                l.current = Current::si(0.4);
                const auto load = part(l);
                const auto s = part(plan::Switch{});
                wire(id, std::to_string(way), s, "1", 3, 2.5);
                wire(s, "2", load, "+", 3, 2.5);
                wire(load, "-", minus, std::to_string(stud++), 4, 2.5);
            }
        }
        in.components = Table<plan::Component>::of(components);
        in.conductors = Table<plan::Conductor>::of(conductors);
    }
};

void all_conditions(benchmark::State& state) {
    const Van van;
    const auto network = network::build(van.in);
    for (auto _ : state) {
        const auto drawn = condition::draw(van.in, network);
        std::vector<condition::Solved> all;
        for (const auto& c : condition::conditions(van.in, network))
            all.push_back(condition::solve(*drawn, c));
        benchmark::DoNotOptimize(condition::envelope(network, all));
        state.counters["conditions"] = static_cast<double>(all.size());
    }
}
BENCHMARK(all_conditions)->Unit(benchmark::kMillisecond);

void drawing_alone(benchmark::State& state) {
    const Van van;
    const auto network = network::build(van.in);
    for (auto _ : state) benchmark::DoNotOptimize(condition::draw(van.in, network));
}
BENCHMARK(drawing_alone)->Unit(benchmark::kMillisecond);

} // namespace
