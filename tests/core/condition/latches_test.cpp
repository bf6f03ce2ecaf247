#include "tests/core/condition/draft.h"

namespace fl::condition {
namespace {

using plan::AlternatorState;
using plan::Chemistry;

/// Alternator, starter battery, a lead of so many mΩ to a 50 A charger, service battery.
Draft charged_while_driving(plan::Regulation regulation, double lead_mohm) {
    Draft d = Draft::plain();
    plan::Alternator a;
    a.regulation = regulation;
    a.rated = Current::si(150);
    d.part("G1", a);
    d.part("G2", battery(Chemistry::lead_flooded, 4.3, plan::BatteryRole::starter));
    plan::DriveCharger c;
    c.output_current = Current::si(50);
    c.set_voltage = Voltage::si(14.2);
    c.efficiency = Ratio::si(0.9);
    d.part("T1", c);
    d.part("G3", battery(Chemistry::lifepo4, 8));
    d.wire("G1.B+", "G2.+");
    d.wire("G1.B-", "G2.-");
    d.wire("G2.+", "T1.in+", 0, 0, lead_mohm);
    d.wire("T1.-", "G2.-");
    d.wire("T1.out+", "G3.+");
    d.wire("T1.-", "G3.-");
    return d;
}

plan::Condition driving(AlternatorState state) {
    plan::Condition c;
    c.engine = plan::Engine::running;
    c.alternator = state;
    c.state_of_charge = Ratio::si(0.5);
    return c;
}

plan::DriveCharger& charger(plan::Component& c) {
    return std::get<plan::DriveCharger>(c.with);
}

template <class Change>
void change(Draft& d, std::string_view designation, Change how) {
    plan::Component c = *plan::find(d.in, designation);
    how(c);
    d.in.components = d.in.components.with(c);
}

TEST(Latches, charger_by_voltage_starts_with_a_conventional_alternator_only) {
    const Draft conventional = charged_while_driving(plan::Regulation::conventional, 1);
    EXPECT_EQ(Answer(conventional.in, driving(AlternatorState::normal)).runs(), Runs::yes); // 14.2 V ≥ 13.3 V
    const Draft controlled = charged_while_driving(plan::Regulation::computer_controlled, 1);
    EXPECT_EQ(Answer(controlled.in, driving(AlternatorState::lean)).runs(), Runs::no); // 12.3 V < 13.3 V
    plan::Condition parked;
    EXPECT_EQ(Answer(controlled.in, parked).runs(), Runs::no);
}

TEST(Latches, charger_hunts_where_its_lead_drops_more_than_its_hysteresis) {
    // Starts at 13.3 V, stops below 13.0 V; with 50 A × 14.2 V / 0.9 = 56 A at 14 V a lead of 20 mΩ drops 1.1
    // V from 13.9 V: below 13.0 V as soon as it runs, above 13.3 V as soon as it does not.
    Draft d = charged_while_driving(plan::Regulation::conventional, 20);
    change(d, "G1",
           [](plan::Component& c) { std::get<plan::Alternator>(c.with).set_voltage = Voltage::si(13.9); });
    change(d, "T1", [](plan::Component& c) {
        charger(c).start_voltage = Voltage::si(13.3);
        charger(c).stop_voltage = Voltage::si(13.0);
    });
    const Answer a(d.in, driving(AlternatorState::normal));
    EXPECT_EQ(a.runs(), Runs::hunts);
    ASSERT_EQ(a.solved.also.size(), 1u);
    // The worst of all takes the position with the charger on: its output is there.
    const auto worst = envelope(a.network, {a.solved});
    ASSERT_TRUE(worst.converter_output[0]);
    EXPECT_NEAR(worst.converter_output[0].value.si(), 50, 0.5);
}

TEST(Latches, between_two_thresholds_both_states_are_steady) {
    // 13.0 V lies between stop (12.7 V) and start (13.3 V): off stays off, on stays on.
    Draft d = charged_while_driving(plan::Regulation::conventional, 0.1);
    change(d, "G1",
           [](plan::Component& c) { std::get<plan::Alternator>(c.with).set_voltage = Voltage::si(13.0); });
    const Answer a(d.in, driving(AlternatorState::normal));
    EXPECT_EQ(a.runs(), Runs::both);
    EXPECT_NEAR(a.input_amperes(), 0.005, 1e-6); // the cold one is shown: standby only
    ASSERT_EQ(a.solved.also.size(), 1u);
    EXPECT_GT(a.solved.also.front().solution.converter_in_A[0], 50);
}

TEST(Latches, run_signal_decides_what_voltage_can_not) {
    const auto with_signal = [](plan::Supplied supplied) {
        Draft d = charged_while_driving(plan::Regulation::computer_controlled, 1);
        plan::SignalPoint s;
        s.supplied = supplied;
        d.part("S1", s);
        d.signal("S1.1", "T1.run");
        return d;
    };
    const Draft engine = with_signal(plan::Supplied::engine_running);
    EXPECT_EQ(Answer(engine.in, driving(AlternatorState::lean)).runs(), Runs::yes);
    EXPECT_EQ(Answer(engine.in, plan::Condition{}).runs(), Runs::no);
    const Draft always = with_signal(plan::Supplied::live_always);
    EXPECT_EQ(Answer(always.in, plan::Condition{}).runs(), Runs::yes); // empties the starter battery

    // From D+; and from the starter battery itself, which is always live.
    Draft d_plus = charged_while_driving(plan::Regulation::computer_controlled, 1);
    d_plus.signal("G1.D+", "T1.run");
    EXPECT_EQ(Answer(d_plus.in, driving(AlternatorState::lean)).runs(), Runs::yes);
    EXPECT_EQ(Answer(d_plus.in, plan::Condition{}).runs(), Runs::no);
    Draft battery_fed = charged_while_driving(plan::Regulation::computer_controlled, 1);
    battery_fed.signal("G2.+", "T1.run");
    EXPECT_EQ(Answer(battery_fed.in, plan::Condition{}).runs(), Runs::yes);

    // What the conductor says outweighs where it comes from.
    Draft keyed = charged_while_driving(plan::Regulation::computer_controlled, 1);
    keyed.signal("G2.+", "T1.run", plan::Supplied::with_key);
    EXPECT_EQ(Answer(keyed.in, plan::Condition{}).runs(), Runs::no);
}

TEST(Latches, run_input_wired_to_nothing_never_runs) {
    Draft d = charged_while_driving(plan::Regulation::conventional, 1);
    change(d, "T1", [](plan::Component& c) { charger(c).needs_run_signal = true; });
    EXPECT_EQ(Answer(d.in, driving(AlternatorState::normal)).runs(), Runs::no);
}

TEST(Latches, charger_stays_off_above_its_highest_input) {
    Draft d = charged_while_driving(plan::Regulation::conventional, 1);
    change(d, "T1", [](plan::Component& c) { charger(c).highest_input = Voltage::si(14.0); });
    EXPECT_EQ(Answer(d.in, driving(AlternatorState::normal)).runs(), Runs::no); // 14.2 V
}

TEST(Latches, forced_charger_goes_where_it_is_forced) {
    const Draft d = charged_while_driving(plan::Regulation::conventional, 1);
    plan::Condition c = driving(AlternatorState::normal);
    c.forced = {{d.at("T1.in+").component, false}};
    EXPECT_EQ(Answer(d.in, c).runs(), Runs::no);
    c = driving(AlternatorState::lean);
    c.forced = {{d.at("T1.in+").component, true}};
    EXPECT_EQ(Answer(d.in, c).runs(), Runs::yes);
}

/// Starter and service battery joined by a relay.
Draft coupled(plan::RelayControl control) {
    Draft d = Draft::plain();
    plan::Alternator a;
    a.set_voltage = Voltage::si(14.2);
    a.rated = Current::si(100);
    d.part("G1", a);
    d.part("G2", battery(Chemistry::lead_flooded, 5, plan::BatteryRole::starter));
    d.part("G3", battery(Chemistry::lead_flooded, 5));
    plan::Relay r = with_mohm<plan::Relay>(0.4);
    r.control = control;
    d.part("K1", r);
    d.wire("G1.B+", "G2.+");
    d.wire("G1.B-", "G2.-");
    d.wire("G2.+", "K1.30");
    d.wire("K1.87", "G3.+");
    d.wire("G3.-", "G2.-");
    return d;
}

TEST(Latches, voltage_sensing_relay_joins_batteries_while_charging) {
    Draft d = coupled(plan::RelayControl::voltage_sensing);
    d.wire("K1.31", "G2.-");
    EXPECT_LT(Answer(d.in, driving(AlternatorState::normal)).amperes("G3"), -1); // charged
    plan::Condition parked;
    parked.state_of_charge = Ratio::si(0.5);
    EXPECT_NEAR(Answer(d.in, parked).amperes("G3"), 0, 1e-9); // 12.66 V < 13.3 V
}

TEST(Latches, coil_relay_follows_the_signal_that_feeds_its_coil) {
    Draft d = coupled(plan::RelayControl::coil);
    d.signal("G1.D+", "K1.86");
    d.wire("K1.85", "G2.-");
    EXPECT_LT(Answer(d.in, driving(AlternatorState::normal)).amperes("G3"), -1);
    EXPECT_NEAR(Answer(d.in, plan::Condition{}).amperes("G3"), 0, 1e-9);

    // Through a switch from the battery: a real coil current, 12 V / (12 V / 0.15 A) by default.
    Draft switched = coupled(plan::RelayControl::coil);
    plan::Switch s;
    switched.part("S1", s);
    switched.wire("G2.+", "S1.1");
    switched.wire("S1.2", "K1.86");
    switched.wire("K1.85", "G2.-");
    plan::Condition c = driving(AlternatorState::normal);
    const Answer on(switched.in, c);
    EXPECT_LT(on.amperes("G3"), -1);
    EXPECT_NEAR(on.amperes("K1"), 0.15 * on.volts("G2") / 12, 1e-6);
    c.forced = {{switched.at("S1.1").component, false}};
    EXPECT_NEAR(Answer(switched.in, c).amperes("G3"), 0, 1e-9);
}

} // namespace
} // namespace fl::condition
