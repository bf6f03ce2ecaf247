#include "core/condition/saying.h"
#include "core/wording/wording.h"
#include "tests/core/condition/draft.h"

#include <algorithm>

// What lets go by itself. Expected numbers by hand.
namespace fl::condition {
namespace {

using plan::Chemistry;

/// A lithium pack of 8 mΩ with electronics for 100 A (150 A for 5 s), resting at 13.1 V, and one load.
Draft pack_with(const plan::Parameters& load) {
    Draft d = Draft::plain();
    plan::Battery b = battery(Chemistry::lifepo4, 8);
    b.electronics = true;
    b.discharge_limit = Current::si(100);
    b.pulse_limit = Current::si(150);
    b.pulse_time = Time::si(5);
    d.part("G1", b);
    d.part("E1", load);
    d.wire("G1.+", "E1.+");
    d.wire("G1.-", "E1.-");
    return d;
}

plan::Condition parked(double rest_V = 13.1) {
    plan::Condition c;
    c.state_of_charge = charge_at(Chemistry::lifepo4, rest_V);
    return c;
}

std::vector<Saying> said(const Draft& d, const Answer& a) {
    const auto drawn = draw(d.in, a.network);
    auto all = sayings(*drawn, a.solved);
    for (const Saying& s : all) {
        const std::string text = wording::sentence(s, d.in);
        EXPECT_NE(text, s.code);
        EXPECT_EQ(text.find('{'), std::string::npos) << text;
    }
    return all;
}

const Saying* find(const std::vector<Saying>& all, std::string_view code) {
    const auto found = std::find_if(all.begin(), all.end(), [&](const Saying& s) { return s.code == code; });
    return found == all.end() ? nullptr : &*found;
}

TEST(Protections, electronics_open_above_their_limit_and_all_goes_dark) {
    const Draft d = pack_with(amperes(114));
    const Answer a(d.in, parked());
    EXPECT_NEAR(a.amperes("E1"), 114, 1e-9); // what makes them open is shown
    ASSERT_EQ(a.solved.let_go.size(), 1u);
    const LetGo& gone = a.solved.let_go.front();
    EXPECT_EQ(gone.of, LetGo::Of::battery_discharge);
    EXPECT_EQ(gone.why, LetGo::Why::current);
    EXPECT_NEAR(gone.reached, 114, 1e-9);
    EXPECT_EQ(gone.limit, 100);
    EXPECT_FALSE(gone.again);
    // And where that leads: dark.
    ASSERT_EQ(a.solved.also.size(), 1u);
    EXPECT_EQ(a.solved.also.front().solution.load_A[0], 0);
    const auto all = said(d, a);
    ASSERT_TRUE(find(all, "solve.opens-current"));
    EXPECT_EQ(wording::sentence(*find(all, "solve.opens-current"), d.in),
              "G1: 114 A is asked of it; its electronics open at 100 A and all it feeds goes dark. Run less "
              "at a time, or fit electronics that bear it.");
    // The worst of all still knows the 114 A.
    const auto worst = envelope(a.network, {a.solved});
    EXPECT_NEAR(worst.port_current[static_cast<std::size_t>(a.port("G1"))].value.si(), 114, 1e-6);

    const Draft less = pack_with(amperes(99));
    EXPECT_TRUE(Answer(less.in, parked()).solved.let_go.empty());
}

TEST(Protections, electronics_bear_their_pulse_for_its_time) {
    const Draft d = pack_with(amperes(140));
    plan::Condition c = parked();
    c.duration = Time::si(3);
    EXPECT_TRUE(Answer(d.in, c).solved.let_go.empty());
    c.duration = Time::si(10);
    EXPECT_EQ(Answer(d.in, c).solved.let_go.size(), 1u);
}

TEST(Protections, electronics_open_below_their_voltage) {
    Draft d = pack_with(amperes(90));
    plan::Component c = *plan::find(d.in, "G1");
    std::get<plan::Battery>(c.with).cut_off = Voltage::si(12.5);
    d.in.components = d.in.components.with(c);
    // 13.1 V - 90 A · 8 mΩ = 12.38 V
    const Answer a(d.in, parked());
    ASSERT_EQ(a.solved.let_go.size(), 1u);
    EXPECT_EQ(a.solved.let_go[0].why, LetGo::Why::voltage_low);
    EXPECT_NEAR(a.solved.let_go[0].reached, 12.38, 1e-6);
    EXPECT_TRUE(find(said(d, a), "solve.opens-voltage"));
}

TEST(Protections, cold_pack_is_not_charged_but_discharges) {
    Draft d = pack_with(amperes(10));
    plan::Component c = *plan::find(d.in, "G1");
    std::get<plan::Battery>(c.with).low_temperature_protection = true;
    d.in.components = d.in.components.with(c);
    plan::MainsCharger m;
    m.output_current = Current::si(30);
    m.set_voltage = Voltage::si(14.2);
    d.part("T1", m);
    d.wire("T1.+", "G1.+");
    d.wire("T1.-", "G1.-");
    plan::Condition cold = parked();
    cold.mains = true;
    cold.ambient = Temperature::celsius(-5);
    const Answer a(d.in, cold);
    EXPECT_EQ(a.amperes("G1"), 0);
    EXPECT_NEAR(a.amperes("T1"), 10, 1e-9); // feeds the load only
    EXPECT_TRUE(find(said(d, a), "solve.charge-cold"));
    cold.mains = false;
    EXPECT_NEAR(Answer(d.in, cold).amperes("G1"), 10, 1e-9);
    cold.mains = true;
    cold.ambient = Temperature::celsius(5);
    EXPECT_NEAR(Answer(d.in, cold).amperes("G1"), -20, 1e-9);
}

TEST(Protections, sleeping_pack_is_at_zero_volt) {
    const Draft d = pack_with(amperes(10));
    plan::Condition c = parked();
    c.forced = {{d.at("G1.+").component, false}};
    const Answer a(d.in, c);
    EXPECT_EQ(a.volts("E1"), 0);
    EXPECT_TRUE(find(said(d, a), "solve.dead"));
}

TEST(Protections, inverter_stops_recovers_and_stops_again) {
    // Below 10.5 V it stops, at 12.0 V and more it starts again.
    plan::Inverter i;
    i.rated_power = Power::si(1000);
    i.used_power = Power::si(1000);
    i.efficiency = Ratio::si(0.85);
    i.idle_power = Power::si(0);
    i.stop_voltage = Voltage::si(10.5);
    Draft d = Draft::plain();
    d.part("G1", battery(Chemistry::lead_agm, 20));
    d.part("E1", i);
    d.wire("G1.+", "E1.+", 0, 0, 3);
    d.wire("G1.-", "E1.-");
    plan::Condition c;
    c.state_of_charge = charge_at(Chemistry::lead_agm, 12.4);
    const Answer a(d.in, c);
    // 1000/0.85 W behind 23 mΩ: (12.4 + sqrt(12.4² - 4·0.023·1176.5))/2 = 9.574 V
    EXPECT_NEAR(a.volts("E1"), 9.5736, 1e-4);
    ASSERT_EQ(a.solved.let_go.size(), 1u);
    EXPECT_EQ(a.solved.let_go[0].of, LetGo::Of::load);
    EXPECT_TRUE(a.solved.let_go[0].again); // 12.4 V without it is above 10.5 V + 1.5 V
    EXPECT_TRUE(find(said(d, a), "solve.drops-out"));

    // From 11.8 V at rest it would stay off: 11.8 V < 12.0 V.
    c.state_of_charge = charge_at(Chemistry::lead_agm, 11.8);
    const Answer low(d.in, c);
    ASSERT_EQ(low.solved.let_go.size(), 1u);
    EXPECT_FALSE(low.solved.let_go[0].again);
}

TEST(Protections, plain_converters_do_at_their_limit_what_they_do) {
    // 13.8 V, 20 A (limit 1.2 × = 24 A by default), asked for 13.8 V / 0.4 Ω = 34.5 A.
    const auto with = [](plan::AtLimit at_limit) {
        Draft d = Draft::plain();
        plan::Battery b = battery(Chemistry::lead_agm, 10);
        b.nominal = Voltage::si(24);
        d.part("G1", b);
        plan::Converter v;
        v.nominal_in = Voltage::si(24);
        v.set_voltage = Voltage::si(13.8);
        v.output_current = Current::si(20);
        v.at_limit = at_limit;
        d.part("T1", v);
        d.part("E1", ohms(0.4));
        d.wire("G1.+", "T1.in+");
        d.wire("G1.-", "T1.-");
        d.wire("T1.out+", "E1.+");
        d.wire("T1.-", "E1.-");
        return d;
    };
    const Draft constant = with(plan::AtLimit::constant_current);
    const Answer a(constant.in, plan::Condition{});
    EXPECT_NEAR(a.amperes("E1"), 24, 1e-9);
    EXPECT_TRUE(a.solved.let_go.empty());

    const Draft fold = with(plan::AtLimit::fold_back);
    // i = 24 (0.3 + 0.7 · 0.4 i/13.8): 7.2/(1 - 24 · 0.28/13.8) = 14.03 A
    EXPECT_NEAR(Answer(fold.in, plan::Condition{}).amperes("E1"), 7.2 / (1 - 24 * 0.28 / 13.8), 1e-6);

    const Draft hiccup = with(plan::AtLimit::hiccup);
    const Answer h(hiccup.in, plan::Condition{});
    ASSERT_EQ(h.solved.let_go.size(), 1u);
    EXPECT_TRUE(h.solved.let_go[0].again);
    EXPECT_EQ(h.runs(), Runs::hunts);
    const Draft latch = with(plan::AtLimit::latch);
    const Answer l(latch.in, plan::Condition{});
    ASSERT_EQ(l.solved.let_go.size(), 1u);
    EXPECT_FALSE(l.solved.let_go[0].again);
    EXPECT_TRUE(find(said(latch, l), "solve.gives-up"));
}

TEST(Protections, unit_shares_one_limit_between_sun_and_charger) {
    Draft d = Draft::plain();
    plan::Battery starter = battery(Chemistry::lead_flooded, 5, plan::BatteryRole::starter);
    d.part("G1", starter);
    d.part("G2", battery(Chemistry::lifepo4, 8));
    plan::DriveCharger c;
    c.output_current = Current::si(30);
    c.set_voltage = Voltage::si(14.2);
    plan::SolarController s;
    s.output_current = Current::si(10);
    s.panel_power = Power::si(400);
    s.set_voltage = Voltage::si(14.2);
    plan::Unit u;
    u.terminals = {"in+", "out+", "-", "run"};
    u.elements = {{"sun input", s, {{"+", "out+"}, {"-", "-"}}},
                  {"drive input", c, {{"in+", "in+"}, {"out+", "out+"}, {"-", "-"}, {"run", "run"}}}};
    u.shared_limit = Current::si(30);
    d.part("T1", u);
    d.wire("G1.+", "T1.in+");
    d.wire("T1.out+", "G2.+");
    d.wire("T1.-", "G1.-");
    d.wire("T1.-", "G2.-");
    plan::Condition both;
    both.state_of_charge = Ratio::si(0.5);
    both.sun = true;
    both.forced = {{d.at("T1.in+").component, true}};
    const Answer a(d.in, both);
    EXPECT_NEAR(a.amperes("G2"), -30, 1e-9); // not 40
    EXPECT_NEAR(a.solved.solution.regulator_A[0], 10, 1e-9);
    EXPECT_NEAR(a.solved.solution.converter_out_A[0], 20, 1e-9);
}

TEST(Protections, inverter_charger_charges_with_mains_and_inverts_without) {
    Draft d = Draft::plain();
    d.part("G1", battery(Chemistry::lead_agm, 5));
    plan::Inverter i;
    i.rated_power = Power::si(880);
    i.efficiency = Ratio::si(0.88);
    i.idle_power = Power::si(0);
    plan::MainsCharger m;
    m.output_current = Current::si(40);
    m.set_voltage = Voltage::si(14.4);
    plan::Unit u;
    u.terminals = {"+", "-"};
    u.elements = {{"inverter", i, {{"+", "+"}, {"-", "-"}}}, {"charger", m, {{"+", "+"}, {"-", "-"}}}};
    d.part("T1", u);
    d.wire("G1.+", "T1.+");
    d.wire("G1.-", "T1.-");
    plan::Condition c;
    c.state_of_charge = Ratio::si(0.5);
    const Answer off(d.in, c);
    EXPECT_NEAR(off.amperes("G1") * off.volts("G1"), 1000, 1e-6); // 880 W / 0.88
    c.mains = true;
    EXPECT_LT(Answer(d.in, c).amperes("G1"), -10);
}

TEST(Protections, run_input_of_another_voltage_is_said) {
    // A 12 V charger whose run input hangs on the 24 V battery's plus.
    Draft d = Draft::plain();
    d.part("G1", battery(Chemistry::lead_flooded, 5, plan::BatteryRole::starter));
    plan::Battery high = battery(Chemistry::lead_agm, 5);
    high.nominal = Voltage::si(24);
    d.part("G2", high);
    d.part("G3", battery(Chemistry::lead_agm, 5));
    d.part("T1", plan::DriveCharger{});
    d.wire("G1.+", "T1.in+");
    d.wire("G1.-", "T1.-");
    d.wire("T1.out+", "G3.+");
    d.wire("G3.-", "T1.-");
    d.wire("G2.-", "G1.-");
    d.signal("G2.+", "T1.run");
    const Answer a(d.in, plan::Condition{});
    const auto all = said(d, a);
    ASSERT_TRUE(find(all, "solve.run-high"));
    EXPECT_GT(std::get<Voltage>(find(all, "solve.run-high")->values.at("reached")), Voltage::si(24));
}

} // namespace
} // namespace fl::condition
