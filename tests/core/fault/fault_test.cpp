#include "core/derive/build.h"
#include "core/fault/fault.h"
#include "tests/core/network/draw.h"

#include <gtest/gtest.h>

#include <string>

using namespace fl;
using namespace fl::literals;
using namespace fl::fault;
using fl::test::Draw;
using fl::test::fuse_of;

namespace {

plan::Battery lead(double ampere_hours, std::optional<Resistance> r = {}) {
    plan::Battery b;
    b.chemistry = plan::Chemistry::lead_agm;
    b.nominal = 12_V;
    b.capacity = Charge::si(ampere_hours * 3600);
    if (r) b.resistance = *r;
    return b;
}

/// Rest voltages per block in the catalogue: flooded 12.66 V full; AGM 12.90 V full, 12.30 V at half charge.
constexpr double flooded_full_V = 2.11 * 6, agm_full_V = 2.15 * 6, agm_half_V = 2.05 * 6;
/// Annealed copper, mohm a metre of 1 mm2.
constexpr double rho = 17.241;

struct Faults {
    Draw d;
    network::Network net;
    std::vector<AtNode> all;
    explicit Faults(Draw drawing)
        : d(std::move(drawing))
        , net(network::build(d.in))
        , all(everywhere(d.in, net)) {}

    int node(std::string_view terminal) const { return net.node_of(d.at(terminal)); }
    const std::optional<Fault>& most(std::string_view terminal) const {
        return all[static_cast<std::size_t>(node(terminal))].largest;
    }
    const std::optional<Fault>& least(std::string_view terminal) const {
        return all[static_cast<std::size_t>(node(terminal))].least;
    }
    double most_A(std::string_view terminal) const { return most(terminal) ? most(terminal)->total.si() : 0; }
    double least_A(std::string_view terminal) const {
        return least(terminal) ? least(terminal)->total.si() : 0;
    }
    double share_A(std::string_view terminal, std::string_view source) const {
        for (const auto& s : most(terminal)->shares)
            if (s.source == plan::find(d.in, source)->id) return s.current.si();
        return 0;
    }
};

/// A starter battery of 760 A cold cranking, 0.4 m of 16 mm2 to a stud, 0.7 m to a fuse; joints of 0.4 mohm
/// in all were measured.
Draw as_found() {
    Draw d;
    plan::Battery b;
    b.role = plan::BatteryRole::starter;
    b.nominal = 12_V;
    b.capacity = 80_Ah;
    b.cold_cranking = 760_A;
    d.add("G1", b);
    d.add("X1", plan::Joint{});
    d.add("F1", fuse_of(100));
    d.add("E1", plan::Load{});
    d.wire("W1", "G1.+", "X1.1", 0.4_m, 16);
    d.wire("W2", "X1.1", "F1.1", 0.7_m, 16);
    d.wire("W3", "F1.2", "E1.+", 4_m, 16);
    d.wire("W4", "E1.-", "G1.-", 4_m, 16);
    auto w1 = *plan::find_conductor(d.in, "W1");
    w1.ends[0].joint = w1.ends[1].joint = 0.2_mohm;
    d.in.conductors = d.in.conductors.with(w1);
    return d;
}

// By hand: 3.3 V / 760 A = 4.342 mohm; 1.1 m x 17.241/16 = 1.185 mohm; joints 0.4; the return at the same
// place is the battery's post. 12.66 V / 5.927 mohm = 2.136 kA. An outside calculation with a class 5
// conductor, a return of 0.3 mohm and lead's usual shape gives a peak of 2.12 kA and a plateau of 1.88 kA,
// within 10 %.
TEST(Fault, AsFoundAtTheFuse) {
    const Faults f(as_found());
    const double loop_mohm = 3300.0 / 760 + 1.1 * rho / 16 + 0.4;
    EXPECT_NEAR(f.most_A("F1.1"), flooded_full_V / loop_mohm * 1e3, 0.01);
    EXPECT_EQ(f.most("F1.1")->back, f.node("G1.-"));
    EXPECT_NEAR(f.most_A("F1.1"), 2120, 212);
    const auto first = peak(f.d.in, f.net, f.node("F1.1")), after = plateau(f.d.in, f.net, f.node("F1.1"));
    ASSERT_TRUE(first && after);
    EXPECT_NEAR(first->total.si(), flooded_full_V / (loop_mohm - 0.1 * 3300 / 760) * 1e3, 0.01);
    EXPECT_NEAR(after->total.si(), 0.95 * flooded_full_V / loop_mohm * 1e3, 0.01);
    EXPECT_NEAR(first->total.si(), 2120, 212);
    EXPECT_NEAR(after->total.si(), 1880, 188);
    EXPECT_FALSE(f.most("G1.-")) << "a node of the return";
    EXPECT_FALSE(f.least("E1.-"));
    EXPECT_NEAR(f.most_A("G1.+"), flooded_full_V / 3300 * 760 * 1e3, 0.01);
}

// A charger of 40 A and a battery, 5 m apart, 16 mm2 both ways, a 50 A fuse without a type between: cold its
// link has 90 mV / 50 A / 1.45 = 1.241 mohm. Fault at the charger: 12.9 V / (4 + 10.776 + 1.241 mohm), and
// the charger's 40 A x 1.3.
TEST(Fault, AtTheChargerTheBatteryGivesNearlyAll) {
    Draw d;
    plan::MainsCharger charger;
    charger.output_current = 40_A;
    d.add("T1", charger);
    d.add("F1", fuse_of(50));
    d.add("G1", lead(200, 4_mohm));
    d.wire("W1", "T1.+", "F1.1", 0.2_m, 16);
    d.wire("W2", "F1.2", "G1.+", 4.8_m, 16);
    d.wire("W3", "G1.-", "T1.-", 5_m, 16);
    const Faults f(std::move(d));
    const double battery_A = agm_full_V / (4 + 10 * rho / 16 + 90.0 / 50 / 1.45) * 1e3;
    EXPECT_NEAR(f.share_A("T1.+", "G1"), battery_A, 0.01);
    EXPECT_NEAR(f.share_A("T1.+", "T1"), 52, 1e-9);
    EXPECT_NEAR(f.most_A("T1.+"), battery_A + 52, 0.01);
    EXPECT_EQ(f.most("T1.+")->back, f.node("T1.-"));
    EXPECT_EQ(f.most("T1.+")->shares.front().source, plan::find(f.d.in, "G1")->id) << "largest first";
    // Least: half charged behind twice 4 mohm, class 5 copper at 70 °C (1.21 mohm/m x 304.5/254.5), six lugs
    // of 0.1 mohm twice, the fuse warm in its holder: 90 mV / 50 A + 1 mohm; the charger gives nothing.
    const double least_mohm = 8 + 10 * 1.21 * 304.5 / 254.5 + 2 * 6 * 0.1 + (90.0 / 50 + 1);
    EXPECT_NEAR(f.least_A("T1.+"), agm_half_V / least_mohm * 1e3, 0.5);
    ASSERT_EQ(f.least("T1.+")->shares.size(), 1u);
}

// A converter of 20 A at 13.8 V on 24 V batteries, limit 1.2 x 20 = 24 A. Behind it no battery's current.
TEST(Fault, BehindAConverterOnlyItsLimit) {
    Draw d;
    plan::Battery b = lead(200, 5_mohm);
    b.nominal = 24_V;
    d.add("G1", b);
    plan::Converter c;
    c.nominal_in = 24_V;
    c.set_voltage = 13.8_V;
    c.output_current = 20_A;
    d.add("T1", c);
    d.add("F1", fuse_of(15));
    d.add("E1", plan::Load{});
    d.wire("W1", "G1.+", "T1.in+", 1_m, 6);
    d.wire("W2", "T1.out+", "F1.1", 0.2_m, 2.5);
    d.wire("W3", "F1.2", "E1.+", 6_m, 2.5);
    d.wire("W4", "E1.-", "T1.-", 6_m, 2.5);
    d.wire("W5", "T1.-", "G1.-", 1_m, 6);
    const Faults f(std::move(d));
    EXPECT_NEAR(f.most_A("E1.+"), 24 * 1.3, 1e-6);
    ASSERT_EQ(f.most("E1.+")->shares.size(), 1u);
    EXPECT_EQ(f.most("E1.+")->shares[0].source, plan::find(f.d.in, "T1")->id);
    EXPECT_NEAR(f.least_A("E1.+"), 24, 1e-6) << "the converter alone, at its limit";
    EXPECT_GT(f.most_A("T1.in+"), 2000) << "at its input the battery's";
}

// 100 Ah of lithium: cells 1.2 mohm, whatever the pack shows running. At 98 % charge the catalogue's straight
// line between 3.2772 V (0.2972) and 3.3511 V (0.9833) gives 3.35074 V a cell.
TEST(Fault, ALithiumPackIsAsStiffAsItsCells) {
    Draw d;
    plan::Battery b = lead(100, 15_mohm);
    b.chemistry = plan::Chemistry::lifepo4;
    d.add("G1", b);
    d.add("E1", plan::Load{});
    d.wire("W1", "G1.+", "E1.+", 1_m, 35);
    d.wire("W2", "E1.-", "G1.-", 1_m, 35);
    const Faults f(d);
    EXPECT_NEAR(f.most_A("G1.+"), 4 * 3.35074 / 1.2e-3, 5);
    EXPECT_NEAR(f.most_A("E1.+"), 4 * 3.35074 / (1.2e-3 + 2 * rho / 35 * 1e-3), 5);
    // A pack that was measured stiffer than that is taken at its word.
    b.resistance = 1_mohm;
    auto g1 = *plan::find(d.in, "G1");
    g1.with = b;
    d.in.components = d.in.components.with(g1);
    EXPECT_NEAR(Faults(d).most_A("G1.+"), 4 * 3.35074 / 1e-3, 5);
    EXPECT_EQ(peak(f.d.in, f.net, f.node("G1.+"))->total, f.most("G1.+")->total);
}

TEST(Fault, TwoBanksByAnEmergencyLink) {
    Draw d;
    d.add("G1", lead(100, 5_mohm));
    d.add("G2", lead(100, 4_mohm));
    plan::Switch link;
    link.role = plan::SwitchRole::emergency_link;
    link.closed = false;
    d.add("S1", link);
    d.wire("W1", "G1.+", "S1.1", 1_m, 50);
    d.wire("W2", "S1.2", "G2.+", 1_m, 50);
    d.wire("W3", "G1.-", "G2.-", 2_m, 50);
    const Faults f(std::move(d));
    // Largest, link closed: at G1 its own 12.9 V / 5 mohm and 12.9 V / (4 + 4 x 17.241/50) from the other.
    EXPECT_NEAR(f.share_A("G1.+", "G1"), agm_full_V / 5e-3, 0.01);
    EXPECT_NEAR(f.share_A("G1.+", "G2"), agm_full_V / (4 + 4 * rho / 50) * 1e3, 0.01);
    // Least, link open: its own alone.
    EXPECT_NEAR(f.least_A("G1.+"), agm_half_V / 10e-3, 0.01);
}

TEST(Fault, ToTheBodyWhereDrawn) {
    Draw d;
    d.add("G1", lead(100, 5_mohm));
    d.add("E1", plan::Load{});
    plan::EarthPoint earth;
    earth.joint = 0.5_mohm;
    earth.body = 0_mohm;
    d.add("P1", earth);
    d.wire("W1", "G1.+", "E1.+", 5_m, 16);
    d.wire("W2", "E1.-", "G1.-", 5_m, 16);
    d.wire("W3", "G1.-", "P1.1", 0.5_m, 16);
    const Faults f(std::move(d));
    // By its own return: 5 + 10 m of copper = 15.78 mohm; to the body: 5 + 5.5 m + 0.5 = 11.43 mohm.
    EXPECT_NEAR(f.most_A("E1.+"), agm_full_V / (5 + 5.5 * rho / 16 + 0.5) * 1e3, 0.01);
    EXPECT_TRUE(f.net.nodes[static_cast<std::size_t>(f.most("E1.+")->back)].body);
    EXPECT_EQ(f.least("E1.+")->back, f.node("E1.-"));
}

TEST(Fault, WhatIsNotKnownIsNothingForTheLargestAndEverythingForTheLeast) {
    Draw d;
    d.add("G1", lead(100, 5_mohm));
    d.add("E1", plan::Load{});
    d.wire("W1", "G1.+", "E1.+", {}, 16);
    d.wire("W2", "E1.-", "G1.-", 5_m, 16);
    const Faults f(std::move(d));
    EXPECT_NEAR(f.most_A("E1.+"), agm_full_V / (5 + 5 * rho / 16) * 1e3, 0.01);
    EXPECT_FALSE(f.least("E1.+"));
    EXPECT_TRUE(f.least("G1.+"));
}

TEST(Fault, ATakeOffPointStandsForTheVehiclesBattery) {
    Draw d;
    d.in.basis.rule_set = "van";
    plan::TakeOffPoint t;
    t.nominal = 12_V;
    d.add("G1", t);
    d.add("E1", plan::Load{});
    d.wire("W1", "G1.+", "E1.+", 1_m, 16);
    d.wire("W2", "E1.-", "G1.-", 1_m, 16);
    const Faults f(std::move(d));
    // A van's battery by default: 760 A cold, 4.342 mohm.
    EXPECT_NEAR(f.most_A("G1.+"), flooded_full_V / 3300 * 760 * 1e3, 0.01);
    EXPECT_NEAR(f.most_A("E1.+"), flooded_full_V / (3300.0 / 760 + 2 * rho / 16) * 1e3, 0.01);
}

TEST(Fault, OneByOneTheSameBitsAsEverywhere) {
    const Faults f(as_found());
    int said = 0;
    for (std::size_t n = 0; n < f.all.size(); ++n) {
        const auto most = largest(f.d.in, f.net, static_cast<int>(n));
        const auto lowest = least(f.d.in, f.net, static_cast<int>(n));
        ASSERT_EQ(bool(most), bool(f.all[n].largest));
        ASSERT_EQ(bool(lowest), bool(f.all[n].least));
        const auto why = why_largest(f.d.in, f.net, static_cast<int>(n));
        if (!most) {
            EXPECT_EQ(why.value, derive::Value("not known"));
            continue;
        }
        ++said;
        EXPECT_TRUE(derive::same_bits(most->total, f.all[n].largest->total));
        EXPECT_TRUE(derive::same_bits(lowest->total, f.all[n].least->total));
        EXPECT_LT(lowest->total, most->total);
        EXPECT_TRUE(derive::same_bits(why.value, most->total));
        for (const auto* end : derive::leaves(why)) EXPECT_NE(end->source, "") << end->symbol;
        double sum = 0;
        for (const auto& s : most->shares) sum += s.current.si();
        EXPECT_NEAR(sum, most->total.si(), 1e-6 * sum);
    }
    EXPECT_EQ(said, 5) << "G1.+, X1.1, F1.1, F1.2, E1.+";
}

TEST(Fault, WhyNamesWhatLiesOnTheWay) {
    const Faults f(as_found());
    const auto why = why_largest(f.d.in, f.net, f.node("F1.1"));
    ASSERT_EQ(why.inputs.size(), 1u);
    EXPECT_EQ(why.formula, "I_G1");
    const auto& from = why.inputs[0];
    EXPECT_EQ(from.symbol, "I_G1");
    ASSERT_EQ(from.inputs.size(), 3u);
    EXPECT_EQ(std::get<Voltage>(from.inputs[0].value).si(), flooded_full_V);
    const auto& way = from.inputs[2].inputs;
    ASSERT_EQ(way.size(), 2u);
    EXPECT_EQ(way[0].symbol, "R_W1");
    EXPECT_EQ(way[1].symbol, "R_W2");
    // The numbers of a why make the number: (E - U) / R.
    const double again =
        (std::get<Voltage>(from.inputs[0].value).si() - std::get<Voltage>(from.inputs[2].value).si()) /
        std::get<Resistance>(from.inputs[1].value).si();
    EXPECT_NEAR(again, std::get<Current>(from.value).si(), 1e-6);
}

TEST(Fault, NothingDrawnNothingFlows) {
    EXPECT_TRUE(everywhere({}, network::build({})).empty());
}

} // namespace
