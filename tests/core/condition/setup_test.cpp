#include "tests/core/condition/draft.h"

// Defaults by hand from the rows of resources/catalogue/defaults.json named beside them.
namespace fl::condition {
namespace {

using plan::Chemistry;

Setup setup_of(const Draft& d, const plan::Condition& condition, bool chargers_on = true) {
    const auto network = network::build(d.in);
    return setup(d.in, network, condition, std::vector<bool>(network.converters.size(), chargers_on));
}
plan::Condition running() {
    plan::Condition c;
    c.engine = plan::Engine::running;
    c.alternator = plan::AlternatorState::normal;
    return c;
}

TEST(Setup, battery_resistance_by_its_law) {
    Draft d;
    plan::Battery service;
    service.chemistry = Chemistry::lead_agm;
    service.capacity = Charge::si(100 * 3600.0);
    d.part("G1", service);
    plan::Battery starter;
    starter.role = plan::BatteryRole::starter;
    starter.cold_cranking = Current::si(760);
    d.part("G2", starter);
    plan::Condition half;
    half.state_of_charge = Ratio::si(0.5);
    const auto s = setup_of(d, half);
    ASSERT_EQ(s.circuit.batteries.size(), 2u);
    EXPECT_NEAR(s.circuit.batteries[0].discharge_ohm, 0.45 / 100, 1e-12);     // R × C = 0.45 Ω·Ah
    EXPECT_NEAR(s.circuit.batteries[0].charge_ohm, 0.0045 + 1.9 / 50, 1e-12); // K / (C (1 − s))
    EXPECT_NEAR(s.circuit.batteries[0].emf_V, 12.30, 1e-9);                   // 2.05 V a cell at 50 %
    EXPECT_NEAR(s.circuit.batteries[1].discharge_ohm, 3.3 / 760, 1e-12);      // 3.3 V ÷ cold current
}

TEST(Setup, twenty_four_volts_double_what_is_given_for_twelve) {
    Draft d;
    plan::Battery b;
    b.chemistry = Chemistry::lead_agm;
    b.nominal = Voltage::si(24);
    b.capacity = Charge::si(100 * 3600.0);
    d.part("G1", b);
    const auto s = setup_of(d, {});
    EXPECT_NEAR(s.circuit.batteries[0].emf_V, 25.8, 1e-9); // 12 cells of 2.15 V
    EXPECT_NEAR(s.circuit.batteries[0].discharge_ohm, 2 * 0.0045, 1e-12);
}

TEST(Setup, alternator_by_state_and_engine) {
    Draft d;
    plan::Alternator a;
    a.regulation = plan::Regulation::computer_controlled;
    a.rated = Current::si(150);
    d.part("G1", a);
    const auto regulator = [&](plan::AlternatorState state, plan::Engine engine) {
        plan::Condition c = running();
        c.alternator = state;
        c.engine = engine;
        return setup_of(d, c).circuit.regulators.at(0);
    };
    using enum plan::AlternatorState;
    using plan::Engine;
    EXPECT_FALSE(regulator(normal, Engine::off).on);
    EXPECT_NEAR(regulator(normal, Engine::running).set_V, 14.2, 1e-12);
    EXPECT_NEAR(regulator(lean, Engine::running).set_V, 12.3, 1e-12);
    EXPECT_NEAR(regulator(overrun, Engine::running).set_V, 15.0, 1e-12);
    EXPECT_NEAR(regulator(idle, Engine::idle).set_V, 12.8, 1e-12);
    EXPECT_NEAR(regulator(normal, Engine::running).limit_A, 112.5, 1e-9); // hot 0.75
    EXPECT_NEAR(regulator(idle, Engine::idle).limit_A, 75, 1e-9);         // hot idle 0.5
    EXPECT_NEAR(regulator(normal, Engine::running).droop_ohm, 0.001 * 14.2 / 150, 1e-12);
}

TEST(Setup, charger_meets_its_efficiency_at_full_output) {
    Draft d;
    plan::DriveCharger c;
    c.output_current = Current::si(40);
    c.set_voltage = Voltage::si(14.2);
    c.efficiency = Ratio::si(0.92);
    c.input_limit = Current::si(50);
    d.part("T1", c);
    const auto t = setup_of(d, running()).circuit.converters.at(0);
    const double out_W = 14.2 * 40;
    EXPECT_NEAR(out_W / (out_W * (1 + t.k1) + t.p0_W + t.k2_ohm * 40 * 40), 0.92, 1e-12);
    EXPECT_GT(t.k1, 0);
    EXPECT_GT(t.k2_ohm, 0);
    EXPECT_NEAR(t.out_limit_A, 40, 1e-12);
    EXPECT_NEAR(t.in_limit_A, 50, 1e-12);
    EXPECT_NEAR(t.standby_A, 0.005, 1e-12);
}

TEST(Setup, chargers_from_mains_and_sun_only_where_the_condition_has_them) {
    Draft d;
    plan::MainsCharger m;
    m.output_current = Current::si(25);
    d.part("T1", m);
    plan::SolarController s;
    s.panel_power = Power::si(200);
    s.efficiency = Ratio::si(0.95);
    d.part("T2", s);
    plan::Condition c;
    EXPECT_FALSE(setup_of(d, c).circuit.regulators[0].on);
    EXPECT_FALSE(setup_of(d, c).circuit.regulators[1].on);
    c.mains = true;
    EXPECT_TRUE(setup_of(d, c).circuit.regulators[0].on);
    c = {};
    c.sun = true;
    EXPECT_FALSE(setup_of(d, c).circuit.regulators[0].on);
    EXPECT_TRUE(setup_of(d, c).circuit.regulators[1].on);
    EXPECT_NEAR(setup_of(d, c).circuit.regulators[1].limit_W, 190, 1e-9);
}

TEST(Setup, loads_by_count_knee_and_when_they_run) {
    Draft d;
    plan::Load lamp = watts(5);
    lamp.count = 4;
    d.part("E1", lamp);
    plan::Load fridge = watts(60);
    fridge.lowest = Voltage::si(10.4);
    d.part("E2", fridge);
    plan::Load horn = amperes(4);
    horn.duty = plan::Duty::momentary;
    d.part("E3", horn);
    plan::Load vehicle = amperes(35);
    vehicle.purpose = plan::Purpose::vehicle;
    d.part("E4", vehicle);
    plan::Load heater = amperes(2);
    heater.runs = plan::RunsWhen::night;
    d.part("E5", heater);

    const auto parked = setup_of(d, {}).circuit.loads;
    EXPECT_NEAR(parked[0].value, 20, 1e-12);
    EXPECT_NEAR(parked[0].knee_V, 7.2, 1e-12);  // 0.6 of nominal
    EXPECT_NEAR(parked[1].knee_V, 10.4, 1e-12); // its lowest working voltage
    EXPECT_NEAR(parked[1].lowest_V, 10.4, 1e-12);
    EXPECT_TRUE(parked[1].on);
    EXPECT_FALSE(parked[2].on); // momentary: no part of a lasting condition
    EXPECT_FALSE(parked[3].on); // what the vehicle takes runs with its engine
    EXPECT_TRUE(parked[4].on);
    plan::Condition brief;
    brief.duration = Time::si(10);
    EXPECT_TRUE(setup_of(d, brief).circuit.loads[2].on);
    const auto driving = setup_of(d, running()).circuit.loads;
    EXPECT_TRUE(driving[3].on);
    EXPECT_FALSE(driving[4].on);
}

TEST(Setup, load_without_a_figure_takes_nothing) {
    Draft d;
    d.part("E1", plan::Load{});
    EXPECT_FALSE(setup_of(d, {}).circuit.loads[0].on);
}

TEST(Setup, conductor_joints_and_heat_follow_the_job_rules) {
    Draft d;
    d.part("G1", battery(Chemistry::lead_flooded, 5));
    d.part("X1", plan::Busbar{});
    d.part("E1", amperes(5));
    plan::Conductor w;
    w.id = plan::ConductorId{d.in.next_id++};
    w.from = d.at("X1.1");
    w.to = d.at("E1.+");
    w.length = Length::si(3);
    w.size = WireSize::mm2(2.5);
    d.in.conductors = d.in.conductors.with(w);
    const auto resistor = [&] { return setup_of(d, {}).circuit.resistors.at(0); };
    EXPECT_NEAR(resistor().r20_ohm, 3 * 7.98e-3, 1e-12);     // IEC 60228 class 5
    EXPECT_NEAR(resistor().fixed_ohm, 0.1e-3 + 1e-3, 1e-12); // lug on the bar's stud, tab at the load
    ASSERT_TRUE(resistor().thermal);
    EXPECT_NEAR(resistor().thermal->ambient_C, 40, 1e-9); // van, general
    EXPECT_NEAR(resistor().thermal->rated_A, 26, 1e-9);   // DIN VDE 0298-4 table 11, multicore
    EXPECT_NEAR(resistor().thermal->limit_C, 70, 1e-9);

    d.in.basis.temperature = plan::ConductorTemperature::rated;
    EXPECT_FALSE(resistor().thermal);
    EXPECT_NEAR(resistor().at_C, 70, 1e-9);
    d.in.basis.temperature = plan::ConductorTemperature::plain_20C;
    EXPECT_NEAR(resistor().at_C, 20, 1e-9);
    d.in.basis.joints = false;
    EXPECT_NEAR(resistor().fixed_ohm, 0, 1e-15);
    d.in.basis.ideal_copper = true;
    EXPECT_NEAR(resistor().r20_ohm, 3 * 17.241e-3 / 2.5, 1e-12);
    // Entered, it counts whatever the job rules say.
    w.ends[0].joint = Resistance::si(2e-3);
    d.in.conductors = d.in.conductors.with(w);
    EXPECT_NEAR(resistor().fixed_ohm, 2e-3, 1e-15);
}

template <std::size_t... I>
std::vector<plan::Parameters> every_kind(std::index_sequence<I...>) {
    return {plan::Parameters(std::in_place_index<I>)...};
}

TEST(Setup, every_kind_stands_where_nothing_of_it_is_known) {
    // Each kind wired to two bars at every terminal, without a single figure, on every rule set.
    for (const auto rules : catalogue::rule_set_ids()) {
        Draft d;
        d.in.basis.rule_set = rules;
        d.part("X1", plan::Busbar{plan::Polarity::plus, 60, {}});
        d.part("X2", plan::Busbar{plan::Polarity::minus, 60, {}});
        int stud = 0;
        const auto all = every_kind(std::make_index_sequence<std::variant_size_v<plan::Parameters>>());
        for (std::size_t k = 0; k < all.size(); ++k) {
            const std::string name = "P" + std::to_string(k);
            d.part(name, all[k]);
            for (const auto& terminal : plan::terminals(all[k])) {
                plan::Conductor w;
                w.id = plan::ConductorId{d.in.next_id++};
                w.from = d.at(name + "." + terminal);
                ++stud;
                w.to = d.at((stud % 2 ? "X1." : "X2.") + std::to_string(stud));
                w.length = Length::si(1);
                w.size = WireSize::mm2(2.5);
                d.in.conductors = d.in.conductors.with(w);
            }
        }
        const auto network = network::build(d.in);
        for (const auto& c : conditions(d.in, network)) {
            const auto s = setup_of(d, c);
            EXPECT_EQ(s.map.resistor_of_branch.size(), network.branches.size());
            EXPECT_EQ(s.map.load_of_port.size(), network.ports.size());
            for (const auto& r : s.circuit.resistors) EXPECT_GE(r.r20_ohm + r.fixed_ohm, 0);
            for (const auto& r : s.circuit.regulators) EXPECT_GT(r.droop_ohm, 0);
            for (const auto& t : s.circuit.converters) EXPECT_GT(t.droop_ohm, 0);
            for (const auto& b : s.circuit.batteries) EXPECT_GT(b.discharge_ohm, 0);
        }
    }
}

TEST(Setup, switches_fuses_and_links_by_position) {
    Draft d;
    plan::Switch open;
    open.closed = false;
    const auto s1 = d.part("S1", open);
    plan::Switch link;
    link.role = plan::SwitchRole::emergency_link;
    const auto s2 = d.part("S2", link);
    plan::Fuse pulled;
    pulled.fitted = false;
    d.part("F1", pulled);
    auto map = setup_of(d, {}).map.resistor_of_branch;
    EXPECT_EQ(map, (std::vector<int>{-1, -1, -1}));
    plan::Condition c;
    c.forced = {{s1, true}, {s2, true}};
    map = setup_of(d, c).map.resistor_of_branch;
    EXPECT_GE(map[0], 0);
    EXPECT_GE(map[1], 0);
    EXPECT_EQ(map[2], -1); // there is nothing to close
}

TEST(Setup, starter_battery_has_settled_while_driving) {
    // So that in lean cruise the alternator, not a battery at rest voltage, is seen to feed the vehicle.
    Draft d;
    plan::Alternator a;
    a.regulation = plan::Regulation::computer_controlled;
    d.part("G1", a);
    const auto starter = d.part("G2", battery(Chemistry::lead_flooded, 5, plan::BatteryRole::starter));
    plan::Condition lean = running();
    lean.alternator = plan::AlternatorState::lean;
    EXPECT_NEAR(setup_of(d, lean).circuit.batteries[0].emf_V, 12.3, 1e-9);
    EXPECT_NEAR(setup_of(d, {}).circuit.batteries[0].emf_V, 12.66, 1e-9); // full, 2.11 V a cell
    lean.batteries = {{starter, Ratio::si(1)}};                           // said so: at rest voltage
    EXPECT_NEAR(setup_of(d, lean).circuit.batteries[0].emf_V, 12.66, 1e-9);
}

TEST(Reference, is_the_nearest_source_that_feeds_a_load) {
    // Alternator and starter battery - charger - service battery - converter to 24 V.
    Draft d = Draft::plain();
    d.part("G1", plan::Alternator{});
    d.part("G2", battery(Chemistry::lead_flooded, 5, plan::BatteryRole::starter));
    d.part("T1", plan::DriveCharger{});
    d.part("G3", battery(Chemistry::lifepo4, 5));
    plan::Converter up;
    up.set_voltage = Voltage::si(24);
    d.part("T2", up);
    d.part("E1", amperes(1));
    d.part("E2", amperes(1));
    d.part("E3", amperes(1));
    d.wire("G1.B+", "G2.+", 1, 16);
    d.wire("G1.B-", "G2.-", 1, 16);
    d.wire("G2.+", "T1.in+", 1, 16);
    d.wire("T1.-", "G2.-", 1, 16);
    d.wire("T1.out+", "G3.+", 1, 16);
    d.wire("T1.-", "G3.-", 1, 16);
    d.wire("G3.+", "T2.in+", 1, 16);
    d.wire("G3.-", "T2.-", 1, 16);
    d.wire("T1.out+", "E1.+", 1, 2.5); // at the charger's terminal, but the battery feeds it
    d.wire("E1.-", "T1.-", 1, 2.5);
    d.wire("T2.out+", "E2.+", 1, 2.5);
    d.wire("E2.-", "T2.-", 1, 2.5);
    d.wire("G1.B+", "E3.+", 1, 2.5);
    d.wire("E3.-", "G1.B-", 1, 2.5);
    const auto network = network::build(d.in);
    const auto all = references(d.in, network);
    const auto index = [&](std::string_view designation) {
        const auto id = plan::find(d.in, designation)->id;
        for (std::size_t i = 0; i < network.ports.size(); ++i)
            if (network.ports[i].component == id) return static_cast<int>(i);
        return -1;
    };
    const auto of = [&](std::string_view designation) {
        return all[static_cast<std::size_t>(index(designation))];
    };
    EXPECT_EQ(of("E1").port, index("G3"));
    EXPECT_EQ(reference_source(network, d.in, index("E1")), index("G3"));
    EXPECT_EQ(of("E3").port, index("G2"));
    EXPECT_EQ(of("E2").port, -1);
    EXPECT_EQ(of("E2").converter, 1);
    EXPECT_NEAR(of("E2").nominal.si(), 24, 1e-12);
    EXPECT_NEAR(of("E1").nominal.si(), 12, 1e-12);
}

} // namespace
} // namespace fl::condition
