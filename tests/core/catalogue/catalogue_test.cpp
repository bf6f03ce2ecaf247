#include "core/catalogue/catalogue.h"
#include "core/plan/names.h"
#include "core/quantity/print.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>

using namespace fl;

namespace {

TEST(Catalogue, EveryTableReadsWithoutAFault) {
    for (const std::string& fault : catalogue::faults()) ADD_FAILURE() << fault;
    EXPECT_GE(catalogue::metric_sizes().size(), 20u);
    EXPECT_EQ(catalogue::gauge_sizes().size(), 15u); // 18 to 4/0
}

TEST(Catalogue, EveryRowHasASource) {
    for (std::string_view id : catalogue::insulation_ids()) {
        const auto* one = catalogue::insulation(id);
        EXPECT_FALSE(one->source.citation.empty()) << id;
        ASSERT_TRUE(catalogue::ampacity_table(one->ampacity)) << id << " " << one->ampacity;
    }
    for (std::string_view id : catalogue::fuse_type_ids())
        EXPECT_FALSE(catalogue::fuse_type(id)->source.citation.empty()) << id;
    for (std::string_view id : catalogue::rule_set_ids()) {
        const auto* set = catalogue::rule_set(id);
        EXPECT_TRUE(catalogue::insulation(set->insulation)) << id;
        EXPECT_TRUE(catalogue::ampacity_table(set->ampacity)) << id << " " << set->ampacity;
        EXPECT_GT(set->least_single.area.si(), 0) << id;
        EXPECT_FALSE(set->plus_colour.empty()) << id;
        for (const auto& limit : set->limits)
            EXPECT_TRUE(!limit.must ||
                        (limit.source.basis != "memory" && limit.source.basis != "common practice"))
                << id << " " << limit.id;
    }
    for (std::size_t k = 0; k < plan::names<plan::Kind>().size(); ++k)
        EXPECT_FALSE(catalogue::kind_info(static_cast<plan::Kind>(k)).name.empty()) << k;
}

TEST(Catalogue, AmpacityRisesWithSizeAndFallsWithAmbient) {
    for (std::string_view id : catalogue::ampacity_table_ids()) {
        const auto& rows = catalogue::ampacity_table(id)->rows;
        ASSERT_FALSE(rows.empty()) << id;
        for (std::size_t i = 1; i < rows.size(); ++i) EXPECT_GE(rows[i].current, rows[i - 1].current) << id;
    }
    double last = 10;
    for (int ambient = 10; ambient <= 70; ambient += 5) {
        const double f = catalogue::ambient_factor(70_degC, 30_degC, Temperature::celsius(ambient)).value;
        EXPECT_LT(f, last) << ambient;
        last = f;
    }
    EXPECT_EQ(last, 0);
}

TEST(Catalogue, SizesBetweenRows) {
    // by hand: 3 mm² lies above 2.5 mm² (7.98 mΩ/m), so 7.98 * 2.5 / 3 = 6.65 mΩ/m
    EXPECT_NEAR(to_field(catalogue::resistance_per_length(WireSize::mm2(3))->value), 6.65, 1e-9);
    EXPECT_FALSE(catalogue::resistance_per_length(WireSize::mm2(0.1)));
    const auto* table = catalogue::ampacity_table("vde0298-4-t11/multicore");
    ASSERT_TRUE(table);
    EXPECT_EQ(catalogue::tabulated(*table, WireSize::mm2(3)), 26_A); // of 2.5 mm², never interpolated
    EXPECT_FALSE(catalogue::tabulated(*table, WireSize::mm2(0.5)));
}

TEST(Catalogue, DefaultsHaveTheirUnits) {
    EXPECT_EQ(catalogue::default_of<Resistance>("joint.lug_on_stud").value, 0.1_mohm);
    EXPECT_EQ(catalogue::default_of<Ratio>("drive_charger.efficiency").value, Ratio::si(0.9));
    EXPECT_EQ(catalogue::default_of<Temperature>("ambient.engine_bay").value, 85_degC);
    EXPECT_EQ(catalogue::default_of<Current>("standby.drive_charger").value, Current::si(0.005));
    EXPECT_EQ(catalogue::default_number("standby.inverter").value, 1);
}

// A default that our code names but the table lacks would end the program: look for all of them in the
// sources.
TEST(Catalogue, EveryDefaultThatCoreNamesIsThere) {
    int seen = 0;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(FL_SOURCE_DIR "/core")) {
        if (entry.path().extension() != ".cpp") continue;
        std::ifstream file(entry.path());
        const std::string source{std::istreambuf_iterator<char>(file), {}};
        for (const char* call : {"default_of<", "default_number(\"", "ohms(\""}) {
            for (auto at = source.find(call); at != source.npos; at = source.find(call, at + 1)) {
                const auto open = source.find("(\"", at), close = source.find("\")", open);
                if (open == source.npos || close == source.npos || source.find('\n', at) < close) continue;
                const std::string id = source.substr(open + 2, close - open - 2);
                EXPECT_TRUE(catalogue::has_default(id)) << entry.path() << ": " << id;
                ++seen;
            }
        }
    }
    EXPECT_GT(seen, 30);
}

TEST(Catalogue, RestVoltageRisesWithCharge) {
    for (auto chemistry : {plan::Chemistry::lead_flooded, plan::Chemistry::lead_agm,
                           plan::Chemistry::lead_gel, plan::Chemistry::lifepo4})
        for (int s = 1; s <= 100; ++s)
            EXPECT_GE(catalogue::rest_voltage(chemistry, 12_V, Ratio::si(s / 100.0)),
                      catalogue::rest_voltage(chemistry, 12_V, Ratio::si((s - 1) / 100.0)));
    // two 12 V blocks in series
    EXPECT_DOUBLE_EQ(catalogue::rest_voltage(plan::Chemistry::lead_agm, 24_V, Ratio::si(0.5)).si(),
                     2 * catalogue::rest_voltage(plan::Chemistry::lead_agm, 12_V, Ratio::si(0.5)).si());
}

} // namespace
