#include "tests/core/condition/draft.h"
#include "tests/support/property.h"

#include <algorithm>
#include <cstdio>

// Latches against all their positions, and against a walk written apart.
namespace fl::condition {
namespace {

/// One latch as the test knows it: what it looks at and where its thresholds lie.
struct Known {
    int converter = -1, branch = -1, coil = -1;
    double on_V = 0, off_V = 0;
};

struct Job {
    Draft d = Draft::plain();
    std::vector<std::pair<std::string, Known>>
        latches; ///< chargers first, then relays, as the document has them
    plan::Condition condition;
};

double between(double least, double greatest) {
    return least + (greatest - least) * *rc::gen::inRange(0, 10001) / 10000.0;
}

/// Three bars with batteries and loads, joined by one to eight chargers and voltage-sensing relays whose
/// leads often lose more than their hysteresis.
Job some_job() {
    Job job;
    Draft& d = job.d;
    d.part("X0", plan::Busbar{plan::Polarity::minus, 60, {}});
    int stud = 0;
    const auto minus = [&] { return "X0." + std::to_string(++stud); };
    int studs[4] = {0, 0, 0, 0};
    const auto bar = [&](int k) { return "X" + std::to_string(k) + "." + std::to_string(++studs[k]); };
    for (int k = 1; k <= 3; ++k) {
        d.part("X" + std::to_string(k), plan::Busbar{plan::Polarity::plus, 60, {}});
        const std::string g = "G" + std::to_string(k);
        d.part(g, battery(plan::Chemistry::lead_agm, between(3, 20)));
        d.wire(g + ".+", bar(k), 0, 0, 1);
        d.wire(g + ".-", minus());
        job.condition.batteries.push_back({d.at(g + ".+").component, Ratio::si(between(0.2, 1))});
        const std::string e = "E" + std::to_string(k);
        d.part(e, amperes(between(0.1, 30)));
        d.wire(e + ".+", bar(k), 0, 0, 2);
        d.wire(e + ".-", minus());
    }
    plan::Alternator a;
    a.rated = Current::si(between(40, 150));
    d.part("G9", a);
    d.wire("G9.B+", bar(1), 0, 0, 1);
    d.wire("G9.B-", minus());
    job.condition.engine = plan::Engine::running;
    job.condition.alternator = plan::AlternatorState::held;
    job.condition.held = Voltage::si(between(12.4, 14.4));
    const int chargers = *rc::gen::inRange(0, 5), relays = *rc::gen::inRange(chargers ? 0 : 1, 9 - chargers);
    for (int i = 0; i < chargers; ++i) {
        plan::DriveCharger c;
        c.output_current = Current::si(between(10, 60));
        c.set_voltage = Voltage::si(14.2);
        c.stop_voltage = Voltage::si(between(12.2, 13.2));
        c.start_voltage = *c.stop_voltage + Voltage::si(between(0.1, 0.8));
        c.hold = Time::si(0);
        const std::string name = "T" + std::to_string(i + 1);
        const int from = *rc::gen::inRange(1, 3), to = from == 1 ? *rc::gen::inRange(2, 4) : 3;
        d.part(name, c);
        d.wire(bar(from), name + ".in+", 0, 0, between(1, 25));
        d.wire(name + ".out+", bar(to), 0, 0, 1);
        d.wire(name + ".-", minus());
        Known known;
        known.converter = i;
        known.on_V = (*c.start_voltage).si(), known.off_V = (*c.stop_voltage).si();
        job.latches.emplace_back(name, known);
    }
    for (int i = 0; i < relays; ++i) {
        plan::Relay r = with_mohm<plan::Relay>(0.4);
        r.control = plan::RelayControl::voltage_sensing;
        r.drop_out = Voltage::si(between(12.2, 13.2));
        r.pull_in = *r.drop_out + Voltage::si(between(0.05, 0.8));
        const std::string name = "K" + std::to_string(i + 1);
        const int from = *rc::gen::inRange(1, 3), to = from == 1 ? *rc::gen::inRange(2, 4) : 3;
        d.part(name, r);
        d.wire(bar(from), name + ".30", 0, 0, between(0.5, 25));
        d.wire(name + ".87", bar(to), 0, 0, 1);
        d.wire(name + ".31", minus());
        Known known;
        known.on_V = (*r.pull_in).si(), known.off_V = (*r.drop_out).si();
        job.latches.emplace_back(name, known);
    }
    return job;
}

/// The walk written apart: time goes on in steps of a tenth of a second's hold; of all that have wanted to
/// change for as long, the first in the document does.
struct Naive {
    const network::Network& net;
    solve::Circuit circuit;
    Map map;
    std::vector<Known> latches;

    double across(const solve::Solution& s, int a, int b) const {
        return s.node_V[static_cast<std::size_t>(a)] - s.node_V[static_cast<std::size_t>(b)];
    }
    void set(const std::vector<bool>& at) {
        for (std::size_t i = 0; i < latches.size(); ++i) {
            const Known& l = latches[i];
            if (l.converter >= 0) {
                circuit.converters[static_cast<std::size_t>(l.converter)].on = at[i];
                continue;
            }
            circuit.resistors[static_cast<std::size_t>(l.branch)].closed = at[i];
            const int load = map.load_of_port[static_cast<std::size_t>(l.coil)];
            circuit.loads[static_cast<std::size_t>(load)].on = at[i];
        }
    }
    bool wants(const solve::Solution& s, std::size_t i, bool on) const {
        const Known& l = latches[i];
        double v = 0;
        if (l.converter >= 0) {
            const auto& c = net.converters[static_cast<std::size_t>(l.converter)];
            v = across(s, c.in_plus, c.in_minus);
        } else {
            const auto& p = net.ports[static_cast<std::size_t>(l.coil)];
            v = across(s, p.plus, p.minus);
        }
        return on ? v >= l.off_V * (1 - 1e-6) : v >= l.on_V * (1 - 1e-6);
    }
    /// The end, or nothing where it goes round.
    std::optional<std::vector<bool>> end(std::vector<bool> at) {
        std::vector<double> since(latches.size(), -1);
        double now = 0;
        for (int step = 0; step < 200; ++step) {
            set(at);
            const auto s = solve::operating_point(circuit);
            if (!s.usable) return {};
            int first = -1;
            for (std::size_t i = 0; i < latches.size(); ++i) {
                if (wants(s, i, at[i]) == at[i]) {
                    since[i] = -1;
                    continue;
                }
                if (since[i] < 0) since[i] = now;
                if (first < 0 || since[i] < since[static_cast<std::size_t>(first)] - 1e-9)
                    first = static_cast<int>(i);
            }
            if (first < 0) return at;
            const auto f = static_cast<std::size_t>(first);
            now = since[f] + 0.1;
            at[f] = !at[f];
            since[f] = -1;
        }
        return {};
    }
};

std::vector<bool> places(const Solved& s, const std::vector<Known>& latches) {
    std::vector<bool> at;
    for (const Known& l : latches)
        at.push_back(l.converter >= 0 ? s.setup.circuit.converters[static_cast<std::size_t>(l.converter)].on
                                      : s.setup.circuit.resistors[static_cast<std::size_t>(l.branch)].closed);
    return at;
}

TEST(Enumeration, walks_end_where_all_positions_say) {
    int steady = 0, hunting = 0, both = 0, none = 0, several = 0;
    test::property(2000, [&] {
        Job job = some_job();
        const auto net = network::build(job.d.in);
        std::vector<Known> latches;
        for (auto& [name, known] : job.latches) {
            const auto id = plan::find(job.d.in, name)->id;
            for (std::size_t b = 0; b < net.branches.size(); ++b)
                if (net.branches[b].component == id) known.branch = static_cast<int>(b);
            for (std::size_t p = 0; p < net.ports.size(); ++p)
                if (net.ports[p].component == id) known.coil = static_cast<int>(p);
            latches.push_back(known);
        }
        const auto drawn = draw(job.d.in, net);
        const Solved solved = solve(*drawn, job.condition);
        const Positions all = consistent_positions(*drawn, job.condition);
        RC_ASSERT(all.tried);
        const auto consistent = [&](const Solved& s) {
            Position at;
            for (const auto& c : s.setup.circuit.converters) at.converter_on.push_back(c.on);
            for (const auto& r : s.setup.circuit.resistors) at.contact_closed.push_back(r.closed);
            return std::find(all.consistent.begin(), all.consistent.end(), at) != all.consistent.end();
        };
        Naive naive{net, solved.setup.circuit, solved.setup.map, latches};
        const auto cold = naive.end(std::vector<bool>(latches.size(), false));
        const auto warm = naive.end(std::vector<bool>(latches.size(), true));
        none += all.consistent.empty();
        several += all.consistent.size() > 1;
        if (!cold) {
            ++hunting;
            RC_ASSERT(solved.hunting_s > 0 || !solved.solution.usable);
            RC_ASSERT(!consistent(solved));
            return;
        }
        ++steady;
        RC_ASSERT(solved.solution.usable);
        RC_ASSERT(solved.hunting_s == 0.0);
        RC_ASSERT(places(solved, latches) == *cold);
        RC_ASSERT(consistent(solved));
        if (!warm || *warm == *cold) return;
        ++both;
        RC_ASSERT(std::any_of(solved.also.begin(), solved.also.end(),
                              [&](const Solved& s) { return places(s, latches) == *warm && consistent(s); }));
    });
    std::printf("    %d steady, %d hunting, %d with two steady states; %d without a consistent position, %d "
                "with several\n",
                steady, hunting, both, none, several);
    EXPECT_GT(steady, 0);
    if (test::deep(2000) < 2000) return;
    EXPECT_GT(hunting, 100);
    EXPECT_GT(both, 100);
}

} // namespace
} // namespace fl::condition
