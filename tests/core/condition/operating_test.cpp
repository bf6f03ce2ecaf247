#include "tests/core/condition/draft.h"

// Expected values: by hand, with E. m. f. behind a resistance and constant power behind it,
// V = (E + sqrt(E² - 4 R P)) / 2, iterated where loads share a feeder; class 5 copper at 20 °C: 2.5 mm² 7.98,
// 16 mm² 1.21, 25 mm² 0.780, 35 mm² 0.554 mΩ/m.
namespace fl::condition {
namespace {

using plan::Chemistry;

/// A bus held at a voltage; 5.5 m and 0.4 m of 16 mm², body 1.5 mΩ, joints 0.6 mΩ, fuse 0.5 mΩ to a charger
/// whose service battery stands just below 14.2 V.
Draft charger_input(double output_A) {
    Draft d = Draft::plain();
    plan::Alternator a;
    a.regulation = plan::Regulation::computer_controlled;
    a.rated = Current::si(150);
    d.part("G1", a);
    plan::SignalPoint key;
    key.supplied = plan::Supplied::with_key;
    d.part("S1", key);
    d.part("F1", with_mohm<plan::Fuse>(0.5));
    plan::DriveCharger c;
    c.output_current = Current::si(output_A);
    c.set_voltage = Voltage::si(14.2);
    c.efficiency = Ratio::si(0.9);
    c.stop_voltage = Voltage::si(11.0);
    d.part("T1", c);
    d.part("E1", plan::EarthPoint{Resistance::si(0), Resistance::si(0)});
    d.part("E2", plan::EarthPoint{Resistance::si(0), Resistance::si(1.5e-3)});
    // At 14.19 V with its charging current, so that the charger is at its limit and not yet regulating.
    d.part("G2", battery(Chemistry::lifepo4, (14.19 - 13.2) / output_A * 1e3));
    d.wire("G1.B+", "F1.1", 0.4, 16, 0.6);
    d.wire("F1.2", "T1.in+", 5.5, 16);
    d.wire("G1.B-", "E1.1");
    d.wire("T1.-", "E2.1");
    d.wire("T1.out+", "G2.+");
    d.wire("T1.-", "G2.-");
    d.signal("S1.1", "T1.run");
    return d;
}

plan::Condition held_at(double volts) {
    plan::Condition c;
    c.engine = plan::Engine::running;
    c.alternator = plan::AlternatorState::held;
    c.held = Voltage::si(volts);
    c.state_of_charge = charge_at(Chemistry::lifepo4, 13.2);
    return c;
}

struct InputCase {
    double output_A, bus_V, input_A, at_charger_V;
};

TEST(Operating, drive_charger_takes_more_than_its_output) {
    const InputCase cases[] = {
        {30, 12.0, 40.8, 11.60}, {30, 12.2, 40.1, 11.81}, {30, 14.4, 33.6, 14.07},
        {60, 12.0, 84.7, 11.17}, {60, 12.2, 83.1, 11.39}, {60, 14.4, 69.0, 13.73},
    };
    for (const auto& c : cases) {
        const Draft d = charger_input(c.output_A);
        const Answer a(d.in, held_at(c.bus_V));
        EXPECT_EQ(a.runs(), Runs::yes);
        EXPECT_NEAR(a.input_amperes(), c.input_A, 0.02 * c.input_A)
            << c.output_A << " A, " << c.bus_V << " V";
        EXPECT_NEAR(a.input_volts(), c.at_charger_V, 0.02);
        EXPECT_NEAR(a.solved.solution.converter_out_A[0], c.output_A, 0.01 * c.output_A);
    }
}

/// A flat starter bank (11.2 V, 12 mΩ) and a service bank (12.6 V, 1.8 mΩ) joined by a link of 1.45 mΩ;
/// starting circuit 21 mΩ.
Draft emergency_link() {
    Draft d = Draft::plain();
    // Of a chemistry whose table goes down to 11.2 V, so that the charging law adds nothing.
    d.part("G1", battery(Chemistry::lifepo4, 12, plan::BatteryRole::starter));
    d.part("G2", battery(Chemistry::lead_flooded, 1.8));
    plan::Switch link = with_mohm<plan::Switch>(1.45);
    link.role = plan::SwitchRole::emergency_link;
    d.part("S1", link);
    plan::StarterMotor m;
    m.running = Resistance::si(21e-3);
    d.part("M1", m);
    d.wire("G1.+", "S1.1");
    d.wire("S1.2", "G2.+");
    d.wire("G1.+", "M1.+");
    d.wire("G1.-", "M1.-");
    d.wire("G1.-", "G2.-");
    return d;
}

plan::Condition linked(const Draft& d, bool link, bool crank) {
    plan::Condition c;
    c.duration = Time::si(5);
    c.loads = plan::LoadsOn::none;
    c.batteries = {{d.at("G1.+").component, charge_at(Chemistry::lifepo4, 11.2)},
                   {d.at("G2.+").component, charge_at(Chemistry::lead_flooded, 12.6)}};
    c.forced = {{d.at("S1.1").component, link}, {d.at("M1.+").component, crank}};
    return c;
}

TEST(Operating, emergency_link_carries_most_of_the_starting_current) {
    const Draft d = emergency_link();
    const Answer resting(d.in, linked(d, true, false));
    EXPECT_NEAR(resting.amperes("G2"), 92, 0.03 * 92); // 1.4 V / 15.25 mΩ
    EXPECT_NEAR(resting.amperes("G1"), -92, 0.03 * 92);

    // (11.2/12 + 12.6/3.25) / (1/12 + 1/3.25 + 1/21) V
    const Answer cranking(d.in, linked(d, true, true));
    EXPECT_NEAR(cranking.volts("M1"), 10.97, 0.02);
    EXPECT_NEAR(cranking.amperes("M1"), 522, 0.01 * 522);
    EXPECT_NEAR(cranking.amperes("G2"), 503, 0.01 * 503);
    EXPECT_NEAR(cranking.amperes("G1"), 19, 1);

    const Answer alone(d.in, linked(d, false, true)); // 11.2 V × 21/33
    EXPECT_NEAR(alone.volts("M1"), 7.13, 0.02);
    EXPECT_NEAR(alone.amperes("M1"), 339, 0.01 * 339);
}

/// A bank of 12.5 V, 1.5 mΩ; 15 m each way to a board; joints 0.4, fuse 1.6, switch 0.2 mΩ; fridge 60 W and
/// lamp 2.618 Ω on 2 m of 2.5 mm² each way; pump 6 A and 20 W at the board.
Draft bow_board(double feeder_mm2) {
    Draft d = Draft::plain();
    d.part("G1", battery(Chemistry::lead_flooded, 1.5));
    d.part("F1", with_mohm<plan::Fuse>(1.6));
    d.part("S1", with_mohm<plan::Switch>(0.2));
    d.part("X1", plan::Busbar{plan::Polarity::plus, 5, {}});
    d.part("X2", plan::Busbar{plan::Polarity::minus, 5, {}});
    d.part("E1", watts(60));
    d.part("E2", ohms(2.618));
    d.part("E3", amperes(6));
    d.part("E4", watts(20));
    d.wire("G1.+", "F1.1", 0, 0, 0.4);
    d.wire("F1.2", "S1.1");
    d.wire("S1.2", "X1.1", 15, feeder_mm2);
    d.wire("X2.1", "G1.-", 15, feeder_mm2);
    for (const auto* e : {"E1", "E2"}) {
        const std::string stud = e == std::string("E1") ? "2" : "3";
        d.wire("X1." + stud, e + std::string(".+"), 2, 2.5);
        d.wire(e + std::string(".-"), "X2." + stud, 2, 2.5);
    }
    for (const auto* e : {"E3", "E4"}) {
        const std::string stud = e == std::string("E3") ? "4" : "5";
        d.wire("X1." + stud, e + std::string(".+"));
        d.wire(e + std::string(".-"), "X2." + stud);
    }
    return d;
}

struct BoardCase {
    double feeder_mm2, board_V, fridge_V, fridge_drop_V;
};

TEST(Operating, board_at_the_end_of_a_long_feeder) {
    for (const auto& c :
         {BoardCase{16, 11.81, 11.64, 0.831}, {25, 12.03, 11.87, 0.603}, {35, 12.15, 11.99, 0.484}}) {
        const Draft d = bow_board(c.feeder_mm2);
        plan::Condition all;
        all.state_of_charge = charge_at(Chemistry::lead_flooded, 12.5);
        const Answer a(d.in, all);
        EXPECT_NEAR(a.volts("E4"), c.board_V, 0.02);
        EXPECT_NEAR(a.volts("E1"), c.fridge_V, 0.02);
        const auto worst = envelope(a.network, {a.solved});
        const auto& drop = worst.port_drop[static_cast<std::size_t>(a.port("E1"))];
        ASSERT_TRUE(drop);
        EXPECT_NEAR(drop.value.si(), c.fridge_drop_V, 0.005);
    }
    const Draft d = bow_board(16);
    plan::Condition fridge;
    fridge.state_of_charge = charge_at(Chemistry::lead_flooded, 12.5);
    fridge.loads = plan::LoadsOn::listed;
    fridge.listed = {d.at("E1.+").component};
    EXPECT_NEAR(Answer(d.in, fridge).volts("E1"), 12.14, 0.02);
}

/// A lithium pack of 13.1 V, 8 mΩ; leads 2 × 0.5 m and inverter leads 2 × 1.0 m of 35 mm²; fuse 0.35, switch
/// 0.2, joints 0.8 and 0.4, shunt 0.1 mΩ; other loads 18 A.
Draft inverter_bank(double watts_used, double efficiency) {
    Draft d = Draft::plain();
    d.part("G1", battery(Chemistry::lifepo4, 8));
    d.part("F1", with_mohm<plan::Fuse>(0.35));
    d.part("S1", with_mohm<plan::Switch>(0.2));
    d.part("P1", with_mohm<plan::Shunt>(0.1));
    d.part("X1", plan::Busbar{plan::Polarity::plus, 4, {}});
    plan::Inverter i;
    i.rated_power = Power::si(watts_used);
    i.surge_power = Power::si(2000);
    i.efficiency = Ratio::si(efficiency);
    i.idle_power = Power::si(0);
    i.stop_voltage = Voltage::si(10.5);
    d.part("U1", i);
    d.part("E1", amperes(18));
    d.wire("G1.+", "F1.1", 0, 0, 0.8);
    d.wire("F1.2", "S1.1");
    d.wire("S1.2", "X1.1", 0.5, 35);
    d.wire("G1.-", "P1.battery", 0.5, 35);
    d.wire("X1.2", "U1.+", 1, 35, 0.4);
    d.wire("U1.-", "P1.load", 1, 35);
    d.wire("X1.3", "E1.+");
    d.wire("E1.-", "P1.load");
    return d;
}

plan::Condition pack_at_13_1() {
    plan::Condition c;
    c.state_of_charge = charge_at(Chemistry::lifepo4, 13.1);
    return c;
}

TEST(Operating, inverter_on_a_lithium_pack) {
    const Draft full = inverter_bank(1000, 0.88);
    const Answer running(full.in, pack_at_13_1());
    EXPECT_NEAR(running.amperes("G1"), 114.2, 0.02 * 114);
    EXPECT_NEAR(running.volts("U1"), 11.81, 0.02);

    const Draft less = inverter_bank(800, 0.88);
    EXPECT_NEAR(Answer(less.in, pack_at_13_1()).amperes("G1"), 93.4, 0.02 * 93);

    const Draft start = inverter_bank(1000, 0.85);
    plan::Condition surge = pack_at_13_1();
    surge.duration = Time::si(3);
    const Answer surging(start.in, surge);
    EXPECT_NEAR(surging.amperes("G1"), 246.7, 0.02 * 247);
    EXPECT_NEAR(surging.volts("U1"), 10.29, 0.05);
    // Below its stop voltage: said so, with the voltage reached.
    const auto& said = surging.solved.solution.verdicts;
    ASSERT_FALSE(said.empty());
    EXPECT_EQ(said.front().code, solve::VerdictCode::starved);
}

} // namespace
} // namespace fl::condition
