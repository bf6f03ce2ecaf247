#include "core/network/network.h"
#include "core/network/part.h"
#include "tests/core/network/draw.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

using namespace fl;
using namespace fl::network;
using fl::test::box_of;
using fl::test::Draw;
using fl::test::fuse_of;

namespace {

plan::Busbar bar(int studs = 4) {
    plan::Busbar b;
    b.studs = studs;
    return b;
}

/// A service battery with main fuse, plus bar, fuse box, minus bar behind a shunt, two loads.
Draw van() {
    Draw d;
    d.add("G1", plan::Battery{});
    d.add("F1", fuse_of(100));
    d.add("X1", bar());
    d.add("F2", box_of({10, 15, 0}));
    d.add("R1", plan::Shunt{});
    d.add("X2", bar());
    d.add("E1", plan::Load{});
    d.add("E2", plan::Load{});
    d.wire("W1", "G1.+", "F1.1");
    d.wire("W2", "F1.2", "X1.1");
    d.wire("W3", "X1.2", "F2.in");
    d.wire("W4", "F2.1", "E1.+");
    d.wire("W5", "F2.2", "E2.+");
    d.wire("W6", "E1.-", "F2.-");
    d.wire("W7", "E2.-", "X2.1");
    d.wire("W8", "F2.-", "X2.2");
    d.wire("W9", "X2.3", "R1.load");
    d.wire("W10", "R1.battery", "G1.-");
    return d;
}

std::set<std::string> returns_of(const Draw& d) {
    const auto net = build(d.in);
    const auto returns = return_nodes(net);
    std::set<std::string> names;
    for (std::size_t i = 0; i < returns.size(); ++i)
        if (returns[i]) {
            for (const auto& t : net.nodes[i].terminals) names.insert(plan::text(d.in, t));
            if (net.nodes[i].body) names.insert("body");
        }
    return names;
}

std::vector<std::string> names(const Draw& d, const std::vector<plan::ConductorId>& ids) {
    std::vector<std::string> out;
    for (const auto id : ids) out.push_back(d.in.conductors.find(id)->designation);
    return out;
}

TEST(Network, OneNodeForOnePieceOfMetal) {
    const Draw d = van();
    const auto net = build(d.in);
    EXPECT_EQ(net.node_of(d.at("X1.1")), net.node_of(d.at("X1.4"))) << "studs of a bar";
    EXPECT_NE(net.node_of(d.at("X1.1")), net.node_of(d.at("X2.1")));
    EXPECT_NE(net.node_of(d.at("F2.in")), net.node_of(d.at("F2.1")));
    EXPECT_NE(net.node_of(d.at("F2.in")), net.node_of(d.at("F2.-")));
    EXPECT_EQ(net.node_of({{77}, "+"}), -1);
    EXPECT_EQ(net.node_of(d.at("F2.9")), -1);
    // By hand: G1 2, F1 2, X1 1, F2 in + 3 ways + minus = 5, R1 2, X2 1, E1 2, E2 2; no body.
    EXPECT_EQ(net.nodes.size(), 17u);
    EXPECT_EQ(net, build(d.in)) << "the same drawing, the same numbers";
    for (const auto& node : net.nodes)
        EXPECT_TRUE(std::is_sorted(node.terminals.begin(), node.terminals.end()));
}

TEST(Network, BranchesConductorsFirst) {
    const Draw d = van();
    const auto net = build(d.in);
    ASSERT_EQ(net.branches.size(), 10u + 1 + 3 + 1) << "wires, fuse, ways (the empty one too), shunt";
    for (std::size_t i = 0; i < net.branches.size(); ++i)
        EXPECT_EQ(net.branches[i].kind == BranchKind::conductor, i < 10) << i;
    const auto* w5 = plan::find_conductor(d.in, "W5");
    const auto& branch = net.branches[static_cast<std::size_t>(net.branch_of(w5->id))];
    EXPECT_EQ(branch.a, net.node_of(d.at("F2.2")));
    EXPECT_EQ(branch.b, net.node_of(d.at("E2.+")));
    EXPECT_EQ(net.branch_of({999}), -1);
    const auto way = std::find_if(net.branches.begin(), net.branches.end(),
                                  [](const Branch& b) { return b.kind == BranchKind::way && b.part == 1; });
    ASSERT_NE(way, net.branches.end());
    EXPECT_EQ(way->a, net.node_of(d.at("F2.in")));
    EXPECT_EQ(way->b, net.node_of(d.at("F2.2")));
    ASSERT_NE(way_of(d.in, *way), nullptr);
    EXPECT_EQ(way_of(d.in, *way)->rating.value, Current::si(15));
}

TEST(Network, EarthPointsMeetInOneBody) {
    Draw d;
    d.add("G1", plan::Battery{});
    d.add("E1", plan::Load{});
    d.add("P1", plan::EarthPoint{});
    d.add("P2", plan::EarthPoint{});
    d.wire("W1", "G1.+", "E1.+");
    d.wire("W2", "E1.-", "P1.1");
    d.wire("W3", "P2.1", "G1.-");
    const auto net = build(d.in);
    ASSERT_TRUE(net.nodes.back().body);
    const int body = static_cast<int>(net.nodes.size()) - 1;
    int earths = 0;
    for (const auto& b : net.branches)
        if (b.kind == BranchKind::earth) {
            ++earths;
            EXPECT_EQ(b.b, body);
        }
    EXPECT_EQ(earths, 2);
    EXPECT_EQ(returns_of(d), (std::set<std::string>{"E1.-", "P1.1", "P2.1", "G1.-", "body"}));
}

TEST(Network, RelayHasContactAndCoil) {
    Draw d;
    const auto k1 = d.add("K1", plan::Relay{});
    plan::Relay sensing;
    sensing.control = plan::RelayControl::voltage_sensing;
    const auto k2 = d.add("K2", sensing);
    const auto net = build(d.in);
    ASSERT_EQ(net.branches.size(), 2u);
    EXPECT_EQ(net.branches[0].component, k1);
    EXPECT_EQ(net.branches[0].a, net.node_of({k1, "30"}));
    EXPECT_EQ(net.branches[0].b, net.node_of({k1, "87"}));
    ASSERT_EQ(net.ports.size(), 2u);
    EXPECT_EQ(net.ports[0].kind, PortKind::relay_coil);
    EXPECT_EQ(net.ports[0].plus, net.node_of({k1, "86"}));
    EXPECT_EQ(net.ports[0].minus, net.node_of({k1, "85"}));
    EXPECT_EQ(net.ports[1].plus, net.node_of({k2, "30"}));
    EXPECT_EQ(net.ports[1].minus, net.node_of({k2, "31"}));
}

TEST(Network, ConvertersHaveTwoPorts) {
    Draw d;
    const auto t1 = d.add("T1", plan::DriveCharger{});
    plan::Converter isolated;
    isolated.isolated = true;
    const auto t2 = d.add("T2", isolated);
    const auto net = build(d.in);
    ASSERT_EQ(net.converters.size(), 2u);
    EXPECT_EQ(net.converters[0].in_minus, net.node_of({t1, "-"}));
    EXPECT_EQ(net.converters[0].out_minus, net.node_of({t1, "-"}));
    EXPECT_EQ(net.converters[0].run, net.node_of({t1, "run"}));
    EXPECT_EQ(net.converters[1].in_minus, net.node_of({t2, "in-"}));
    EXPECT_EQ(net.converters[1].out_minus, net.node_of({t2, "out-"}));
    EXPECT_EQ(net.converters[1].run, -1);
}

TEST(Network, AUnitIsItsElements) {
    // A charger that takes sun and the alternator, both into one output; its minus is a bar of two studs.
    Draw d;
    plan::Unit unit;
    unit.terminals = {"sun+", "drive+", "out+", "-", "case"};
    plan::SolarController sun;
    plan::DriveCharger drive;
    plan::Busbar minus;
    minus.studs = 2;
    unit.elements = {{"sun", sun, {{"+", "out+"}, {"-", "-"}}},
                     {"drive", drive, {{"in+", "drive+"}, {"out+", "out+"}, {"-", "-"}}},
                     {"minus", minus, {{"1", "-"}, {"2", "case"}}},
                     {"fuses", box_of({10}), {{"in", "out+"}, {"1", "sun+"}}}};
    const auto id = d.add("U1", unit);
    const auto net = build(d.in);
    EXPECT_EQ(net.node_of({id, "-"}), net.node_of({id, "case"}));
    EXPECT_EQ(net.nodes.size(), 4u);
    ASSERT_EQ(net.ports.size(), 1u);
    EXPECT_EQ(net.ports[0].element, 0);
    EXPECT_EQ(net.ports[0].plus, net.node_of({id, "out+"}));
    EXPECT_NE(parameters<plan::SolarController>(d.in, net.ports[0]), nullptr);
    EXPECT_EQ(parameters<plan::DriveCharger>(d.in, net.ports[0]), nullptr);
    ASSERT_EQ(net.converters.size(), 1u);
    EXPECT_EQ(net.converters[0].element, 1);
    EXPECT_EQ(net.converters[0].run, -1) << "the unit brings out no run terminal";
    ASSERT_EQ(net.branches.size(), 1u);
    EXPECT_EQ(net.branches[0].part, 0);
    EXPECT_EQ(net.branches[0].element, 3);
    ASSERT_NE(way_of(d.in, net.branches[0]), nullptr);
    EXPECT_EQ(way_of(d.in, net.branches[0])->rating.value, Current::si(10));
}

TEST(Network, WhatIsRemovedIsLeftOut) {
    Draw d;
    d.add("G1", plan::Battery{});
    d.add("E1", plan::Load{}, plan::Origin::removed);
    d.add("E2", plan::Load{}, plan::Origin::as_found);
    d.wire("W1", "G1.+", "E1.+");
    d.wire("W2", "G1.+", "E2.+");
    d.wire("W3", "E2.-", "G1.-");
    auto removed = *plan::find_conductor(d.in, "W3");
    removed.origin = plan::Origin::removed;
    d.in.conductors = d.in.conductors.with(removed);
    const auto net = build(d.in);
    EXPECT_EQ(net.nodes.size(), 4u);
    EXPECT_EQ(net.ports.size(), 2u);
    ASSERT_EQ(net.branches.size(), 1u);
    EXPECT_EQ(net.branches[0].conductor, plan::find_conductor(d.in, "W2")->id);
    EXPECT_EQ(build({}), Network{});
}

TEST(Network, ReturnGoesThroughShuntSwitchAndFuse) {
    Draw d = van();
    EXPECT_EQ(returns_of(d), (std::set<std::string>{"G1.-", "R1.battery", "R1.load", "X2.1", "X2.2", "X2.3",
                                                    "X2.4", "F2.-", "E1.-", "E2.-"}));
    plan::Switch open;
    open.closed = false;
    d.add("S1", open);
    d.add("F3", fuse_of(5));
    d.add("E3", plan::Load{});
    d.wire("W11", "X2.4", "S1.1");
    d.wire("W12", "S1.2", "F3.1");
    d.wire("W13", "F3.2", "E3.-");
    const auto all = returns_of(d);
    for (const char* name : {"S1.1", "S1.2", "F3.1", "F3.2", "E3.-"}) EXPECT_TRUE(all.contains(name)) << name;
    EXPECT_FALSE(all.contains("E3.+"));
}

TEST(Network, MiddleOfTwoBatteriesIsLive) {
    Draw d;
    d.add("G1", plan::Battery{});
    d.add("G2", plan::Battery{});
    d.add("E1", plan::Load{});
    d.wire("W1", "G1.+", "G2.-");
    d.wire("W2", "G1.+", "E1.+");
    d.wire("W3", "E1.-", "G1.-");
    EXPECT_EQ(returns_of(d), (std::set<std::string>{"G1.-", "E1.-"}));
}

TEST(Network, ReversedCoilDoesNotTurnTheLiveSideIntoReturn) {
    Draw d;
    d.add("G1", plan::Battery{});
    d.add("K1", plan::Relay{});
    d.add("B1", plan::SignalPoint{});
    d.wire("W1", "B1.1", "K1.85");
    d.wire("W2", "K1.86", "G1.-");
    EXPECT_EQ(returns_of(d), (std::set<std::string>{"G1.-", "K1.86"}));
}

TEST(Network, IslandsFollowWhatIsClosed) {
    Draw d;
    d.add("G1", plan::Battery{});
    d.add("S1", plan::Switch{});
    d.add("E1", plan::Load{});
    d.wire("W1", "G1.+", "S1.1");
    d.wire("W2", "S1.2", "E1.+");
    d.wire("W3", "E1.-", "G1.-");
    const auto net = build(d.in);
    auto closed = std::vector<bool>(net.branches.size(), true);
    auto island = islands(net, closed);
    const auto of = [&](const char* at) { return island[static_cast<std::size_t>(net.node_of(d.at(at)))]; };
    EXPECT_EQ(of("G1.+"), 0) << "numbered from the first node";
    EXPECT_EQ(of("G1.+"), of("E1.+"));
    EXPECT_NE(of("G1.+"), of("G1.-")) << "ports do not connect";
    for (std::size_t i = 0; i < closed.size(); ++i) closed[i] = net.branches[i].kind != BranchKind::switch_;
    island = islands(net, closed);
    EXPECT_NE(of("G1.+"), of("E1.+"));
    EXPECT_EQ(*std::max_element(island.begin(), island.end()), 2);
}

TEST(Circuits, FromTheFinalWayToItsLoads) {
    const Draw d = van();
    const auto net = build(d.in);
    const auto all = circuits(d.in, net);
    ASSERT_EQ(all.size(), 2u);
    EXPECT_EQ(all[0].box, plan::find(d.in, "F2")->id);
    EXPECT_EQ(all[0].way, 0);
    EXPECT_EQ(all[0].loads, std::vector{plan::find(d.in, "E1")->id});
    EXPECT_EQ(names(d, all[0].conductors), (std::vector<std::string>{"W4", "W6"}));
    EXPECT_EQ(all[1].way, 1);
    EXPECT_EQ(names(d, all[1].conductors), (std::vector<std::string>{"W5", "W7"}));
}

TEST(Circuits, LoadsOnABarBelongToItsFuseAndOthersToNone) {
    Draw d = van();
    const auto inverter = d.add("T1", plan::Inverter{});
    const auto lamp = d.add("E9", plan::Load{});
    d.add("X9", plan::Joint{});
    d.wire("W11", "X1.3", "T1.+");
    d.wire("W12", "T1.-", "X2.4");
    d.wire("W13", "G1.+", "E9.+");
    d.wire("W14", "E9.-", "X9.1"); // a joint in the return is not everybody's
    d.wire("W15", "X9.1", "G1.-");
    const auto all = circuits(d.in, build(d.in));
    ASSERT_EQ(all.size(), 4u);
    EXPECT_EQ(all[0].box, plan::find(d.in, "F1")->id);
    EXPECT_EQ(all[0].way, -1);
    EXPECT_EQ(all[0].loads, std::vector{inverter});
    EXPECT_EQ(names(d, all[0].conductors), (std::vector<std::string>{"W2", "W11", "W12"}));
    EXPECT_EQ(all[3].box, plan::ComponentId{});
    EXPECT_EQ(all[3].loads, std::vector{lamp});
    EXPECT_EQ(names(d, all[3].conductors), (std::vector<std::string>{"W13", "W14", "W15"}));
}

TEST(Circuits, ParallelCoresAndAReturnToBodyAndBattery) {
    Draw d;
    d.add("G1", plan::Battery{});
    d.add("F1", fuse_of(25));
    d.add("E1", plan::Load{});
    d.add("P1", plan::EarthPoint{});
    d.wire("W1", "G1.+", "F1.1");
    d.wire("W2", "F1.2", "E1.+");
    d.wire("W3", "F1.2", "E1.+");
    d.wire("W4", "E1.-", "P1.1");
    d.wire("W5", "E1.-", "G1.-");
    const auto all = circuits(d.in, build(d.in));
    ASSERT_EQ(all.size(), 1u);
    EXPECT_EQ(names(d, all[0].conductors), (std::vector<std::string>{"W2", "W3", "W4", "W5"}));
}

TEST(ShortestWay, ShortestInMetresNotInPieces) {
    using namespace fl::literals;
    Draw d;
    d.add("G1", plan::Battery{});
    d.add("X1", plan::Joint{});
    d.add("E1", plan::Load{});
    d.wire("W1", "G1.+", "E1.+", 5_m);
    d.wire("W2", "G1.+", "X1.1", 2_m);
    d.wire("W3", "X1.1", "E1.+", 2_m);
    d.wire("W4", "E1.-", "G1.-");
    const auto net = build(d.in);
    std::vector<bool> usable(net.branches.size(), true);
    const auto to = net.node_of(d.at("E1.+")), from = net.node_of(d.at("G1.+"));
    auto way = shortest_way(d.in, net, {from}, to, usable);
    ASSERT_TRUE(way);
    EXPECT_EQ(way->length, 4_m);
    EXPECT_EQ(way->branches, (std::vector{1, 2}));
    usable[1] = false;
    way = shortest_way(d.in, net, {from}, to, usable);
    ASSERT_TRUE(way);
    EXPECT_EQ(way->length, 5_m);
    way = shortest_way(d.in, net, {from, to}, to, usable);
    ASSERT_TRUE(way);
    EXPECT_EQ(way->length, 0_m);
    EXPECT_TRUE(way->branches.empty());
    EXPECT_FALSE(shortest_way(d.in, net, {from}, net.node_of(d.at("G1.-")), usable))
        << "only through the load";
    EXPECT_FALSE(shortest_way(d.in, net, {}, to, usable));
}

TEST(ShortestWay, AnUnknownLengthIsNotKnown) {
    using namespace fl::literals;
    Draw d;
    d.add("G1", plan::Battery{});
    d.add("X1", plan::Joint{});
    d.add("E1", plan::Load{});
    d.wire("W1", "G1.+", "E1.+", 5_m);
    d.wire("W2", "G1.+", "X1.1");
    d.wire("W3", "X1.1", "E1.+", 2_m);
    const auto net = build(d.in);
    const auto from = net.node_of(d.at("G1.+")), to = net.node_of(d.at("E1.+"));
    auto way = shortest_way(d.in, net, {from}, to, std::vector<bool>(net.branches.size(), true));
    ASSERT_TRUE(way);
    EXPECT_FALSE(way->length) << "the other way may be shorter than 5 m";
    // 6 m of the piece after the unknown one: 5 m is the shortest for certain.
    auto w3 = *plan::find_conductor(d.in, "W3");
    w3.length = 6_m;
    d.in.conductors = d.in.conductors.with(w3);
    way = shortest_way(d.in, net, {from}, to, std::vector<bool>(net.branches.size(), true));
    ASSERT_TRUE(way);
    EXPECT_EQ(way->length, 5_m);
}

} // namespace
