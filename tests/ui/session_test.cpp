#include "ui/edit/session.h"

#include <gtest/gtest.h>

#include <QSignalSpy>
#include <QTest>

namespace {

using fl::ui::Session;

const QString demo = QStringLiteral(FL_SOURCE_DIR "/resources/demo/bicycle_workshop.fuseloom");

TEST(WindowSession, OpensLaysOutAndAssesses) {
    Session session;
    ASSERT_TRUE(session.open(demo).has_value());
    EXPECT_EQ(session.layout().symbols.empty(), false);
    EXPECT_TRUE(session.is_clean());
    EXPECT_TRUE(QTest::qWaitFor([&] { return !session.stale(); }, 10000));
    EXPECT_EQ(session.assessment()->installation, session.installation());
}

TEST(WindowSession, AFileThatCantBeReadLeavesTheDocument) {
    Session session;
    ASSERT_TRUE(session.open(demo).has_value());
    const auto before = session.installation();
    const auto refused = session.open(QStringLiteral(FL_SOURCE_DIR "/README.md"));
    ASSERT_FALSE(refused.has_value());
    EXPECT_FALSE(refused.error().empty());
    EXPECT_EQ(session.installation(), before);
    EXPECT_EQ(session.path(), demo);
}

} // namespace
