#include "core/wording/wording.h"
#include "tests/ui/support/hand.h"

#include <gtest/gtest.h>

#include <QApplication>
#include <QLabel>
#include <QLineEdit>
#include <QSignalSpy>
#include <QTableWidget>
#include <QTest>
#include <QTreeWidget>
#include <QUndoStack>
#include <QWheelEvent>
#include <map>

namespace {

using namespace fl;

// The demo in its window, all by keys and mouse: what is typed, and the numbers that follow.
class Numbers : public testing::Test {
protected:
    void SetUp() override {
        ASSERT_TRUE(window.open(QStringLiteral(FL_SOURCE_DIR "/resources/demo/bicycle_workshop.fuseloom")));
        ASSERT_TRUE(hand.wait_for_results());
        before = hand.installation();
        table = window.findChild<QTableWidget*>();
    }
    int row(const char* name) const {
        for (int at = 0; at < table->rowCount(); ++at)
            if (table->item(at, 1)->text() == QString::fromUtf8(name)) return at;
        return -1;
    }
    // A click on the cell, then what is typed over it.
    void type_over(int at, int column, const char* text) {
        QTest::mouseClick(table->viewport(), Qt::LeftButton, {},
                          table->visualItemRect(table->item(at, column)).center());
        QTest::keyClick(table, Qt::Key_F2);
        QWidget* editor = QApplication::focusWidget();
        ASSERT_TRUE(qobject_cast<QLineEdit*>(editor)) << "the cell is open";
        QTest::keyClick(editor, Qt::Key_A, Qt::ControlModifier);
        QTest::keyClicks(editor, QString::fromUtf8(text));
        QTest::keyClick(editor, Qt::Key_Return);
        QCoreApplication::processEvents(); // the table takes it when the key is done
    }
    double volts(int at) const {
        return table->item(at, 6)->text().section(QLatin1Char(' '), 0, 0).toDouble();
    }
    QLineEdit* field(const char* path) const { return window.findChild<QLineEdit*>(QString::fromUtf8(path)); }
    // W6 chosen on the sheet, its length typed over in the details, Enter.
    QLineEdit* type_length_of_w6(const char* text) {
        hand.click(hand.middle(plan::find_conductor(hand.installation(), "W6")->id));
        QLineEdit* length = field("length");
        length->setFocus();
        length->selectAll();
        QTest::keyClicks(length, QString::fromUtf8(text));
        QTest::keyClick(length, Qt::Key_Return);
        return length;
    }
    // Goes over the computed numbers until the pointer is on the link of a row, as a hand would, and clicks.
    bool click_number(const QString& name) {
        auto* label = window.findChild<QLabel*>(QStringLiteral("computed"));
        const QStringList rows =
            label->text().split(QStringLiteral("<tr>"), Qt::SkipEmptyParts).filter(QStringLiteral("<td>"));
        int wanted = -1;
        for (int i = 0; i < rows.size(); ++i)
            if (rows[i].contains(QStringLiteral("<td>") + name + QStringLiteral("&nbsp;"))) wanted = i;
        if (wanted < 0) return false;
        int found = -1;
        bool on = false;
        for (int y = 0; y < label->height(); y += 2) {
            int hit = -1;
            for (int x = 4; x < label->width() && hit < 0; x += 4) {
                QTest::mouseMove(label, {x, y});
                if (label->cursor().shape() == Qt::PointingHandCursor) hit = x;
            }
            if (hit >= 0 && !on) ++found;
            on = hit >= 0;
            if (found == wanted && on) {
                QTest::mouseClick(label, Qt::LeftButton, {}, {hit + 4, y + 2});
                return true;
            }
        }
        return false;
    }

    ui::MainWindow window;
    test::Hand hand{window};
    plan::Installation before;
    QTableWidget* table = nullptr;
};

TEST_F(Numbers, AStouterCableTypedOverLessensTheDropShown) {
    const int fan = row("Roof fan"); // 2.5 A, 3 m of 1.5 mm2 there and back
    ASSERT_GE(fan, 0);
    const double thin = volts(fan);
    const std::uint64_t revision = hand.session().revision();
    type_over(fan, 4, "4");
    EXPECT_EQ(hand.session().steps()->count(), 1) << hand.said();
    EXPECT_EQ(table->item(fan, 4)->text(), QStringLiteral("4 mm²"));
    EXPECT_GT(hand.session().revision(), revision);
    ASSERT_TRUE(hand.wait_for_results());
    EXPECT_EQ(hand.session().assessment()->revision, hand.session().revision());
    // By hand, IEC 60228 class 5: 6 m x (13.3 - 4.95) mOhm/m x 2.5 A = 0.125 V at 20 °C, 0.135 V at 40 °C.
    EXPECT_NEAR(thin - volts(fan), 0.13, 0.02);
    QTest::keyClick(&window, Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(hand.installation(), before);
    ASSERT_TRUE(hand.wait_for_results());
    EXPECT_EQ(volts(fan), thin);
}

TEST_F(Numbers, EveryCellOfACircuitIsTypedOver) {
    const int lights = row("Lights");
    ASSERT_GE(lights, 0);
    type_over(lights, 1, "Ceiling lights");
    type_over(lights, 2, "10 x 3 W");
    type_over(lights, 3, "4,5");
    type_over(lights, 5, "3 A");
    EXPECT_EQ(hand.session().steps()->count(), 4) << hand.said();
    EXPECT_EQ(table->item(lights, 1)->text(), QStringLiteral("Ceiling lights"));
    EXPECT_EQ(table->item(lights, 2)->text(), QStringLiteral("10 × 3 W"));
    EXPECT_EQ(table->item(lights, 3)->text(), QStringLiteral("4.5 m"));
    EXPECT_EQ(table->item(lights, 5)->text(), QStringLiteral("3 A"));
    const auto& e2 = *plan::find(hand.installation(), "E2");
    EXPECT_EQ(std::get<plan::Load>(e2.with).law, plan::LoadLaw::power);
    int of_that_length = 0; // there and back
    for (const plan::Conductor& w : hand.installation().conductors)
        of_that_length += w.length && *w.length == 4.5_m;
    EXPECT_EQ(of_that_length, 2);
    for (int i = 0; i < 4; ++i) QTest::keyClick(&window, Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(hand.installation(), before);
}

TEST_F(Numbers, ALoadThatIsOffIsNotSaidToBeWithoutSupply) {
    const int pump = row("Water pump"); // a short duty: off in the lasting conditions
    ASSERT_GE(pump, 0);
    EXPECT_GT(volts(pump), 0) << "the worst of all is while it runs";
    while (hand.focus().condition() != "lean cruise") hand.press_key(Qt::Key_F9);
    EXPECT_EQ(table->item(pump, 6)->text(), QStringLiteral("off"));
    EXPECT_GT(volts(row("Roof fan")), 0);
}

TEST_F(Numbers, WhatCantBeReadChangesNothingAndIsSaidOnce) {
    const struct {
        int column;
        const char* typed;
    } wrong[] = {{2, "many"},  {2, "5 m"},    {2, "x 3 A"}, {2, "-2 A"}, {3, "4 A"},
                 {3, "4 m 2"}, {3, "-1"},     {3, "1e9"},   {4, "4 mm"}, {4, "thick"},
                 {4, "-4"},    {4, "99 AWG"}, {5, "5 V"},   {5, "-5 A"}};
    const int lights = row("Lights");
    for (const auto& one : wrong) {
        const QString stood = table->item(lights, one.column)->text();
        type_over(lights, one.column, one.typed);
        EXPECT_EQ(hand.session().steps()->count(), 0) << one.typed;
        EXPECT_EQ(hand.installation(), before) << one.typed;
        EXPECT_EQ(table->item(lights, one.column)->text(), stood) << one.typed;
        const std::string said = hand.said();
        EXPECT_EQ(said.find("Chosen"), std::string::npos) << one.typed << ": " << said;
        EXPECT_NE(said.find(": "), std::string::npos) << one.typed << ": " << said;
        EXPECT_EQ(said.find('\n'), std::string::npos);
    }
}

TEST_F(Numbers, CurrentDropAndMayCarryOpenTheirWhyByAClick) {
    auto* tree = window.findChild<QTreeWidget*>();
    const auto w31 = plan::Subject::of(plan::find_conductor(hand.installation(), "W31")->id);
    hand.click(hand.middle(plan::ConductorId{w31.id}));
    ASSERT_EQ(hand.focus().selection(), std::vector{w31});
    const std::pair<const char*, assess::Quantity> all[] = {{"Current", assess::Quantity::current},
                                                            {"Voltage drop", assess::Quantity::drop},
                                                            {"May carry", assess::Quantity::may_carry},
                                                            {"Fault current", assess::Quantity::fault}};
    for (const auto& [name, quantity] : all) {
        ASSERT_TRUE(click_number(QString::fromUtf8(name))) << name;
        ASSERT_EQ(tree->topLevelItemCount(), 1);
        const auto why = assess::why(*hand.session().assessment(), {quantity, w31, {}});
        ASSERT_TRUE(why) << name;
        EXPECT_EQ(tree->topLevelItem(0)->text(0).toStdString(), why->what);
        EXPECT_GT(tree->topLevelItem(0)->childCount(), 0) << name;
    }
}

TEST_F(Numbers, AValueScrolledAtSixtyHertzKeepsShowingResults) {
    const auto w6 = plan::Subject::of(plan::find_conductor(hand.installation(), "W6")->id);
    hand.click(hand.middle(plan::ConductorId{w6.id}));
    QLineEdit* length = field("length");
    ASSERT_TRUE(length);
    QTest::mouseClick(length, Qt::LeftButton);
    int shown = 0;
    QObject::connect(&hand.session(), &ui::Session::assessed, &hand.session(), [&] { ++shown; });
    // As long as it takes for thirty results to be shown between two turns of the wheel; were each edit to
    // begin the work anew, none would ever come.
    int turns = 0;
    while (shown < 30 && turns < 3000) {
        const int by = turns++ % 120 < 60 ? 120 : -120;
        QWheelEvent wheel(length->rect().center(), length->mapToGlobal(length->rect().center()), {}, {0, by},
                          {}, {}, Qt::NoScrollPhase, false);
        QApplication::sendEvent(length, &wheel);
        QTest::qWait(16);
    }
    EXPECT_GE(shown, 30);
    EXPECT_EQ(hand.session().steps()->count(), 1) << "one turn of the wheel after the other is one step";
    hand.wait_for_results();
    EXPECT_EQ(hand.session().assessment()->installation, hand.installation());
    QTest::keyClick(length, Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(hand.installation(), before);
}

TEST_F(Numbers, UndoIsTheDocumentsWhereverTheCursorStands) {
    QLineEdit* length = type_length_of_w6("6 m");
    EXPECT_NE(hand.installation(), before);
    QTest::keyClick(length, Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(hand.installation(), before) << "from the field that was typed in";
    QTest::keyClick(length, Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
    EXPECT_NE(hand.installation(), before);
    QTest::keyClick(&window, Qt::Key_L, Qt::ControlModifier);
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(hand.installation(), before) << "from the empty entry line";
}

TEST_F(Numbers, WhatAFieldRefusesStaysToBeMended) {
    QLineEdit* length = type_length_of_w6("6 A");
    EXPECT_EQ(hand.installation(), before);
    EXPECT_EQ(length->text(), QStringLiteral("6 A"));
    QStringList said;
    for (QLabel* label : length->parentWidget()->findChildren<QLabel*>())
        if (!label->isHidden()) said << label->text();
    ASSERT_EQ(said.size(), 1);
    EXPECT_TRUE(said[0].contains(QStringLiteral("W6 length"))) << said[0].toStdString();
}

TEST_F(Numbers, EnterTakesAnAssumedValueAsItStands) {
    const auto& in = hand.installation();
    plan::Subject assumed;
    for (const plan::Conductor& w : in.conductors)
        if (w.size.from == plan::From::assumed) assumed = plan::Subject::of(w.id);
    if (assumed.id == 0) { // make one: a row of the entry line proposes its sizes
        QTest::keyClick(&window, Qt::Key_L, Qt::ControlModifier);
        QTest::keyClicks(QApplication::focusWidget(), QStringLiteral("horn 4a 2m"));
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
        for (const plan::Conductor& w : in.conductors)
            if (w.size.from == plan::From::assumed) assumed = plan::Subject::of(w.id);
    }
    ASSERT_NE(assumed.id, 0U);
    hand.click(hand.middle(plan::ConductorId{assumed.id}));
    const WireSize size = *in.conductors.find({assumed.id})->size;
    QLineEdit* edit = field("size");
    edit->setFocus();
    QTest::keyClick(edit, Qt::Key_Return);
    EXPECT_EQ(in.conductors.find({assumed.id})->size, plan::Entered<WireSize>(size));
}

TEST_F(Numbers, ResultsOfAJobThatWasLeftAreNotShown) {
    QObject::connect(&hand.session(), &ui::Session::assessed, &hand.session(),
                     [&] { EXPECT_EQ(hand.session().assessment()->installation, hand.installation()); });
    for (int i = 0; i < 4; ++i) { // each is opened while the one before is computed
        ASSERT_TRUE(
            window.open(QStringLiteral(FL_SOURCE_DIR "/resources/demo/bicycle_workshop_mistakes.fuseloom")));
        QTest::qWait(3);
        ASSERT_TRUE(window.open(QStringLiteral(FL_SOURCE_DIR "/resources/demo/bicycle_workshop.fuseloom")));
        EXPECT_EQ(hand.session().assessment(), nullptr);
        QTest::qWait(i);
    }
    EXPECT_TRUE(hand.wait_for_results());
}

} // namespace
