#include "core/catalogue/lie.h"

#include <gtest/gtest.h>

namespace fl::catalogue {
namespace {

struct Laid {
    plan::Installation in;
    plan::Conductor w;

    plan::PlaceId place(std::string kind, std::optional<double> ambient_C = {}) {
        plan::Place p;
        p.id = plan::PlaceId{in.next_id++};
        p.kind = std::move(kind);
        if (ambient_C) p.ambient = Temperature::celsius(*ambient_C);
        in.places = in.places.with(p);
        return p.id;
    }
    void end(int which, plan::PlaceId at) {
        plan::Component c;
        c.id = plan::ComponentId{in.next_id++};
        c.with = plan::Joint{};
        c.place = at;
        in.components = in.components.with(c);
        (which == 0 ? w.from : w.to) = {c.id, "1"};
    }
    void run(plan::Run r) {
        r.id = w.run = plan::RunId{in.next_id++};
        in.runs = in.runs.with(r);
    }
    Lie lie() const { return lie_of(in, w); }
};

TEST(Lie, ambient_from_the_nearest_that_knows_it) {
    Laid l;
    EXPECT_NEAR(l.lie().ambient.celsius(), 40, 1e-9); // rule set van, general
    l.in.basis.ambient = Temperature::celsius(35);
    EXPECT_NEAR(l.lie().ambient.celsius(), 35, 1e-9);
    l.end(0, l.place("living_space"));
    EXPECT_NEAR(l.lie().ambient.celsius(), 40, 1e-9); // living space: 40 °C, common practice
    l.end(1, l.place("behind_lining"));
    EXPECT_NEAR(l.lie().ambient.celsius(), 50, 1e-9); // the hotter of the two
    plan::Run r;
    r.from = l.place("cab", 45);
    l.run(r);
    EXPECT_NEAR(l.lie().ambient.celsius(), 45, 1e-9); // entered; its other place is not known
    r.ambient = Temperature::celsius(30);
    l.run(r);
    EXPECT_NEAR(l.lie().ambient.celsius(), 30, 1e-9);
}

TEST(Lie, column_suits_insulation_and_laying) {
    Laid l;
    EXPECT_EQ(l.lie().insulation->id, "PVC70");
    EXPECT_EQ(l.lie().table->id, "vde0298-4-t11/multicore");
    l.w.insulation = "XLPE90"; // the metric table has no hotter column
    EXPECT_EQ(l.lie().table->id, "vde0298-4-t11/multicore");
    plan::Run r;
    r.laid = plan::Laid::free_air;
    l.run(r);
    EXPECT_EQ(l.lie().table->id, "vde0298-4-t11/free-air");
    l.in.basis.ampacity = "33cfr183-t5"; // one column for every way of laying
    EXPECT_EQ(l.lie().table->id, "33cfr183-t5/90");
    l.w.insulation = "PVC70"; // never a column hotter than the insulation
    EXPECT_EQ(l.lie().table->id, "33cfr183-t5/60");
    l.in.basis.ampacity = "33cfr183-t5/105";
    EXPECT_EQ(l.lie().table->id, "33cfr183-t5/60");
}

TEST(Lie, grouping_and_insulated_stretch_come_from_the_run) {
    Laid l;
    EXPECT_EQ(l.lie().loaded_conductors, 1);
    plan::Run r;
    r.loaded_conductors = 4;
    r.laid = plan::Laid::in_insulation;
    r.length = Length::si(2);
    l.run(r);
    EXPECT_EQ(l.lie().loaded_conductors, 4);
    EXPECT_NEAR(l.lie().in_insulation->si(), 2, 1e-12); // all of it, where no stretch is entered
    r.in_insulation = Length::si(0.3);
    l.run(r);
    EXPECT_NEAR(l.lie().in_insulation->si(), 0.3, 1e-12);
}

TEST(Lie, of_a_core_follows_its_cable_s_run) {
    Laid l;
    plan::Run r;
    r.ambient = Temperature::celsius(65);
    l.run(r);
    plan::Cable c;
    c.id = plan::CableId{l.in.next_id++};
    c.run = l.w.run;
    l.in.cables = l.in.cables.with(c);
    l.w.run = {};
    l.w.cable = c.id;
    EXPECT_NEAR(l.lie().ambient.celsius(), 65, 1e-9);
}

TEST(Lie, resistance_from_table_or_ideal_copper) {
    Laid l;
    EXPECT_FALSE(per_length_of(l.in, l.w));
    l.w.size = WireSize::mm2(16);
    EXPECT_NEAR(per_length_of(l.in, l.w)->si(), 1.21e-3, 1e-12); // IEC 60228 class 5
    l.in.basis.ideal_copper = true;
    EXPECT_NEAR(per_length_of(l.in, l.w)->si(), 17.241e-3 / 16, 1e-12);
}

} // namespace
} // namespace fl::catalogue
