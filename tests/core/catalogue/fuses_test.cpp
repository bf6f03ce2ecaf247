#include "core/catalogue/catalogue.h"
#include "core/catalogue/own_curve.h"
#include "core/protect/curve.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>

using namespace fl;
using namespace fl::literals;
using namespace fl::catalogue;

namespace {

nlohmann::json table(const char* name) {
    std::ifstream file(std::string(FL_SOURCE_DIR "/resources/catalogue/") + name);
    return nlohmann::json::parse(file);
}

std::map<std::string, std::string> curve_of_type() {
    std::map<std::string, std::string> out;
    const auto types = table("fuse_types.json");
    for (const auto& row : types.at("rows"))
        if (!row.at("curve").is_null())
            out[row.at("id").get<std::string>()] = row.at("curve").get<std::string>();
    return out;
}

// Each row of the file, read here by another reader, is what the curve gives at that multiple, for every
// rating it is for.
TEST(Fuses, EveryGateOfEveryTableIsRead) {
    int gates = 0, held = 0;
    const auto curve_of = curve_of_type();
    const auto curves = table("fuse_curves.json");
    for (const auto& row : curves.at("gates")) {
        int here = 0;
        for (const auto& [id, curve] : curve_of) {
            if (curve != row.at("type").get<std::string>()) continue;
            const FuseType& type = *fuse_type(id);
            for (const Current rating : type.ratings) {
                if (rating.si() < row.at("from_A").get<double>() ||
                    rating.si() > row.at("to_A").get<double>())
                    continue;
                ++here;
                const auto o = protect::opening(type, rating, rating * row.at("multiple").get<double>());
                SCOPED_TRACE(testing::Message() << id << " " << rating.si() << " A x " << row.at("multiple"));
                if (!row.at("time_min_s").is_null()) {
                    ASSERT_TRUE(o.least);
                    EXPECT_NEAR(o.least->si() / row.at("time_min_s").get<double>(), 1, 1e-5);
                }
                if (!row.at("time_max_s").is_null()) {
                    ASSERT_TRUE(o.greatest);
                    EXPECT_NEAR(o.greatest->si() / row.at("time_max_s").get<double>(), 1, 1e-5);
                } else if (row.at("holds").get<bool>()) {
                    EXPECT_FALSE(o.greatest) << "need not open";
                }
            }
        }
        gates += here > 0;
        held += here;
    }
    EXPECT_GT(gates, 110) << "all but those of types without a list of ratings";
    EXPECT_GT(held, 500);
}

TEST(Fuses, EveryPointOfTheDeratingIsRead) {
    const auto file = table("fuse_derating.json");
    int points = 0;
    for (const auto& group : file.at("groups"))
        for (const auto& point : file.at("points")) {
            if (point.at("group").get<std::string>() != group.at("group").get<std::string>()) continue;
            const FuseType& type = *fuse_type(group.at("type").get<std::string>());
            const auto at =
                temperature_factor(type, Temperature::celsius(point.at("temperature_C").get<double>()));
            ASSERT_TRUE(at);
            EXPECT_NEAR(at->value, point.at("factor").get<double>(), 1e-9) << type.id;
            EXPECT_FALSE(at->source.citation.empty());
            ++points;
        }
    EXPECT_GT(points, 80);
    for (const auto id : fuse_type_ids()) { // never more when warmer, and every type has its points
        double last = 2;
        for (double celsius = -60; celsius < 160; celsius += 1) {
            const auto at = temperature_factor(*fuse_type(id), Temperature::celsius(celsius));
            ASSERT_TRUE(at) << id;
            EXPECT_LE(at->value, last + 1e-12) << id << " at " << celsius;
            last = at->value;
        }
    }
}

// Maker's sheet of a large blade of 40 A: 34 A at 65 °C, 30 A at 85 °C; half way 32 A at 75 °C, by hand. Fuse
// application guidance on gG: 0.5 % a kelvin above 40 °C, 5 % at 50 °C.
TEST(Fuses, DeratingByHand) {
    const auto left = [](const char* id, double celsius) {
        return temperature_factor(*fuse_type(id), Temperature::celsius(celsius))->value;
    };
    EXPECT_NEAR(40 * left("ISO8820-3-E", 75), 32, 1e-9);
    EXPECT_NEAR(left("IEC60269-gG", 50), 0.95, 1e-9);
    EXPECT_NEAR(left("ISO8820-3-F", 80), 0.73, 1e-9) << "7.3 A of 10 A";
}

// IEC 60269-1 by its I2t: the lower of a pair at 1.6 : 1 has at most let through what melts the upper at the
// least; the 15 pairs two steps apart in the series 16, 20, 25, ...
TEST(Fuses, PairsAtOnePointSixToOne) {
    const FuseType& gG = *fuse_type("IEC60269-gG");
    int pairs = 0;
    for (std::size_t i = 0; i + 2 < gG.ratings.size(); ++i) {
        const auto *low = joule_integral(gG, gG.ratings[i]), *high = joule_integral(gG, gG.ratings[i + 2]);
        ASSERT_TRUE(low && high) << gG.ratings[i].si();
        EXPECT_NEAR(gG.ratings[i + 2] / gG.ratings[i], 1.6, 0.05);
        EXPECT_LE(*low->melting_greatest, *high->melting_least) << gG.ratings[i].si();
        ++pairs;
    }
    EXPECT_EQ(pairs, 15);
}

/// The gate test: the lower has opened at the latest when the upper opens at the earliest, at every current
/// from 1.35 to 200 times the lower's rating.
bool selective(const char* low, double low_A, const char* high, double high_A) {
    for (double x = 1.36; x < 200; x *= 1.005) {
        const auto opens =
            protect::opening(*fuse_type(low), Current::si(low_A), Current::si(x * low_A)).greatest;
        const auto starts =
            protect::opening(*fuse_type(high), Current::si(high_A), Current::si(x * low_A)).least;
        if (!opens || !starts || !(opens->si() <= starts->si() * (1 + 1e-9))) return false;
    }
    return true;
}

// Worst-case guaranteed ratios by the gates, worked out elsewhere from the same published gates: small and
// standard blades over each other 2.8 : 1, a large blade over a standard one 1.6 : 1, over a large one 5 : 1.
TEST(Fuses, GuaranteedRatiosOfBlades) {
    EXPECT_TRUE(selective("ISO8820-3-C", 5, "ISO8820-3-C", 5 * 2.85));
    EXPECT_FALSE(selective("ISO8820-3-C", 5, "ISO8820-3-C", 5 * 2.7));
    EXPECT_TRUE(selective("ISO8820-3-F", 10, "ISO8820-3-C", 10 * 2.85));
    EXPECT_FALSE(selective("ISO8820-3-F", 10, "ISO8820-3-C", 10 * 2.7));
    EXPECT_TRUE(selective("ISO8820-3-C", 30, "ISO8820-3-E", 30 * 1.65));
    EXPECT_FALSE(selective("ISO8820-3-C", 30, "ISO8820-3-E", 30 * 1.5));
    EXPECT_TRUE(selective("ISO8820-3-E", 20, "ISO8820-3-E", 20 * 5.0));
    EXPECT_FALSE(selective("ISO8820-3-E", 20, "ISO8820-3-E", 20 * 4.8));
}

TEST(Fuses, SayWhereTheirTimesComeFrom) {
    using Bases = std::vector<std::string>;
    EXPECT_EQ(curve_bases(*fuse_type("ISO8820-3-C"), 10_A), (Bases{"second hand", "memory"}));
    EXPECT_EQ(curve_bases(*fuse_type("ISO8820-3-E"), 40_A), (Bases{"read", "second hand"}));
    EXPECT_EQ(curve_bases(*fuse_type("ISO8820-5-SF30"), 100_A), Bases{"memory"});
    EXPECT_TRUE(curve_bases(*fuse_type("ISO8820-4-B"), 60_A).empty()) << "no times known";
    EXPECT_EQ(curve_citations(*fuse_type("ISO8820-3-E"), 40_A).size(), 2u);
    for (const auto id : fuse_type_ids())
        for (const Current rating : fuse_type(id)->ratings)
            EXPECT_EQ(curve_bases(*fuse_type(id), rating).empty(), gates_for(*fuse_type(id), rating).empty());
}

plan::CurvePoint point(Current current, std::optional<Time> least, std::optional<Time> greatest) {
    plan::CurvePoint p;
    p.current = {current, plan::From::data_sheet};
    if (least) p.least = {*least, plan::From::data_sheet};
    if (greatest) p.greatest = {*greatest, plan::From::data_sheet};
    return p;
}

TEST(Fuses, TimesOfItsOwnStandInPlaceOfItsTypes) {
    const std::vector<plan::CurvePoint> curve{point(100_A, 1000_s, {}), point(150_A, 20_s, 200_s),
                                              point(600_A, 0.1_s, 0.4_s)};
    const auto own = own_curve(fuse_type("ISO8820-5-SF30"), curve, 100_A);
    ASSERT_TRUE(own);
    EXPECT_NEAR(protect::opening(*own, 100_A, 150_A).greatest->si(), 200, 1e-3);
    // Half way in the logarithms between 150 and 600 A: 300 A; sqrt(20 x 0.1) and sqrt(200 x 0.4) s.
    EXPECT_NEAR(protect::opening(*own, 100_A, 300_A).least->si(), std::sqrt(2.0), 1e-6);
    EXPECT_NEAR(protect::opening(*own, 100_A, 300_A).greatest->si(), std::sqrt(80.0), 1e-6);
    EXPECT_FALSE(protect::opening(*own, 100_A, 120_A).greatest) << "no greatest time below 150 A";
    EXPECT_EQ(curve_bases(*own, 100_A), std::vector<std::string>{"entered"});
    EXPECT_EQ(own->breaking.size(), 1u) << "the rest is its type's";
    // A circuit-breaker has no type.
    const auto breaker = own_curve(nullptr, curve, 100_A);
    EXPECT_NEAR(protect::opening(*breaker, 100_A, 1200_A).greatest->si(), 0.1, 1e-6) << "I2t as at 600 A";
    EXPECT_FALSE(own_curve(nullptr, {}, 100_A));
    EXPECT_FALSE(own_curve(nullptr, curve, {}));
}

} // namespace
