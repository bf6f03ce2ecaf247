#include "core/fault/through.h"
#include "tests/core/network/draw.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

using namespace fl;
using namespace fl::literals;
using namespace fl::fault;
using fl::test::Draw;
using fl::test::fuse_of;

namespace {

/// Rest voltages of an AGM block in the catalogue, full and at half charge.
constexpr double full_V = 2.15 * 6, half_V = 2.05 * 6;
/// Mohm a metre of 16 mm2: annealed copper cold; class 5 (IEC 60228) at 70 °C.
constexpr double cold = 17.241 / 16, hot = 1.21 * 304.5 / 254.5;

plan::Battery agm(Resistance r) {
    plan::Battery b;
    b.chemistry = plan::Chemistry::lead_agm;
    b.nominal = 12_V;
    b.capacity = 200_Ah;
    b.resistance = r;
    return b;
}

plan::Fuse link(double ampere) {
    auto f = fuse_of(ampere);
    f.resistance = 1_mohm;
    return f;
}

/// A wire of 16 mm2 whose joints are known to be nothing.
void wire(Draw& d, const std::string& name, std::string_view from, std::string_view to,
          std::optional<Length> length) {
    d.wire(name, from, to, length, 16);
    auto w = *plan::find_conductor(d.in, name);
    w.ends[0].joint = w.ends[1].joint = 0_mohm;
    d.in.conductors = d.in.conductors.with(w);
}

/// Two batteries, each by a fuse and 2 m to one place (and 2 m back), from there 5 m to a load and back.
Draw two_batteries() {
    Draw d;
    d.add("G1", agm(4_mohm));
    d.add("G2", agm(4_mohm));
    d.add("F1", link(50));
    d.add("F2", link(50));
    plan::Joint x;
    x.resistance = 0_mohm;
    d.add("X1", x);
    d.add("X2", x);
    d.add("E1", plan::Load{});
    for (const std::string n : {"1", "2"}) {
        wire(d, "W1" + n, "G" + n + ".+", "F" + n + ".1", 1_m);
        wire(d, "W2" + n, "F" + n + ".2", "X1.1", 1_m);
        wire(d, "W3" + n, "G" + n + ".-", "X2.1", 2_m);
    }
    wire(d, "W4", "X1.1", "E1.+", 5_m);
    wire(d, "W5", "E1.-", "X2.1", 5_m);
    return d;
}

struct Faults {
    Draw d;
    network::Network net;
    explicit Faults(Draw drawing)
        : d(std::move(drawing))
        , net(network::build(d.in)) {}

    int node(std::string_view terminal) const { return net.node_of(d.at(terminal)); }
    plan::ComponentId id(std::string_view name) const { return plan::find(d.in, name)->id; }
    const Through* in(const Devices& all, std::string_view device) const {
        const auto found = std::find_if(all.begin(), all.end(), [&](const Through& t) {
            return net.branches[static_cast<std::size_t>(t.branch)].component == id(device);
        });
        return found == all.end() ? nullptr : &*found;
    }
    SourceState state(const std::vector<InState>& of, std::string_view source) const {
        for (const InState& s : of)
            if (s.source == id(source)) return s.state;
        ADD_FAILURE() << source << " is not said";
        return {};
    }
};

// Fault at the load. Greatest through F1: G2 not there, 12.9 V / (4 + 1 + 14 m of copper). Least: G1 at half
// charge behind 2 x 4 mohm, G2 full behind 4 mohm; the place X1 (between X1 and X2, as the way back is alike)
// stands at V = (E1/R1 + E2/R2) / (1/R1 + 1/R2 + 1/R3).
TEST(ThroughDevices, TheOtherBatteryHoldsTheVoltageUp) {
    const Faults f(two_batteries());
    const auto all = through_devices(f.d.in, f.net, f.node("E1.+"));
    ASSERT_EQ(all.size(), 2u);
    const Through* f1 = f.in(all, "F1");
    ASSERT_TRUE(f1);
    EXPECT_TRUE(f1->forward) << "from G1 to the place";
    EXPECT_NEAR(f1->greatest.si(), full_V / (5 + 14 * cold) * 1e3, 1e-3);
    EXPECT_EQ(f.state(f1->at_greatest, "G1"), SourceState::strong);
    EXPECT_EQ(f.state(f1->at_greatest, "G2"), SourceState::absent);
    const double r1 = 8 + 1 + 4 * hot, r2 = 4 + 1 + 4 * hot, r3 = 10 * hot;
    const double v = (half_V / r1 + full_V / r2) / (1 / r1 + 1 / r2 + 1 / r3);
    ASSERT_TRUE(f1->least);
    EXPECT_NEAR(f1->least->si(), (half_V - v) / r1 * 1e3, 1e-3);
    EXPECT_EQ(f.state(f1->at_least, "G1"), SourceState::weak);
    EXPECT_EQ(f.state(f1->at_least, "G2"), SourceState::strong);
    // Weak both, it would carry more: that is not its least.
    EXPECT_LT(f1->least->si(), half_V / (r1 + 2 * r3) * 1e3);
}

// Fault on G1's side of its fuse: F1 is fed by G2 through F2, the other way round.
TEST(ThroughDevices, FromTheFarSideBothInARow) {
    const Faults f(two_batteries());
    const auto all = through_devices(f.d.in, f.net, f.node("F1.1"));
    const Through *f1 = f.in(all, "F1"), *f2 = f.in(all, "F2");
    ASSERT_TRUE(f1 && f2);
    EXPECT_FALSE(f1->forward);
    EXPECT_TRUE(f2->forward);
    // G2, two links, 1 + 1 + 1 m to the place and 2 + 2 m back to G1's minus.
    EXPECT_NEAR(f1->greatest.si(), full_V / (4 + 2 + 7 * cold) * 1e3, 1e-3);
    EXPECT_NEAR(f1->greatest.si(), f2->greatest.si(), 1e-6);
}

TEST(ThroughDevices, AfterOneHasOpened) {
    const Faults f(two_batteries());
    const auto before = through_devices(f.d.in, f.net, f.node("E1.+"));
    const auto after = through_devices(f.d.in, f.net, f.node("E1.+"), {f.in(before, "F2")->branch});
    ASSERT_EQ(after.size(), 1u);
    // Alone now: least is G1 weak, 14 m of hot copper.
    EXPECT_NEAR(after.front().least->si(), half_V / (8 + 1 + 14 * hot) * 1e3, 1e-3);
    EXPECT_NEAR(after.front().greatest.si(), f.in(before, "F1")->greatest.si(), 1e-3);
}

// By its plain limit of 30 A at least, 1.3 times that at most, and nothing of a battery.
TEST(ThroughDevices, BehindALimitedSourceAlone) {
    Draw d;
    plan::MainsCharger charger;
    charger.output_current = 30_A;
    d.add("T1", charger);
    d.add("F1", link(50));
    d.add("E1", plan::Load{});
    wire(d, "W1", "T1.+", "F1.1", 1_m);
    wire(d, "W2", "F1.2", "E1.+", 3_m);
    wire(d, "W3", "E1.-", "T1.-", 4_m);
    const Faults f(std::move(d));
    const auto all = through_devices(f.d.in, f.net, f.node("E1.+"));
    ASSERT_EQ(all.size(), 1u);
    EXPECT_NEAR(all.front().greatest.si(), 39, 1e-6);
    EXPECT_NEAR(all.front().least->si(), 30, 1e-6);
    EXPECT_EQ(f.state(all.front().at_least, "T1"), SourceState::weak);
}

TEST(ThroughDevices, WhereALengthIsNotKnownTheLeastIsNot) {
    Draw d = two_batteries();
    auto w = *plan::find_conductor(d.in, "W11");
    w.length = {};
    d.in.conductors = d.in.conductors.with(w);
    const Faults f(std::move(d));
    const auto all = through_devices(f.d.in, f.net, f.node("E1.+"));
    ASSERT_EQ(all.size(), 2u);
    EXPECT_FALSE(f.in(all, "F1")->least) << "nobody knows how far G1 is";
    EXPECT_TRUE(f.in(all, "F2")->least);
}

TEST(ThroughDevices, OneByOneTheSameAsEverywhere) {
    const Faults f(two_batteries());
    const auto all = through_devices(f.d.in, f.net);
    ASSERT_EQ(all.size(), f.net.nodes.size());
    int said = 0;
    for (std::size_t n = 0; n < all.size(); ++n) {
        const auto one = through_devices(f.d.in, f.net, static_cast<int>(n));
        ASSERT_EQ(one.size(), all[n].size());
        for (std::size_t i = 0; i < one.size(); ++i) {
            ++said;
            EXPECT_EQ(one[i].branch, all[n][i].branch);
            EXPECT_NEAR(one[i].greatest.si(), all[n][i].greatest.si(), 1e-6);
            EXPECT_NEAR(one[i].least->si(), all[n][i].least->si(), 1e-6);
        }
    }
    EXPECT_EQ(said, 2 * 8) << "both, at G1.+, G2.+, four ends of fuses, X1 and E1.+; none at a return";
}

} // namespace
