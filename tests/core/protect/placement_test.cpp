#include "core/protect/placement.h"
#include "tests/core/network/draw.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>

using namespace fl;
using namespace fl::literals;
using namespace fl::protect;
using fl::test::box_of;
using fl::test::Draw;
using fl::test::fuse_of;

namespace {

plan::MainsCharger charger_of(double ampere) {
    plan::MainsCharger c;
    c.output_current = Current::si(ampere);
    return c;
}

plan::Battery starter_battery() {
    plan::Battery b;
    b.role = plan::BatteryRole::starter;
    return b;
}

/// All placements of a drawing, found by designation.
struct Placed {
    Draw d;
    network::Network net;
    std::vector<Source> from;
    std::vector<Placement> all;

    /// Each conductor may carry what `carries` says for it, else 50 A.
    Placed(Draw drawing, const std::map<std::string, double>& carries = {}, double multiple = 1)
        : d(std::move(drawing))
        , net(network::build(d.in))
        , from(sources(d.in, net)) {
        std::vector<Current> may(net.branches.size());
        for (std::size_t i = 0; i < may.size(); ++i)
            if (const auto* w = d.in.conductors.find(net.branches[i].conductor)) {
                const auto found = carries.find(w->designation);
                may[i] = Current::si(found == carries.end() ? 50 : found->second);
            }
        all = placements(d.in, net, may, multiple);
    }

    const Placement& operator[](std::string_view wire) const {
        const auto* w = plan::find_conductor(d.in, wire);
        const auto found =
            std::find_if(all.begin(), all.end(), [&](const Placement& p) { return p.conductor == w->id; });
        return *found;
    }
    /// What a source alone does to a core; null when it does not reach it.
    const FromSource* by(std::string_view wire, std::string_view source) const {
        for (const auto& f : (*this)[wire].from)
            if (d.in.components.find(from[static_cast<std::size_t>(f.source)].component)->designation ==
                source)
                return &f;
        return nullptr;
    }
    std::vector<std::string> names(const std::vector<int>& branches) const {
        std::vector<std::string> out;
        for (const int i : branches) {
            const auto& b = net.branches[static_cast<std::size_t>(i)];
            out.push_back(b.conductor ? d.in.conductors.find(b.conductor)->designation
                                      : d.in.components.find(b.component)->designation);
        }
        return out;
    }
};

using Names = std::vector<std::string>;

bool unlimited(Current c) {
    return std::isinf(c.si());
}

/// A 40 A charger and a battery, 5 m apart, with a 50 A fuse 0.2 m from the one or the other.
Draw charger_line(bool fuse_at_charger) {
    Draw d;
    d.add("T1", charger_of(40));
    d.add("G1", plan::Battery{});
    d.add("F1", fuse_of(50));
    d.wire("W1", "T1.+", "F1.1", fuse_at_charger ? 0.2_m : 5_m);
    d.wire("W2", "F1.2", "G1.+", fuse_at_charger ? 5_m : 0.2_m);
    d.wire("W3", "G1.-", "T1.-", 5_m);
    return d;
}

// A charger gives 40 A x 1.1 = 44 A lastingly, below the 50 A that the line may carry. What matters is the
// battery: its end needs the fuse, wherever the potential is higher.
TEST(Placement, FuseAtTheChargerLeavesTheBatteryEndBare) {
    const Placed p(charger_line(true));
    EXPECT_FALSE(p["W2"].is_protected);
    EXPECT_TRUE(unlimited(p["W2"].greatest_b)) << "from the battery";
    EXPECT_DOUBLE_EQ(p["W2"].greatest_a.si(), 44) << "from the charger";
    ASSERT_TRUE(p.by("W2", "T1") && p.by("W2", "G1"));
    EXPECT_TRUE(p.by("W2", "T1")->is_protected);
    EXPECT_FALSE(p.by("W2", "G1")->is_protected);
    EXPECT_EQ(p["W2"].exposure, 5_m);
    EXPECT_EQ(p.by("W2", "G1")->supply, p.net.node_of(p.d.at("G1.+")));
    EXPECT_TRUE(p["W1"].is_protected) << "44 A from one end, the 50 A fuse before the other";
    EXPECT_EQ(p.names(p["W1"].devices), Names{"F1"});
    EXPECT_FALSE(p["W1"].exposed);
}

TEST(Placement, FuseAtTheBatteryCoversTheLine) {
    const Placed p(charger_line(false));
    EXPECT_TRUE(p["W1"].is_protected);
    EXPECT_DOUBLE_EQ(p["W1"].greatest_b.si(), 50);
    EXPECT_FALSE(p["W2"].is_protected);
    EXPECT_EQ(p["W2"].exposure, 0.2_m);
    EXPECT_TRUE(p["W3"].return_side);
    EXPECT_FALSE(Placed(charger_line(false), {{"W1", 49}})["W1"].is_protected) << "50 A fuse above 49 A";
    EXPECT_TRUE(Placed(charger_line(false), {{"W1", 34}}, 1.5)["W1"].is_protected) << "1.5 times is allowed";
}

TEST(Placement, BetweenTwoBatteriesBothEnds) {
    Draw d;
    d.add("G1", starter_battery());
    d.add("G2", plan::Battery{});
    d.add("F1", fuse_of(50));
    d.wire("W1", "G1.+", "F1.1", 0.2_m);
    d.wire("W2", "F1.2", "G2.+", 6_m);
    d.wire("W3", "G2.-", "G1.-", 6_m);
    {
        const Placed p(d);
        EXPECT_FALSE(p["W2"].is_protected);
        ASSERT_TRUE(p.by("W2", "G1") && p.by("W2", "G2"));
        EXPECT_TRUE(p.by("W2", "G1")->is_protected);
        EXPECT_EQ(p.names(p.by("W2", "G1")->devices), Names{"F1"});
        EXPECT_FALSE(p.by("W2", "G2")->is_protected);
        EXPECT_EQ(p["W2"].exposure, 6_m);
        EXPECT_FALSE(p["W2"].starting) << "no starter motor is drawn";
    }
    // A second fuse at the other end, and all but the two short leads is covered.
    d.add("F2", fuse_of(50));
    auto w2 = *plan::find_conductor(d.in, "W2");
    w2.to = d.at("F2.1");
    d.in.conductors = d.in.conductors.with(w2);
    d.wire("W4", "F2.2", "G2.+", 0.3_m);
    const Placed p(d);
    EXPECT_TRUE(p["W2"].is_protected);
    EXPECT_EQ(p.names(p["W2"].devices), (Names{"F1", "F2"}));
    EXPECT_EQ(p["W1"].exposure, 0.2_m);
    EXPECT_EQ(p["W4"].exposure, 0.3_m);
}

// Two 100 A fuses from one battery feed one wire that may carry 100 A: 200 A lasting.
TEST(Placement, RatingsAddUp) {
    Draw d;
    d.add("G1", plan::Battery{});
    d.add("F1", fuse_of(100));
    d.add("F2", fuse_of(100));
    d.add("X1", plan::Joint{});
    d.add("E1", plan::Load{});
    d.wire("W1", "G1.+", "F1.1", 0.1_m);
    d.wire("W2", "G1.+", "F2.1", 0.1_m);
    d.wire("W3", "F1.2", "X1.1", 1_m);
    d.wire("W4", "F2.2", "X1.1", 2_m);
    d.wire("W5", "X1.1", "E1.+", 3_m);
    d.wire("W6", "E1.-", "G1.-", 3_m);
    const Placed p(d, {{"W3", 100}, {"W4", 100}, {"W5", 100}});
    EXPECT_DOUBLE_EQ(p["W5"].greatest_a.si(), 200);
    EXPECT_FALSE(p["W5"].is_protected);
    EXPECT_TRUE(p["W5"].only_by_adding);
    EXPECT_EQ(p.names(p["W5"].devices), (Names{"F1", "F2"}));
    EXPECT_EQ(p["W5"].exposure, 3_m) << "from the joint, where the two meet";
    EXPECT_TRUE(p["W3"].is_protected) << "100 A into each end, never more";
    EXPECT_FALSE(p["W1"].only_by_adding);
    EXPECT_TRUE(Placed(d, {{"W3", 100}, {"W4", 100}, {"W5", 200}})["W5"].is_protected);
}

TEST(Placement, ParallelCoresBehindOneFuse) {
    Draw d;
    d.add("G1", plan::Battery{});
    d.add("F1", fuse_of(100));
    d.add("E1", plan::Load{});
    d.wire("W1", "G1.+", "F1.1", 0.1_m);
    d.wire("W2", "F1.2", "E1.+", 2_m);
    d.wire("W3", "F1.2", "E1.+", 2_m);
    d.wire("W4", "E1.-", "G1.-", 2_m);
    const Placed p(d);
    EXPECT_FALSE(p["W2"].is_protected) << "the other core can fail";
    EXPECT_DOUBLE_EQ(p["W2"].greatest_a.si(), 100);
    EXPECT_DOUBLE_EQ(p["W2"].greatest_b.si(), 100) << "back through the other core";
    EXPECT_FALSE(p["W2"].only_by_adding) << "one fuse that is too large";
    // Both unprotected, fed at F1: the farthest point of a ring of 4 m lies 2 m away, at the load.
    EXPECT_EQ(p["W2"].exposure, 2_m);
}

// d1 + d2 + L over 2: battery bar - 1 m - A - 4 m - B - 2 m - bar. The middle core's farthest point lies
// (1 + 2 + 4)/2 = 3.5 m along.
TEST(Placement, ExposureInARing) {
    Draw d;
    d.add("G1", plan::Battery{});
    d.add("A", plan::Joint{});
    d.add("B", plan::Joint{});
    d.wire("W1", "G1.+", "A.1", 1_m);
    d.wire("W2", "A.1", "B.1", 4_m);
    d.wire("W3", "B.1", "G1.+", 2_m);
    const Placed p(d);
    EXPECT_EQ(p["W2"].exposure, 3.5_m);
    EXPECT_EQ(p["W1"].exposure, 1_m);
    EXPECT_EQ(p["W3"].exposure, 2_m);
    EXPECT_EQ(p.names(p.by("W2", "G1")->path), Names{"W1"});
}

// As found: 0.4 m from the battery to a bare stud, then our 0.7 m to a 100 A fuse: 1.10 m in all.
TEST(Placement, UnprotectedLengthAddsUpToTheFuse) {
    Draw d;
    d.add("G1", starter_battery());
    d.add("X1", plan::Joint{});
    d.add("F1", fuse_of(100));
    d.add("E1", plan::Load{});
    d.wire("W1", "G1.+", "X1.1", 0.4_m);
    d.wire("W2", "X1.1", "F1.1", 0.7_m);
    d.wire("W3", "F1.2", "E1.+", 4_m);
    d.wire("W4", "E1.-", "G1.-", 4_m);
    const Placed p(d, {{"W3", 100}});
    EXPECT_NEAR(p["W2"].exposure->si(), 1.10, 1e-12);
    EXPECT_EQ(p["W1"].exposure, 0.4_m);
    EXPECT_EQ(p.names(p.by("W2", "G1")->path), Names{"W1"});
    EXPECT_EQ(p.by("W2", "G1")->supply, p.net.node_of(d.at("G1.+")));
    EXPECT_TRUE(p["W3"].is_protected);
    EXPECT_FALSE(p["W3"].exposure);
}

TEST(Placement, UnknownLengthIsNotKnown) {
    Draw d;
    d.add("G1", plan::Battery{});
    d.add("X1", plan::Joint{});
    d.add("F1", fuse_of(100));
    d.wire("W1", "G1.+", "X1.1");
    d.wire("W2", "X1.1", "F1.1", 0.7_m);
    const Placed p(d);
    EXPECT_TRUE(p["W2"].exposed);
    EXPECT_FALSE(p["W2"].exposure);
    EXPECT_EQ(p["W2"].exposure_at_least, 0.7_m);
    EXPECT_FALSE(p["W1"].exposure);
    EXPECT_EQ(p["W1"].exposure_at_least, 0_m);
}

// A thin core from a bar behind a 100 A fuse: its own 3 m count, from the bar, not the way to the battery.
TEST(Placement, AStepDownInSizeHasItsOwnLength) {
    Draw d;
    d.add("G1", plan::Battery{});
    d.add("F1", fuse_of(100));
    d.add("X1", plan::Busbar{});
    d.add("E1", plan::Load{});
    d.wire("W1", "G1.+", "F1.1", 0.3_m);
    d.wire("W2", "F1.2", "X1.1", 2_m);
    d.wire("W3", "X1.2", "E1.+", 3_m);
    d.wire("W4", "E1.-", "G1.-", 5_m);
    const Placed p(d, {{"W1", 120}, {"W2", 120}, {"W3", 20}});
    EXPECT_TRUE(p["W2"].is_protected);
    EXPECT_FALSE(p["W3"].is_protected);
    EXPECT_EQ(p["W3"].exposure, 3_m);
    EXPECT_EQ(p.by("W3", "G1")->supply, p.net.node_of(d.at("X1.1")));
    EXPECT_EQ(p.names(p.by("W3", "G1")->path), (Names{"W1", "F1", "W2"}));
    EXPECT_EQ(p.names(p["W3"].devices), Names{"F1"});
    // A device at the bar: the same 3 m, from the device.
    EXPECT_EQ(Placed(d, {{"W1", 120}, {"W2", 20}, {"W3", 20}})["W3"].exposure, 5_m)
        << "both thin, from the fuse";
}

// The alternator was moved to the house bank, its old wire to the starter's stud left where it was.
Draw forgotten_wire() {
    Draw d;
    d.add("G1", starter_battery());
    d.add("G2", plan::Battery{});
    plan::Alternator a;
    a.rated = 100_A;
    d.add("G3", a);
    d.add("M1", plan::StarterMotor{});
    d.add("F1", fuse_of(125));
    d.wire("new", "G3.B+", "F1.1", 3.8_m, 35);
    d.wire("tail", "F1.2", "G2.+", 0.2_m, 35);
    d.wire("old", "G3.B+", "M1.+", 1_m, 10);
    d.wire("main", "G1.+", "M1.+", 1_m, 50);
    d.wire("strap", "M1.-", "G1.-", 0.5_m, 50);
    d.wire("minus2", "G2.-", "G1.-", 4_m, 35);
    d.wire("minus3", "G3.B-", "M1.-", 0.3_m, 35);
    return d;
}

TEST(Placement, ForgottenWireIsFedFromBothBanks) {
    const Placed p(forgotten_wire(), {{"old", 60}, {"new", 158}, {"main", 198}, {"tail", 158}});
    EXPECT_FALSE(p["old"].is_protected);
    EXPECT_TRUE(unlimited(p["old"].greatest_b)) << "from the starter battery, bare";
    EXPECT_DOUBLE_EQ(p["old"].greatest_a.si(), 225)
        << "125 A fuse of the house bank and the alternator's 100 A";
    ASSERT_TRUE(p.by("old", "G1") && p.by("old", "G2") && p.by("old", "G3"));
    EXPECT_EQ(p.names(p.by("old", "G1")->path), Names{"main"});
    EXPECT_EQ(p.names(p.by("old", "G2")->path), (Names{"tail", "F1", "new"}));
    EXPECT_EQ(p.by("old", "G2")->greatest, 125_A);
    EXPECT_EQ(p.by("old", "G1")->exposure, 2_m) << "main and old, from the starter battery";
    EXPECT_EQ(p["old"].exposure, 1_m) << "from the nearest supply, the alternator's terminal at its own end";
    EXPECT_TRUE(p["main"].starting);
    EXPECT_FALSE(p["old"].starting) << "no part of the way from the starter battery to the motor";
    EXPECT_TRUE(p["strap"].starting);
    EXPECT_FALSE(p["minus2"].starting);
    EXPECT_TRUE(p.by("new", "G3")->is_protected) << "the alternator limits itself to 100 A";
    EXPECT_FALSE(p["new"].is_protected) << "but the starter battery feeds it over main and old";
    EXPECT_NEAR(p["new"].exposure->si(), 5.8, 1e-12);
}

TEST(Placement, TheAlternatorsOwnLeadAsFoundIsOfTheStartingCircuit) {
    Draw d;
    d.add("G1", starter_battery());
    d.add("G3", plan::Alternator{});
    d.add("M1", plan::StarterMotor{});
    d.wire("main", "G1.+", "M1.+");
    d.wire("lead", "G3.B+", "M1.+");
    d.wire("strap", "M1.-", "G1.-");
    EXPECT_FALSE(Placed(d)["lead"].starting);
    auto lead = *plan::find_conductor(d.in, "lead");
    lead.origin = plan::Origin::as_found;
    d.in.conductors = d.in.conductors.with(lead);
    EXPECT_TRUE(Placed(d)["lead"].starting);
}

TEST(Placement, AnEmergencyLinkCountsAsClosedAndEmptyWaysAsOpen) {
    Draw d;
    d.add("G1", starter_battery());
    d.add("G2", plan::Battery{});
    plan::Switch link;
    link.role = plan::SwitchRole::emergency_link;
    link.closed = false;
    d.add("S1", link);
    d.add("F1", box_of({0}));
    d.add("E1", plan::Load{});
    d.wire("W1", "G1.+", "S1.1", 1_m);
    d.wire("W2", "S1.2", "G2.+", 1.2_m);
    d.wire("W3", "G2.+", "F1.in", 0.5_m);
    d.wire("W4", "F1.1", "E1.+", 1_m);
    d.wire("W5", "E1.-", "G2.-", 1_m);
    d.wire("W6", "G2.-", "G1.-", 2_m);
    const Placed p(d);
    ASSERT_TRUE(p.by("W2", "G1"));
    EXPECT_NEAR(p.by("W2", "G1")->exposure->si(), 2.2, 1e-12) << "through the switch";
    EXPECT_EQ(p.names(p.by("W2", "G1")->path), (Names{"W1", "S1"}));
    EXPECT_FALSE(p["W4"].reachable) << "no link in the way";
    EXPECT_TRUE(p["W4"].is_protected);
    EXPECT_TRUE(p["W4"].from.empty());
}

// 12 V from the middle of a 24 V bank of two batteries drawn one by one.
TEST(Placement, ATapIsFedByItsBlock) {
    Draw d;
    d.add("G1", plan::Battery{});
    d.add("G2", plan::Battery{});
    d.add("F1", fuse_of(20));
    d.add("E1", plan::Load{});
    d.add("E2", plan::Load{});
    d.wire("W1", "G1.+", "G2.-", 0.3_m);
    d.wire("W2", "G1.+", "F1.1", 0.4_m);
    d.wire("W3", "F1.2", "E1.+", 2_m);
    d.wire("W4", "E1.-", "G1.-", 2_m);
    d.wire("W5", "G2.+", "E2.+", 3_m);
    d.wire("W6", "E2.-", "G1.-", 3_m);
    const Placed p(d);
    EXPECT_TRUE(p["W3"].is_protected);
    EXPECT_FALSE(p["W2"].is_protected);
    EXPECT_FALSE(p["W1"].return_side) << "the middle is live";
    ASSERT_TRUE(p.by("W5", "G1") && p.by("W5", "G2")) << "the lower block reaches the top through the upper";
    EXPECT_EQ(p.by("W5", "G1")->exposure, 3_m);
}

TEST(Placement, HingesOnARatingNotEntered) {
    Draw d = charger_line(false);
    auto f1 = *plan::find(d.in, "F1");
    f1.with = plan::Fuse{};
    d.in.components = d.in.components.with(f1);
    const Placed p(d);
    EXPECT_FALSE(p["W1"].is_protected);
    EXPECT_TRUE(p["W1"].hinges_on_unknown);
    EXPECT_FALSE(p["W2"].hinges_on_unknown) << "bare at the battery whatever the fuse is";
    Draw e = charger_line(false);
    auto t1 = *plan::find(e.in, "T1");
    t1.with = plan::MainsCharger{};
    e.in.components = e.in.components.with(t1);
    EXPECT_TRUE(Placed(e)["W1"].hinges_on_unknown) << "the charger's output is not entered";
    EXPECT_TRUE(sources(e.in, network::build(e.in)).front().not_known);
}

TEST(Sources, LimitsAndSignals) {
    Draw d;
    plan::DriveCharger drive;
    drive.output_current = 30_A;
    plan::Converter plain;
    plain.output_current = 20_A;
    plan::TakeOffPoint fused;
    fused.fuse = 60_A;
    plan::SignalPoint ignition;
    ignition.fuse = 10_A;
    plan::Alternator alternator;
    alternator.rated = 150_A;
    d.add("T1", drive);
    d.add("T2", plain);
    d.add("G1", fused);
    d.add("G2", plan::TakeOffPoint{});
    d.add("G3", alternator);
    d.add("G4", plan::Battery{});
    d.add("B1", ignition);
    d.add("E1", plan::Load{});
    const auto net = network::build(d.in);
    std::map<std::string, std::vector<std::optional<Current>>> limit;
    for (const auto& s : sources(d.in, net)) {
        limit[d.in.components.find(s.component)->designation].push_back(s.limit);
        EXPECT_FALSE(s.not_known);
    }
    EXPECT_EQ(limit.size(), 7u) << "a load is none";
    EXPECT_NEAR(limit["T1"].at(0)->si(), 33, 1e-9) << "a charger gives 1.1 times its rating";
    EXPECT_NEAR(limit["T2"].at(0)->si(), 24, 1e-9) << "a converter 1.2 times";
    EXPECT_EQ(limit["G1"].at(0), 60_A);
    EXPECT_FALSE(limit["G2"].at(0));
    EXPECT_EQ(limit["G3"].at(0), 150_A);
    EXPECT_EQ(limit["G3"].size(), 2u) << "B+ and D+";
    EXPECT_FALSE(limit["G4"].at(0));
    EXPECT_EQ(limit["B1"].at(0), 10_A);
}

TEST(Placement, ASignalConductorNeedsItsFuseToo) {
    Draw d;
    d.add("B1", plan::SignalPoint{});
    d.add("T1", plan::DriveCharger{});
    d.add("F1", fuse_of(3));
    d.wire("W1", "B1.1", "F1.1", 0.1_m);
    d.wire("W2", "F1.2", "T1.run", 4_m);
    const Placed p(d, {{"W1", 10}, {"W2", 10}});
    EXPECT_FALSE(p["W1"].is_protected);
    EXPECT_EQ(p["W1"].exposure, 0.1_m);
    EXPECT_TRUE(p["W2"].is_protected);
}

/// A radio whose minus goes to the battery's post, while its case meets the body that the engine meets: a
/// second way of return for the starter.
Draw second_return(double fuse) {
    Draw d;
    d.add("G1", starter_battery());
    d.add("M1", plan::StarterMotor{});
    d.add("F1", fuse_of(25));
    d.add("E1", plan::Load{});
    d.add("P1", plan::EarthPoint{});
    d.add("P2", plan::EarthPoint{});
    d.wire("main", "G1.+", "M1.+", 1_m);
    d.wire("strap", "M1.-", "G1.-", 0.5_m);
    d.wire("engine", "M1.-", "P1.1", 0.5_m);
    d.wire("case", "E1.-", "P2.1", 1_m);
    d.wire("W1", "G1.+", "F1.1", 0.1_m);
    d.wire("W2", "F1.2", "E1.+", 4_m);
    if (fuse > 0) {
        d.add("F2", fuse_of(fuse));
        d.wire("minus", "E1.-", "F2.1", 4_m);
        d.wire("tail", "F2.2", "G1.-", 0.1_m);
    } else {
        d.wire("minus", "E1.-", "G1.-", 4_m);
    }
    return d;
}

TEST(Placement, ASecondReturnCarriesTheStarterWhenTheStrapIsOpen) {
    const Placed bare(second_return(0), {{"minus", 35}});
    EXPECT_TRUE(bare["minus"].return_side);
    EXPECT_TRUE(unlimited(bare["minus"].greatest_a));
    EXPECT_FALSE(bare["minus"].is_protected);
    const Placed fused(second_return(25), {{"minus", 35}});
    EXPECT_DOUBLE_EQ(fused["minus"].greatest_a.si(), 25);
    EXPECT_TRUE(fused["minus"].is_protected);
    EXPECT_EQ(fused.names(fused["minus"].devices), Names{"F2"});
    EXPECT_TRUE(bare["strap"].starting);
    EXPECT_FALSE(bare["minus"].starting) << "leads there too, but is no part of it";
    EXPECT_FALSE(fused["W1"].is_protected) << "a fuse in the return is none for the plus";
}

TEST(Placement, AReturnIsJudgedByTheLargestDeviceThatComesBackThroughIt) {
    Draw d;
    d.add("G1", plan::Battery{});
    d.add("F1", fuse_of(100));
    d.add("F2", box_of({15, 25}));
    d.add("E1", plan::Load{});
    d.add("E2", plan::Load{});
    d.wire("W1", "G1.+", "F1.1", 0.1_m);
    d.wire("W2", "F1.2", "F2.in", 3_m);
    d.wire("W3", "F2.1", "E1.+", 2_m);
    d.wire("W4", "F2.2", "E2.+", 2_m);
    d.wire("R3", "E1.-", "F2.-", 2_m);
    d.wire("R4", "E2.-", "F2.-", 2_m);
    d.wire("R2", "F2.-", "G1.-", 3_m);
    const Placed p(d, {{"R3", 20}, {"R4", 20}, {"R2", 90}});
    EXPECT_DOUBLE_EQ(p["R3"].greatest_a.si(), 15);
    EXPECT_TRUE(p["R3"].is_protected);
    EXPECT_DOUBLE_EQ(p["R4"].greatest_a.si(), 25);
    EXPECT_FALSE(p["R4"].is_protected) << "20 A cannot bring back 25 A";
    EXPECT_DOUBLE_EQ(p["R2"].greatest_a.si(), 100) << "a fault in the box, behind the main fuse";
    EXPECT_FALSE(p["R2"].is_protected);
    EXPECT_FALSE(p["R2"].exposed) << "a return has no unprotected length";
}

TEST(Placement, AReturnBringsBackNoMoreThanItsSourceGives) {
    // A charger with a 50 A fuse on its way to the battery, and a starter that only the battery feeds: no
    // fault there comes back through the charger's minus. By hand: 40 A times the charger's margin one way,
    // the fuse's 50 A the other.
    Draw d = charger_line(true);
    d.add("M1", plan::StarterMotor{});
    d.wire("main", "G1.+", "M1.+", 1_m);
    d.wire("strap", "M1.-", "G1.-", 1_m);
    const Placed p(d);
    EXPECT_TRUE(p["W3"].return_side);
    EXPECT_LE(p["W3"].greatest_a.si(), 50);
    EXPECT_LE(p["W3"].greatest_b.si(), 50);
    EXPECT_TRUE(p["W3"].is_protected);
}

TEST(Placement, NothingDrawnNothingPlaced) {
    EXPECT_TRUE(placements({}, network::build({}), {}, 1).empty());
    Draw d;
    d.add("X1", plan::Joint{});
    d.add("X2", plan::Joint{});
    d.wire("W1", "X1.1", "X2.1");
    const Placed p(d);
    EXPECT_FALSE(p["W1"].reachable);
    EXPECT_TRUE(p["W1"].is_protected);
    EXPECT_FALSE(p["W1"].exposed);
}

} // namespace
