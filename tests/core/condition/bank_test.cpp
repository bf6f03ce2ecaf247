#include "core/condition/drawn.h"
#include "core/condition/saying.h"
#include "tests/core/condition/draft.h"

#include <numeric>

namespace fl::condition {
namespace {

using plan::BankTakeOff;

void shares(double string_mohm, BankTakeOff take_off, const std::vector<double>& percent) {
    const Ladder l = ladder(4, string_mohm / 1e3, 1.5e-3, take_off);
    ASSERT_EQ(l.share.size(), percent.size());
    EXPECT_NEAR(std::accumulate(l.share.begin(), l.share.end(), 0.0), 1, 1e-12);
    for (std::size_t i = 0; i < percent.size(); ++i) EXPECT_NEAR(l.share[i] * 100, percent[i], 0.05) << i;
}

// Four batteries side by side, links of 1.5 mΩ on each pole; worked by hand with Kirchhoff's laws, loop by
// loop (and a published discussion of the same bank has the same spread).
TEST(Bank, shares_of_four_in_a_row) {
    shares(20, BankTakeOff::end, {35.8, 26.1, 20.4, 17.7});
    shares(20, BankTakeOff::diagonal, {26.7, 23.3, 23.3, 26.7});
    shares(4, BankTakeOff::end, {57.1, 24.9, 11.4, 6.5});
    shares(4, BankTakeOff::diagonal, {31.8, 18.2, 18.2, 31.8});
    shares(4, BankTakeOff::bar, {25, 25, 25, 25});
}

/// The same bank drawn string by string, with a conductor for each link.
Draft drawn_out(BankTakeOff take_off) {
    Draft d = Draft::plain();
    for (int i = 1; i <= 4; ++i) d.part("G" + std::to_string(i), battery(plan::Chemistry::lead_agm, 20));
    for (int i = 1; i < 4; ++i) {
        const std::string here = "G" + std::to_string(i), next = "G" + std::to_string(i + 1);
        d.wire(here + ".+", next + ".+", 0, 0, 1.5);
        d.wire(here + ".-", next + ".-", 0, 0, 1.5);
    }
    d.part("E1", amperes(100));
    d.wire("G1.+", "E1.+");
    d.wire(take_off == BankTakeOff::end ? "G1.-" : "G4.-", "E1.-");
    return d;
}

Draft as_bank(BankTakeOff take_off) {
    Draft d = Draft::plain();
    plan::Battery b = battery(plan::Chemistry::lead_agm, 5); // four of 20 mΩ
    b.parallel = 4;
    b.take_off = take_off;
    b.link = Resistance::si(1.5e-3);
    d.part("G1", b);
    d.part("E1", amperes(100));
    d.wire("G1.+", "E1.+");
    d.wire("G1.-", "E1.-");
    return d;
}

TEST(Bank, is_the_network_of_its_strings) {
    for (const BankTakeOff take_off : {BankTakeOff::end, BankTakeOff::diagonal}) {
        const Draft strings = drawn_out(take_off), bank = as_bank(take_off);
        const Answer a(strings.in, plan::Condition{}), b(bank.in, plan::Condition{});
        EXPECT_NEAR(a.volts("E1"), b.volts("E1"), 1e-9);
        const auto drawn = draw(bank.in, b.network);
        const auto all = string_currents(*drawn, b.solved, b.port("G1"));
        ASSERT_EQ(all.size(), 4u);
        for (int i = 1; i <= 4; ++i)
            EXPECT_NEAR(-all[static_cast<std::size_t>(i - 1)].si(), a.amperes("G" + std::to_string(i)), 1e-6);
        const auto said = sayings(*drawn, b.solved);
        ASSERT_EQ(said.size(), 1u);
        EXPECT_EQ(said[0].code, "solve.bank-uneven");
    }
}

TEST(Bank, of_strings_with_links_adds_them_up) {
    // 2 strings of 2 blocks: 10 mΩ as entered for the whole, a link of 0.5 mΩ in each string: 10 + 0.5/2.
    Draft d = Draft::plain();
    plan::Battery b = battery(plan::Chemistry::lead_agm, 10);
    b.series = b.parallel = 2;
    b.link = Resistance::si(0.5e-3);
    d.part("G1", b);
    d.part("E1", amperes(40));
    d.wire("G1.+", "E1.+");
    d.wire("G1.-", "E1.-");
    const Answer full(d.in, plan::Condition{});
    plan::Condition none;
    none.loads = plan::LoadsOn::none;
    EXPECT_NEAR(Answer(d.in, none).volts("G1") - full.volts("G1"), 40 * 10.25e-3, 1e-9);
}

} // namespace
} // namespace fl::condition
