#include "tests/ui/support/keys.h"

#include <gtest/gtest.h>

namespace {

using fl::test::presses;
using fl::test::read_keys;

TEST(WindowKeys, CountsEveryPressAndModifier) {
    // f a n Enter = 4; Ctrl and L = 2; Shift and A = 2, Enter 1; the comment none.
    EXPECT_EQ(presses(read_keys(QStringLiteral("# a comment\nfan\n<Ctrl+L>\nA\n"))), 9);
}

TEST(WindowKeys, AnUnknownNameIsNoScript) {
    EXPECT_TRUE(read_keys(QStringLiteral("fan\n<Nonsense>\n")).empty());
}

} // namespace
