#pragma once

#include "core/fault/back.h"
#include "core/fault/snapshot.h"
#include "core/fault/through.h"
#include "core/solve/solution.h"
#include "tests/core/network/draw.h"
#include "tests/support/property.h"

#include <string>
#include <vector>

/// Random installations and their faults, for the tests that ask another solver about them.
namespace fl::test {

inline int pick(int from, int to) { // whatever the size the run has reached
    return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange(from, to));
}

/// Joints with wires between them, and devices; batteries and chargers on them, most behind a device, some
/// with one in their return. `most_sources` at least 2.
inline Draw random_sources(int most_sources) {
    Draw d;
    const auto named = [](char letter, int i) { return std::string{letter, static_cast<char>('0' + i)}; };
    const auto metres = [] { return Length::si(pick(2, 60) * 0.1); };
    const auto mm2 = [] {
        const double sizes[] = {2.5, 6, 16, 35, 70};
        return sizes[pick(0, 5)];
    };
    const int joints = pick(2, 6), sources = pick(1, most_sources + 1);
    const auto joint = [&] { return named('X', pick(0, joints)) + ".1"; };
    int fuses = 0;
    const auto fused = [&](const std::string& from, const std::string& to) {
        const auto name = named('F', fuses++);
        auto fuse = fuse_of(10 * pick(1, 20));
        if (pick(0, 3) == 0) fuse.resistance = Resistance::si(pick(0, 3) * 1e-3);
        d.add(name, fuse);
        d.wire("", from, name + ".1", metres(), mm2());
        d.wire("", name + ".2", to, metres(), mm2());
    };
    plan::Busbar minus;
    minus.polarity = plan::Polarity::minus;
    d.add("B", minus);
    for (int i = 0; i < joints; ++i) d.add(named('X', i), plan::Joint{});
    for (int i = 1; i < joints; ++i) // one part
        if (const auto to = named('X', pick(0, i)) + ".1"; pick(0, 3) == 0)
            fused(named('X', i) + ".1", to);
        else
            d.wire("", named('X', i) + ".1", to, metres(), mm2());
    for (int i = 0; i < sources; ++i) {
        const bool charger = pick(0, 4) == 0;
        const auto name = named('G', i);
        if (charger) {
            plan::MainsCharger c;
            c.output_current = Current::si(10 * pick(1, 12));
            d.add(name, c);
        } else {
            plan::Battery b;
            b.chemistry = pick(0, 4) ? plan::Chemistry::lead_agm : plan::Chemistry::lifepo4;
            b.nominal = 12_V;
            b.capacity = Charge::si(pick(4, 30) * 10 * 3600.0);
            d.add(name, b);
        }
        pick(0, 4) ? fused(name + ".+", joint()) : void(d.wire("", name + ".+", joint(), metres(), mm2()));
        pick(0, 8) ? void(d.wire("", name + ".-", "B.1", metres(), mm2())) : fused(name + ".-", "B.1");
    }
    for (int i = pick(0, 3); i > 0; --i) {
        const auto a = joint(), b = joint();
        if (a == b) continue;
        pick(0, 3) ? void(d.wire("", a, b, metres(), mm2())) : fused(a, b);
    }
    d.add("E", plan::Load{});
    pick(0, 2) ? fused(joint(), "E.+") : void(d.wire("", joint(), "E.+", metres(), mm2()));
    d.wire("", "E.-", "B.1", metres(), mm2());
    return d;
}

/// A short as the general solver sees it: its own resistor comes last.
inline solve::Circuit short_circuit(const fault::Snapshot& s, const std::vector<fault::SourceState>& states,
                                    int a, int b) {
    using fault::SourceState;
    solve::Circuit c;
    c.nodes = s.nodes;
    const auto resistor = [&](int from, int to, double ohm) {
        solve::Resistor r;
        r.a = from, r.b = to, r.fixed_ohm = ohm;
        c.resistors.push_back(r);
    };
    for (const auto& e : s.elements) resistor(e.a, e.b, e.ohm);
    resistor(a, b, 0);
    for (std::size_t i = 0; i < s.feeders.size(); ++i) {
        const auto& f = s.feeders[i];
        if (states[i] == SourceState::absent) continue;
        const bool weak = states[i] == SourceState::weak;
        if (f.limited()) {
            solve::Regulator r;
            r.plus = f.plus, r.minus = f.minus, r.set_V = f.emf_V, r.droop_ohm = f.ohm;
            r.limit_A = weak ? f.weak_limit_A : f.limit_A;
            c.regulators.push_back(r);
        } else {
            solve::Battery g;
            g.plus = f.plus, g.minus = f.minus, g.emf_V = weak ? f.weak_emf_V : f.emf_V;
            g.discharge_ohm = g.charge_ohm = weak ? f.weak_ohm : f.ohm;
            c.batteries.push_back(g);
        }
    }
    return c;
}

} // namespace fl::test
