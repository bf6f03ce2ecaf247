#include "core/solve/solution.h"

#include <gtest/gtest.h>

using namespace fl::solve;

namespace {

// A battery of this EMF and resistance behind a piece of metal of no resistance.
Circuit shorted(double emf_V, double ohm) {
    Circuit circuit;
    circuit.nodes = 2;
    circuit.batteries.push_back(
        {.plus = 0, .minus = 1, .emf_V = emf_V, .discharge_ohm = ohm, .charge_ohm = ohm});
    circuit.resistors.push_back({.a = 0, .b = 1, .thermal = {}});
    return circuit;
}

TEST(DeadShort, GivesEmfOverResistance) {
    for (double emf_V = 10; emf_V < 60; emf_V += 0.1)
        for (const double ohm : {0.0012, 0.0049, 0.01, 0.03, 0.1}) {
            const Circuit circuit = shorted(emf_V, ohm);
            const Solution s = operating_point(circuit);
            ASSERT_TRUE(s.usable) << emf_V << " V behind " << ohm << " ohm";
            // by hand: I = E / R
            EXPECT_NEAR(s.resistor_A[0], emf_V / ohm, 1e-9 * emf_V / ohm);
            EXPECT_TRUE(laws_not_met(circuit, s).empty()) << emf_V << " V behind " << ohm << " ohm";
        }
}

} // namespace
