// What is proposed for the typed van, against the same van worked out by hand, and that nothing of it is
// thicker than it has to be.
#include "core/assess/assess.h"
#include "core/catalogue/catalogue.h"
#include "core/enter/enter.h"
#include "core/quantity/print.h"
#include "tests/support/case.h"
#include "tests/support/same_document.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <sstream>

namespace fl {
namespace {

using namespace plan;

Installation typed_van() {
    Installation in = enter::begin({}).value();
    std::istringstream rows(test::source_file("tests/fixtures/enter/van_of_twelve.rows"));
    for (std::string row; std::getline(rows, row);)
        if (!row.starts_with("#")) in = enter::row(in, row).value().installation;
    return in;
}

std::set<std::string> codes(const Installation& in) {
    std::set<std::string> all;
    const auto assessed = assess::assess(in);
    for (const auto& f : assessed->findings)
        for (const Subject& s : f.subjects) all.insert(f.code + " " + std::to_string(s.id) + " " + s.part);
    return all;
}

// The next thinner size of the printed table, or nothing.
std::optional<WireSize> thinner(const WireSize& size) {
    std::optional<WireSize> found;
    for (const WireSize& one : catalogue::metric_sizes())
        if (one.area < size.area && (!found || one.area > found->area)) found = one;
    return found;
}

TEST(Sizes, TheTypedVanIsTheOneWorkedOutByHand) {
    const test::Case van = test::read_case(test::source_file("tests/fixtures/enter/van_of_twelve.case"));
    for (const std::string& problem : van.problems) ADD_FAILURE() << problem;
    EXPECT_EQ(test::first_difference(van.installation, typed_van()), "");
}

// A lead of plus and return alike, or any other conductor by itself: one size less, and something is said of
// it.
TEST(Sizes, NothingIsThickerThanItHasToBe) {
    const Installation in = typed_van();
    EXPECT_TRUE(codes(in).empty());
    int tried = 0;
    for (const Conductor& w : in.conductors) {
        const Component* last = in.components.find(w.to.component);
        const Component* first = in.components.find(w.from.component);
        const bool at_minus = [&] {
            for (const Component* c : {first, last})
                if (const auto* bar = std::get_if<Busbar>(&c->with); bar && bar->polarity == Polarity::minus)
                    return true;
            return false;
        }();
        if (w.origin != Origin::added || w.role == Role::signal || at_minus) continue;
        const auto less = thinner(*w.size);
        if (!less || less->area < 1_mm2) continue; // the rule set's least
        Installation with = in;
        const auto thin = [&](Conductor one) {
            one.size = {*less, From::assumed};
            with.conductors = with.conductors.with(one);
        };
        thin(w);
        for (const ComponentId load : {w.from.component, w.to.component})
            if (in.components.find(load)->kind() == Kind::load)
                for (const Conductor& other : in.conductors)
                    if (other.from.component == load || other.to.component == load) thin(other);
        EXPECT_FALSE(codes(with).empty()) << w.designation << " could be " << fl::text(*less);
        ++tried;
    }
    EXPECT_GE(tried, 30); // 11 circuits of more than 1 mm2, two conductors each, and 9 feeds
}

} // namespace
} // namespace fl
