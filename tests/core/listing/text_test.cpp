#include "core/derive/build.h"
#include "core/listing/csv.h"
#include "core/listing/derivation_text.h"
#include "core/listing/plain_text.h"

#include <gtest/gtest.h>

namespace fl::listing {
namespace {

const Listing two_rows{
    "Conductors",
    {{"conductor", "", Align::left}, {"length", "m", Align::right}, {"note", "", Align::left}},
    {{"W1", "4.30", "by the \"door\", left"}, {"W12", "−12.00", std::string(not_known)}}};

TEST(PlainText, AlignsByCharactersAndNamesUnitsInTheHeader) {
    // Column widths by hand: 9 ("conductor"), 6 ("length" and "−12.00"), then the rest; two blanks between.
    EXPECT_EQ(plain_text(two_rows), "Conductors\n"
                                    "conductor  length  note\n"
                                    "                m\n"
                                    "W1           4.30  by the \"door\", left\n"
                                    "W12        −12.00  not known\n");
}

TEST(PlainText, HasNoLineForUnitsWhereThereAreNone) {
    EXPECT_EQ(plain_text(Listing{"", {{"run", "", Align::left}}, {{"R1"}}}), "run\nR1\n");
}

TEST(PlainText, SaysWhenThereIsNothing) {
    EXPECT_EQ(plain_text(Listing{"Loads", two_rows.columns, {}}), "Loads\nnone\n");
}

TEST(PlainText, NoLineEndsWithABlank) {
    Listing listing = two_rows;
    listing.rows[0][2].clear();
    EXPECT_EQ(plain_text(listing).find(" \n"), std::string::npos);
}

TEST(PlainText, CountsCharactersNotBytes) {
    EXPECT_EQ(columns_of("mm²"), 3U);
    EXPECT_EQ(columns_of("Ω − °C"), 6U);
    EXPECT_EQ(columns_of(""), 0U);
}

TEST(PlainText, LetsNoControlCharacterThrough) {
    EXPECT_EQ(printable("a\x1b[31mb\nc\x7f"), "a [31mb c ");
    EXPECT_EQ(printable("a\xC2\x9B"
                        "b"),
              "a b"); // U+009B, which some terminals take for ESC [
    EXPECT_EQ(printable("mm² \xFF\xC2"), "mm² ??");
}

TEST(Wrapped, BreaksAtBlanksWithinTheWidth) {
    // 10 columns: "aaaa bbbb" is 9, "cccc" would make 14.
    EXPECT_EQ(wrapped("aaaa bbbb cccc dd", 10, 2), "aaaa bbbb\n  cccc dd");
    EXPECT_EQ(wrapped("aaaa bbbb", 9), "aaaa bbbb");
    EXPECT_EQ(wrapped("aaaa bbbb", 8), "aaaa\nbbbb");
    EXPECT_EQ(wrapped("", 10), "");
    // A number keeps its unit.
    EXPECT_EQ(wrapped("Fit 35 mm². It", 7), "Fit\n35 mm².\nIt");
    EXPECT_EQ(wrapped("aaa 2/0 AWG", 8), "aaa\n2/0 AWG");
    EXPECT_EQ(wrapped("in 12 checks", 5), "in 12\nchecks");
}

TEST(Wrapped, ALongWordStandsAlone) {
    EXPECT_EQ(wrapped("a bbbbbbbbbbbb c", 6, 1), "a\n bbbbbbbbbbbb\n c");
}

TEST(Csv, FollowsRfc4180) {
    // RFC 4180, section 2: rules 1 (CR LF), 6 (commas and quotes within quotes), 7 (a quote is doubled).
    EXPECT_EQ(csv(two_rows), "conductor,length (m),note\r\n"
                             "W1,4.30,\"by the \"\"door\"\", left\"\r\n"
                             "W12,-12.00,\r\n");
}

TEST(Csv, KeepsALineBreakWithinQuotes) {
    Listing listing = two_rows;
    listing.rows = {{"W1", "1", "two\nlines"}};
    EXPECT_EQ(csv(listing), "conductor,length (m),note\r\nW1,1,\"two\nlines\"\r\n");
}

TEST(DerivationText, IndentsInputsUnderWhatIsMadeOfThem) {
    using derive::leaf;
    using derive::Leaf;
    // R = ρ·L/A by hand: 0.0172 Ω·mm²/m × 3 m / 2 mm² = 25.8 mΩ.
    const auto why =
        derive::step("R", "resistance", "R' · L", Resistance::si(0.0258),
                     {leaf("R'", "per metre", ResistancePerLength::si(0.0086), Leaf::table, "a standard"),
                      leaf("L", "length", 3_m, Leaf::entered, "entered"),
                      leaf("n", "", std::int64_t{2}, Leaf::assumed, "common practice")},
                     "by definition");
    EXPECT_EQ(plain_text(why, 100), "R = R' · L = 25.8 mΩ (resistance) [by definition]\n"
                                    "  R' = 8.6 mΩ/m (per metre) [from a table: a standard]\n"
                                    "  L = 3 m (length) [entered]\n"
                                    "  n = 2 [assumed: common practice]\n");
}

TEST(DerivationText, BreaksLongLinesFurtherInThanTheNext) {
    using derive::leaf;
    const auto why = derive::step("A", "", "B", 1_A,
                                  {leaf("B", "something long to say", 1_A, derive::Leaf::solved, "solved")});
    const std::string text = plain_text(why, 24);
    EXPECT_EQ(text, "A = B = 1 A\n"
                    "  B = 1 A (something\n"
                    "      long to say)\n"
                    "      [solved]\n");
}

TEST(DerivationText, ShowsSmallDropsInVolts) {
    EXPECT_EQ(text_of(Voltage::si(0.004)), "0.004 V");
    EXPECT_EQ(text_of(WireSize::mm2(2.5)), "2.5 mm²");
    EXPECT_EQ(text_of(std::string("G2")), "G2");
    EXPECT_EQ(text_of(12.5_A, Style{','}), "12,5 A");
}

} // namespace
} // namespace fl::listing
