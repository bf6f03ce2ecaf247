#include "core/fault/detail.h"
#include "tests/core/network/draw.h"

#include <gtest/gtest.h>

using namespace fl;
using namespace fl::literals;
using namespace fl::fault;
using fl::test::Draw;

namespace {

plan::Battery battery(plan::Chemistry chemistry) {
    plan::Battery b;
    b.chemistry = chemistry;
    b.nominal = 12_V;
    b.capacity = 200_Ah;
    b.resistance = 4_mohm;
    return b;
}

/// 5 m of 16 mm2 to a load and 5 m back.
Draw one(plan::Parameters source) {
    Draw d;
    d.add("G1", std::move(source));
    d.add("E1", plan::Load{});
    d.wire("W1", "G1.+", "E1.+", 5_m, 16);
    d.wire("W2", "E1.-", "G1.-", 5_m, 16);
    return d;
}

struct At {
    network::Network net;
    std::vector<AtNode> all;
    std::optional<Detail> detail;
    At(const Draw& d, std::string_view terminal)
        : net(network::build(d.in))
        , all(everywhere(d.in, net))
        , detail(details(d.in, net, all)[static_cast<std::size_t>(net.node_of(d.at(terminal)))]) {}
};

// By hand: 10 m of 17.241/16 mohm/m and 4 mohm are 14.776 mohm, with 0.9 times 4 mohm 14.376 mohm; 12.9 V
// full. 10 m at 0.5 uH/m are 5 uH: 2 / (14.776e-3 / 5e-6 + 1 / 0.03) = 0.669 ms, five times 3.346 ms.
TEST(FaultDetail, ShapeOfALeadBattery) {
    const At at(one(battery(plan::Chemistry::lead_agm)), "E1.+");
    ASSERT_TRUE(at.detail);
    EXPECT_NEAR(at.detail->peak.si(), 12.9 / 14.3756e-3, 0.1);
    EXPECT_NEAR(at.detail->plateau.si(), 0.95 * 12.9 / 14.7756e-3, 0.1);
    ASSERT_TRUE(at.detail->to_peak);
    EXPECT_NEAR(at.detail->to_peak->si(), 3.346e-3, 1e-6);
    // Each wire has 5.388 mohm, the battery 4.
    EXPECT_GE(at.detail->limit.branch, 0);
    EXPECT_NEAR(at.detail->limit.resistance->si(), 5 * 17.241e-3 / 16, 1e-9);
}

TEST(FaultDetail, AtItsTerminalsTheSourceSetsItAtOnce) {
    const Draw d = one(battery(plan::Chemistry::lead_agm));
    const At at(d, "G1.+");
    ASSERT_TRUE(at.detail);
    EXPECT_EQ(at.detail->limit.branch, -1);
    EXPECT_EQ(at.detail->limit.source, plan::find(d.in, "G1")->id);
    EXPECT_EQ(at.detail->limit.resistance, std::optional<Resistance>(4_mohm));
    EXPECT_EQ(at.detail->to_peak, std::optional<Time>(Time{}));
}

TEST(FaultDetail, LithiumHasNoHumpAndRisesByItsLeads) {
    auto pack = battery(plan::Chemistry::lifepo4);
    pack.resistance = {};
    const At at(one(pack), "E1.+");
    ASSERT_TRUE(at.detail);
    const auto& largest = *at.all[static_cast<std::size_t>(at.net.node_of(one(pack).at("E1.+")))].largest;
    EXPECT_NEAR(at.detail->peak.si(), largest.total.si(), 1e-6);
    EXPECT_NEAR(at.detail->plateau.si(), largest.total.si(), 1e-6);
    // 5 uH over the cells' 120 mohm Ah / 200 Ah = 0.6 mohm and 10.776 mohm, five times.
    EXPECT_NEAR(at.detail->to_peak->si(), 5 * 5e-6 / (0.6e-3 + 10 * 17.241e-3 / 16), 1e-6);
}

TEST(FaultDetail, WhatLimitsItselfSetsIt) {
    plan::MainsCharger charger;
    charger.output_current = 30_A;
    const Draw d = one(charger);
    const At at(d, "E1.+");
    ASSERT_TRUE(at.detail);
    EXPECT_EQ(at.detail->limit.source, plan::find(d.in, "G1")->id);
    EXPECT_FALSE(at.detail->limit.resistance);
    EXPECT_FALSE(at.detail->to_peak);
}

TEST(FaultDetail, ElectronicsOpenAboveTheirPulse) {
    auto pack = battery(plan::Chemistry::lifepo4);
    pack.discharge_limit = 200_A;
    Draw d = one(pack);
    const auto id = plan::find(d.in, "G1")->id;
    const auto opens = [&](double ampere) {
        Fault f;
        f.shares = {{id, Current::si(ampere)}};
        return !electronics_open(d.in, f).empty();
    };
    // Pulse not entered: 1.5 times the lasting limit by default.
    EXPECT_FALSE(opens(299));
    EXPECT_TRUE(opens(301));
    pack.pulse_limit = 500_A;
    auto g1 = *plan::find(d.in, "G1");
    g1.with = pack;
    d.in.components = d.in.components.with(g1);
    EXPECT_FALSE(opens(499));
    EXPECT_TRUE(opens(501));
    pack.electronics = false; // bare cells
    g1.with = pack;
    d.in.components = d.in.components.with(g1);
    EXPECT_FALSE(opens(5000));
}

} // namespace
