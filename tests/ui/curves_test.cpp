#include "tests/ui/support/hand.h"
#include "ui/drawing/chart.h"
#include "ui/drawing/clip.h"
#include "ui/panel/curve_canvas.h"
#include "ui/panel/curves.h"
#include "ui/window/main_window.h"

#include <gtest/gtest.h>

#include <QAbstractButton>
#include <QApplication>
#include <QComboBox>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QMouseEvent>
#include <QPushButton>
#include <QTemporaryDir>
#include <QTest>
#include <QTextDocument>
#include <QTimer>
#include <cmath>

namespace {

using namespace fl;

class FuseCurves : public testing::Test {
protected:
    void SetUp() override {
        window.show();
        ASSERT_TRUE(window.open(QStringLiteral(FL_SOURCE_DIR "/resources/demo/bicycle_workshop.fuseloom")));
        settle();
        curves = window.findChild<ui::Curves*>();
        canvas = window.findChild<ui::CurveCanvas*>();
        ASSERT_TRUE(curves && canvas);
    }
    void settle() {
        ASSERT_TRUE(QTest::qWaitFor([&] { return !window.session().stale(); }, 10000));
    }
    void choose(const char* designation) {
        const plan::Component* part = plan::find(window.session().installation(), designation);
        hand.click(hand.middle(part->id));
        ASSERT_TRUE(window.focus().selected(plan::Subject::of(part->id)));
    }
    void open() {
        QTest::keyClick(&window, Qt::Key_F12);
        QTest::qWait(20); // the columns take their room
        ASSERT_TRUE(curves->isVisible());
    }
    std::string read(const char* name) {
        QTextDocument text;
        text.setHtml(curves->findChild<QLabel*>(QString::fromLatin1(name))->text());
        return text.toPlainText().simplified().toStdString();
    }
    void point_at(const QPoint& to) { // no button held
        QMouseEvent event(QEvent::MouseMove, to, canvas->mapToGlobal(to), Qt::NoButton, Qt::NoButton,
                          Qt::NoModifier);
        QApplication::sendEvent(canvas, &event);
    }
    QPoint pixel(double share) { return {static_cast<int>(canvas->width() * share), canvas->height() / 2}; }

    ui::MainWindow window;
    test::Hand hand{window};
    ui::Curves* curves = nullptr;
    ui::CurveCanvas* canvas = nullptr;
};

TEST_F(FuseCurves, OpenAndCloseByKeysAndSayWhatToChoose) {
    EXPECT_FALSE(curves->isVisible());
    open();
    EXPECT_TRUE(curves->chart().empty()) << "nothing is chosen";
    EXPECT_TRUE(canvas->accessibleDescription().startsWith(QStringLiteral("Choose a fuse")));
    QTest::keyClick(canvas, Qt::Key_Right);
    choose("F4");
    EXPECT_FALSE(curves->chart().empty());
    EXPECT_EQ(curves->chart().title, "G2 Service battery to T2 Inverter");
    EXPECT_FALSE(canvas->accessibleName().isEmpty());
    EXPECT_FALSE(curves->accessibleName().isEmpty());
    QTest::keyClick(&window, Qt::Key_F12);
    EXPECT_FALSE(curves->isVisible());
    open();
    EXPECT_TRUE(canvas->hasFocus()) << "ready for the keys";
    QTest::keyClick(canvas, Qt::Key_Escape);
    EXPECT_FALSE(curves->isVisible());
    EXPECT_TRUE(hand.sheet().hasFocus());
}

TEST_F(FuseCurves, ReadByTheKeyboard) {
    choose("F4");
    open();
    // It begins at the least fault; what stands there is the table's own (tests/core/listing/chart_test).
    EXPECT_NE(read("reading").find("least fault, far end of W15"), std::string::npos) << read("reading");
    EXPECT_NE(read("readings").find("F3 175 A"), std::string::npos);
    EXPECT_NE(read("readings").find("F4 150 A"), std::string::npos);
    const Current before = canvas->reading();
    QTest::keyClick(canvas, Qt::Key_Right);
    EXPECT_NEAR(canvas->reading() / before, std::pow(10, 1.0 / 50), 1e-9) << "a fiftieth of a decade";
    QTest::keyClick(canvas, Qt::Key_Left, Qt::ShiftModifier);
    EXPECT_NEAR(canvas->reading() / before, std::pow(10, -4.0 / 50), 1e-9);
    QTest::keyClick(canvas, Qt::Key_PageDown);
    EXPECT_EQ(canvas->reading(), before);
    QTest::keyClick(canvas, Qt::Key_PageDown);
    EXPECT_NE(read("reading").find("largest fault right behind F4"), std::string::npos) << read("reading");
    QTest::keyClick(canvas, Qt::Key_PageUp);
    EXPECT_EQ(canvas->reading(), before);
    QTest::keyClick(canvas, Qt::Key_Home);
    EXPECT_EQ(canvas->reading(), curves->chart().from);
    EXPECT_NE(read("readings").find("lastingly"), std::string::npos);
    EXPECT_NE(canvas->accessibleDescription().toStdString().find("F4 150 A: need not open"),
              std::string::npos);
    QTest::keyClick(canvas, Qt::Key_End);
    EXPECT_EQ(canvas->reading(), curves->chart().to);
    QTest::keyClick(canvas, Qt::Key_Right);
    EXPECT_EQ(canvas->reading(), curves->chart().to) << "not beyond what is drawn";
}

TEST_F(FuseCurves, ReadUnderThePointer) {
    choose("F4");
    open();
    point_at(pixel(0.4));
    const Current left = canvas->reading();
    const std::string said = read("readings");
    point_at(pixel(0.6));
    EXPECT_GT(canvas->reading(), left);
    EXPECT_NE(read("readings"), said);
    point_at(QPoint(1, canvas->height() / 2));
    EXPECT_EQ(canvas->reading(), curves->chart().from);
}

TEST_F(FuseCurves, FollowWhatIsChosenAndTheSource) {
    open();
    choose("E1");
    EXPECT_EQ(curves->chart().title, "G2 Service battery to E1 Fridge");
    ASSERT_EQ(curves->chart().devices.size(), 3U);
    auto* sources = curves->findChild<QComboBox*>();
    ASSERT_TRUE(sources->isVisible());
    EXPECT_EQ(sources->count(), 2) << "battery and charger";
    sources->setFocus();
    QTest::keyClick(sources, Qt::Key_Down);
    EXPECT_EQ(curves->chart().title, "T1 DC-DC charger to E1 Fridge");
    EXPECT_EQ(curves->chart().devices.front().name, "F2");
    choose("F1");
    EXPECT_EQ(curves->chart().title, "G1 Starter battery to T1 DC-DC charger");
    EXPECT_EQ(sources->currentText(), QStringLiteral("from G1 Starter battery"));
    choose("X3");
    EXPECT_TRUE(curves->chart().empty()) << "earth: no source reaches it";
}

// With the keys on the diagram nothing else may take them, and with them the choice, when it empties.
TEST_F(FuseCurves, KeepTheKeysWhenNothingIsChosen) {
    choose("F4");
    open();
    ASSERT_TRUE(canvas->hasFocus());
    window.focus().select({});
    EXPECT_TRUE(canvas->hasFocus());
    EXPECT_TRUE(window.focus().selection().empty());
    EXPECT_TRUE(curves->chart().empty());
}

TEST_F(FuseCurves, FollowAnEdit) {
    choose("F4");
    open();
    const auto rating = [&] { return curves->chart().devices.back().rating->si(); };
    EXPECT_EQ(rating(), 150);
    QLineEdit* field = nullptr;
    for (auto* one : window.findChildren<QLineEdit*>())
        if (one->accessibleName().contains(QStringLiteral("Rating")) && one->isVisible()) field = one;
    ASSERT_TRUE(field);
    field->setFocus();
    QTest::keyClick(field, Qt::Key_Up);
    EXPECT_EQ(read("chain"), "(G2 Service battery to T2 Inverter)") << "older than the drawing";
    settle();
    QTest::qWait(1);
    EXPECT_EQ(read("chain"), "G2 Service battery to T2 Inverter");
    EXPECT_EQ(rating(), 175) << "the next of the type";
    EXPECT_NE(read("readings").find("F4 175 A"), std::string::npos) << read("readings");
    QTest::keyClick(&window, Qt::Key_Z, Qt::ControlModifier);
    settle();
    QTest::qWait(1);
    EXPECT_EQ(rating(), 150);
}

TEST_F(FuseCurves, GoOnPaper) {
    const QTemporaryDir folder;
    const QString path = folder.filePath(QStringLiteral("inverter.svg"));
    choose("F4");
    open();
    QTimer answers; // the dialog runs a loop of its own
    answers.setInterval(100);
    QObject::connect(&answers, &QTimer::timeout, &window, [&] {
        QWidget* dialog = QApplication::activeModalWidget();
        auto* name = dialog ? dialog->findChild<QLineEdit*>(QStringLiteral("fileNameEdit")) : nullptr;
        if (!name || !name->isVisible()) return;
        if (name->text() != path) {
            name->selectAll();
            QTest::keyClicks(name, path);
            return;
        }
        for (QAbstractButton* button : dialog->findChildren<QAbstractButton*>())
            if (button->text().contains(QStringLiteral("Save")) && button->isEnabled())
                return QTest::mouseClick(button, Qt::LeftButton);
    });
    answers.start();
    QTimer::singleShot(8000, &window, [] { // fails rather than waits for ever
        while (QWidget* open = QApplication::activeModalWidget())
            if (!open->close()) break;
    });
    for (auto* button : curves->findChildren<QPushButton*>())
        if (button->isVisible()) QTest::keyClick(button, Qt::Key_Space);
    QFile written(path);
    ASSERT_TRUE(written.open(QIODevice::ReadOnly));
    const QByteArray svg = written.readAll();
    EXPECT_TRUE(svg.contains("<svg"));
    EXPECT_TRUE(svg.contains("F4 150 A")) << "text stays text";
    EXPECT_FALSE(svg.contains("<image"));
}

// Labels of diagrams, whatever the room: none on another, none on a line, none outside.
TEST_F(FuseCurves, NoLabelCoversAnything) {
    const assess::Assessment& a = *window.session().assessment();
    int labels = 0, charts = 0;
    std::vector<plan::Subject> all;
    for (const plan::Component& c : a.installation.components) all.push_back(plan::Subject::of(c.id));
    for (const plan::Conductor& c : a.installation.conductors) all.push_back(plan::Subject::of(c.id));
    for (const plan::Subject& one : all)
        for (const listing::Chain& chain : listing::chains(a, one))
            for (const QSizeF& size : {QSizeF(180, 147), QSizeF(95, 80), QSizeF(60, 45)}) {
                const listing::Chart chart = listing::chart(a, chain);
                const QRectF box(QPointF(0, 0), size);
                const ui::drawing::ChartDrawing drawn(chart, box, 1.9);
                ++charts;
                for (std::size_t i = 0; i < drawn.labels().size(); ++i) {
                    const auto& label = drawn.labels()[i];
                    ++labels;
                    for (const auto& line : drawn.lines())
                        for (std::size_t p = 1; label.strong && p < line.points.size(); ++p) {
                            EXPECT_FALSE(ui::drawing::clipped(line.points[p - 1], line.points[p], label.box))
                                << chart.title << ": a line runs through " << label.text.toStdString();
                        }
                    for (const auto& line : drawn.marks())
                        EXPECT_FALSE(ui::drawing::clipped(line.points[0], line.points[1], label.box))
                            << chart.title << ": a mark runs through " << label.text.toStdString();
                    EXPECT_TRUE(box.adjusted(-0.01, -0.01, 0.01, 0.01).contains(label.box))
                        << chart.title << ": " << label.text.toStdString();
                    for (std::size_t k = 0; k < i; ++k)
                        EXPECT_FALSE(label.box.intersects(drawn.labels()[k].box))
                            << chart.title << ": " << label.text.toStdString() << " on "
                            << drawn.labels()[k].text.toStdString();
                }
            }
    EXPECT_GT(charts, 100);
    EXPECT_GT(labels, 500);
}

} // namespace
