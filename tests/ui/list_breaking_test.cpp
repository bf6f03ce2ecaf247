#include "ui/print/blocks.h"
#include "ui/print/choose.h"
#include "ui/print/flow.h"
#include "ui/print/text.h"

#include <gtest/gtest.h>

#include <QPainter>

namespace {

using namespace fl::ui::print;

Piece row(double height, bool with_next = false, std::shared_ptr<const Piece> head = {}) {
    return {height, [](QPainter&, double) {}, with_next, std::move(head)};
}

TEST(ListBreaking, FillsPagesAndRepeatsTheHead) {
    const auto head = std::make_shared<const Piece>(row(2));
    std::vector<Piece> pieces{*head};
    for (int i = 0; i < 7; ++i) pieces.push_back(row(3, false, head));
    // By hand, 12 high: head 2 and three rows of 3 are 11; then two more pages of three rows and one, each
    // with the head again.
    const auto pages = broken(pieces, 12);
    ASSERT_EQ(pages.size(), 3U);
    EXPECT_EQ(pages[0], (std::vector<Placed>{{0, 0, false}, {1, 2, false}, {2, 5, false}, {3, 8, false}}));
    EXPECT_EQ(pages[1], (std::vector<Placed>{{4, 0, true}, {4, 2, false}, {5, 5, false}, {6, 8, false}}));
    EXPECT_EQ(pages[2], (std::vector<Placed>{{7, 0, true}, {7, 2, false}}));
}

TEST(ListBreaking, HoldsTogetherWhatBelongsTogether) {
    std::vector<Piece> pieces{row(5), row(4, true), row(4)};
    const auto pages = broken(pieces, 10);
    ASSERT_EQ(pages.size(), 2U);
    EXPECT_EQ(pages[1], (std::vector<Placed>{{1, 0, false}, {2, 4, false}}));
}

TEST(ListBreaking, WhatIsHigherThanAPageIsTornRatherThanLost) {
    const std::vector<Piece> pieces{row(3), row(8, true), row(8)};
    const auto pages = broken(pieces, 10);
    std::size_t placed = 0;
    for (const auto& page : pages) placed += page.size();
    EXPECT_EQ(placed, 3U);
}

TEST(ListBreaking, NoSpaceBeginsAPage) {
    const std::vector<Piece> pieces{row(9), {4, {}, false, {}}, row(3)};
    const auto pages = broken(pieces, 10);
    ASSERT_EQ(pages.size(), 2U);
    EXPECT_EQ(pages[1], (std::vector<Placed>{{2, 0, false}}));
}

TEST(ListBreaking, ATableLeavesNoRowAlone) {
    fl::listing::Listing table{"t", {{"name", "", {}}}, {}};
    for (int i = 0; i < 60; ++i) table.rows.push_back({"row"});
    Pieces pieces;
    add_table(pieces, table);
    for (double room = 40; room < 120; room += 1) {
        for (const auto& page : broken(pieces, room)) {
            std::size_t rows = 0;
            for (const Placed& one : page) rows += one.head || one.piece == 0 ? 0 : 1;
            EXPECT_GE(rows, 2U) << room;
        }
    }
}

TEST(Lines, HoldANumberAndItsUnitTogether) {
    for (double width = 12; width < 60; width += 0.5)
        for (const QString& line :
             lines_of(QStringLiteral("fit 2.5 mm² for W31, it may carry 29.6 A lastingly"), width, body_mm)) {
            EXPECT_FALSE(line.startsWith(QStringLiteral("mm²")) || line.startsWith(QStringLiteral("A ")))
                << line.toStdString();
        }
}

TEST(Lines, ALongWordIsBrokenAndNothingIsLost) {
    const QString word(200, QLatin1Char('x'));
    const QStringList lines = lines_of(word, 20, body_mm);
    EXPECT_GT(lines.size(), 5);
    EXPECT_EQ(lines.join(QString()), word);
    EXPECT_EQ(lines_of(word, 20, body_mm, fl::ui::look::Cut::regular, 2).size(), 2);
    EXPECT_TRUE(lines_of(word, 20, body_mm, fl::ui::look::Cut::regular, 2).last().endsWith(QChar(0x2026)));
    EXPECT_TRUE(lines_of(QString(), 20, body_mm).isEmpty());
}

std::vector<Page> five_pages() {
    std::vector<Page> pages;
    for (const char* part : {"cover", "drawing", "drawing", "cables", "findings"})
        pages.push_back({QSizeF(210, 297), part, {}, {}, {}});
    return pages;
}

TEST(ChosenPages, AreNumbersRangesAndParts) {
    using Numbers = std::vector<std::size_t>;
    const auto some = [](std::string_view list) { return chosen(five_pages(), list).value_or(Numbers{99}); };
    EXPECT_EQ(some(""), (Numbers{0, 1, 2, 3, 4}));
    EXPECT_EQ(some("2"), (Numbers{1}));
    EXPECT_EQ(some("5,1-2"), (Numbers{0, 1, 4}));
    EXPECT_EQ(some("drawing, 3"), (Numbers{1, 2}));
    for (const char* wrong :
         {"0", "6", "2-1", "1-", "-1", "1,", ",", "draw", "1.5", "99999999999999999999", "3-9"}) {
        const auto none = chosen(five_pages(), wrong);
        ASSERT_FALSE(none.has_value()) << wrong;
        EXPECT_EQ(none.error().code, "export.pages");
        EXPECT_NE(none.error().right.find("1 to 5"), std::string::npos);
        EXPECT_NE(none.error().right.find("cover, drawing, cables, findings"), std::string::npos);
    }
}

} // namespace
