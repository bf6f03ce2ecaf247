#include "core/arrange/arrange.h"
#include "core/edit/edit.h"
#include "tests/support/any_installation.h"
#include "tests/support/property.h"
#include "tests/support/random_job.h"
#include "tests/support/sheet_faults.h"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

using namespace fl;
using arrange::Layout;
using plan::Installation;

namespace {

Layout laid(const Installation& in) {
    return arrange::arrange(in, network::build(in));
}

TEST(RandomSheets, JobsAreDrawnCleanly) {
    int wires = 0, broken = 0, unnamed = 0;
    test::property(120, [&] {
        const auto seed = *rc::gen::arbitrary<std::uint32_t>();
        const auto size = *rc::gen::inRange(1, 6);
        const Installation in = test::random_job(seed, size);
        RC_ASSERT(edit::faults(in).empty());
        const Layout layout = laid(in);
        const auto faults = test::sheet_faults(in, layout);
        if (!faults.empty()) RC_FAIL(faults.front());
        RC_ASSERT(layout == laid(in));
        std::set<plan::Subject> named;
        for (const auto& label : layout.labels) named.insert(label.subject);
        for (const auto& w : layout.wires) {
            ++wires;
            broken += w.stretches.size() > 1 && w.stretches[0].page == w.stretches[1].page;
            unnamed += !named.contains(plan::Subject::of(w.conductor));
        }
    });
    // a line broken within one page, and one without a label, are rare ways out of a crowded page
    EXPECT_LE(broken, wires / 100) << wires;
    EXPECT_LE(unnamed, wires / 500) << wires;
}

// Once drawn wrong: the lead of a shared terminal ran one step farther than it had room, into another's; and
// a box with more returns than its lead has places left some without an end.
TEST(RandomSheets, LeadsStayInTheirRoomAndBoxesGatherAllReturns) {
    const std::pair<std::uint32_t, int> jobs[] = {{2367, 1}, {7808004, 2}};
    for (const auto& [seed, size] : jobs) {
        const Installation in = test::random_job(seed, size);
        EXPECT_EQ(test::sheet_faults(in, laid(in)), std::vector<std::string>()) << seed;
    }
    const std::pair<std::uint32_t, int> nonsense[] = {
        {126471, 16},  {54740880, 25}, {3056278, 24}, {7712240, 22},  {418123123, 22},
        {1226131, 26}, {23995363, 28}, {6881467, 26}, {27661037, 19}, {599736, 21}};
    for (const auto& [seed, size] : nonsense) {
        Installation in = test::any_installation(seed, size);
        in.spots = {};
        in.routes = {};
        in.sheets = {};
        EXPECT_EQ(test::sheet_faults(in, laid(in)), std::vector<std::string>()) << seed;
    }
}

// Valid, but nothing a fitter would draw: any terminal joined to any other, names of 200 letters.
TEST(RandomSheets, AnythingValidIsDrawnCleanly) {
    test::property(150, [] {
        const auto seed = *rc::gen::arbitrary<std::uint32_t>();
        Installation in = test::any_installation(seed, *rc::gen::inRange(1, 40));
        in.spots = {};
        in.routes = {};
        in.sheets = {};
        const Layout layout = laid(in);
        const auto faults = test::sheet_faults(in, layout);
        if (!faults.empty()) RC_FAIL(faults.front());
    });
}

// Symbols on top of each other, off the page, corners anywhere: a hand's doing is kept, whatever it is.
TEST(RandomSheets, SpotsAreKeptWhateverTheyAre) {
    test::property(100, [] {
        const auto seed = *rc::gen::arbitrary<std::uint32_t>();
        const Installation in = test::any_installation(seed, *rc::gen::inRange(1, 40));
        const Layout layout = laid(in);
        RC_ASSERT(layout == laid(in));
        std::set<plan::ComponentId> seen; // the first of several spots counts
        for (const auto& spot : in.spots) {
            if (!seen.insert(spot.component).second) continue;
            const auto* s = layout.symbol(spot.component);
            RC_ASSERT(s && s->by_hand);
            // taken to the nearest point of the grid
            RC_ASSERT(std::abs(s->at.x_mm - spot.at.x_mm) <= 1.25 + 1e-9);
            RC_ASSERT(std::abs(s->at.y_mm - spot.at.y_mm) <= 1.25 + 1e-9);
        }
    });
}

TEST(RandomSheets, OneMovedSymbolLeavesACleanSheet) {
    test::property(100, [] {
        const auto seed = *rc::gen::arbitrary<std::uint32_t>();
        Installation in = test::random_job(seed, *rc::gen::inRange(1, 4));
        const Layout before = laid(in);
        // to an empty part of the page: below everything, left of the title block
        const auto& moved =
            before.symbols[static_cast<std::size_t>(*rc::gen::inRange(0, 1000)) % before.symbols.size()];
        RC_PRE(moved.part.empty() && moved.box.bottom_mm - moved.box.top_mm < 30);
        plan::Spot spot;
        spot.id = {in.next_id++};
        spot.component = moved.component;
        spot.at = {100, 257.5};
        in.spots = in.spots.with(spot);
        const Layout after = laid(in);
        RC_ASSERT(after.symbol(moved.component)->at == spot.at);
        const auto faults = test::sheet_faults(in, after);
        if (!faults.empty()) RC_FAIL(faults.front());
    });
}

} // namespace
