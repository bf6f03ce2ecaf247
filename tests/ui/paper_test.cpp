#include "tests/ui/support/keys.h"
#include "tests/ui/support/pdf.h"
#include "ui/edit/session.h"
#include "ui/print/export.h"
#include "ui/window/main_window.h"

#include <gtest/gtest.h>

#include <QDir>
#include <QFile>
#include <QImage>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QRegularExpression>
#include <QTemporaryDir>
#include <QTest>
#include <algorithm>
#include <cmath>
#include <map>
#include <set>

// Paper measured by programs that are not ours: poppler, qpdf, librsvg.

namespace {

using namespace fl;
using test::output_of;

std::shared_ptr<const assess::Assessment> assessed(const QString& job) {
    if (job == QStringLiteral("nothing")) return assess::assess(plan::Installation{});
    ui::MainWindow window;
    if (job == QStringLiteral("typed")) {
        window.show();
        QFile rows(QStringLiteral(FL_SOURCE_DIR "/tests/fixtures/enter/van_of_twelve.keys"));
        EXPECT_TRUE(rows.open(QIODevice::ReadOnly));
        test::type(window, test::read_keys(QString::fromUtf8(rows.readAll())));
    } else {
        EXPECT_TRUE(window.open(QStringLiteral(FL_SOURCE_DIR "/resources/demo/%1.fuseloom").arg(job)));
    }
    EXPECT_TRUE(QTest::qWaitFor([&] { return !window.session().stale(); }, 10000));
    return window.session().assessment_kept();
}

// One job on paper, made once for all tests.
struct Made {
    std::shared_ptr<const assess::Assessment> assessment;
    QTemporaryDir folder;
    QString pdf;
    std::vector<test::PdfPage> pages;

    explicit Made(const QString& job)
        : assessment(assessed(job))
        , pdf(folder.filePath(QStringLiteral("paper.pdf"))) {
        const auto saved = ui::print::save(*assessment, pdf.toStdString(), "");
        EXPECT_TRUE(saved.has_value()) << (saved ? "" : line(saved.error()));
        pages = test::pages_of(pdf);
    }
};

class Paper : public testing::TestWithParam<const char*> {
protected:
    const Made& made() {
        static std::map<std::string, std::unique_ptr<Made>> all;
        auto& one = all[GetParam()];
        if (!one) one = std::make_unique<Made>(QString::fromLatin1(GetParam()));
        return *one;
    }
    QString text() {
        return QString::fromUtf8(output_of(QStringLiteral("pdftotext"), {made().pdf, QStringLiteral("-")}));
    }
};

TEST_P(Paper, HasOneFontFamilyEmbeddedAndNoPicture) {
    const QStringList fonts = QString::fromUtf8(output_of(QStringLiteral("pdffonts"), {made().pdf}))
                                  .split(QLatin1Char('\n'), Qt::SkipEmptyParts);
    ASSERT_GT(fonts.size(), 2) << "two lines are its heading";
    for (const QString& font : fonts.mid(2)) {
        EXPECT_TRUE(font.contains(QRegularExpression(QStringLiteral("^([A-Z]{6}\\+)?Lato-"))))
            << font.toStdString();
        // name, type (two words), encoding, then emb, sub, uni
        EXPECT_TRUE(font.contains(QRegularExpression(QStringLiteral(" yes +(yes|no) +yes "))))
            << font.toStdString();
    }
    const QStringList pictures =
        QString::fromUtf8(output_of(QStringLiteral("pdfimages"), {QStringLiteral("-list"), made().pdf}))
            .split(QLatin1Char('\n'), Qt::SkipEmptyParts);
    EXPECT_EQ(pictures.size(), 2) << "only its heading";
}

TEST_P(Paper, IsWholeInTheEyesOfQpdf) {
    const QByteArray said = output_of(QStringLiteral("qpdf"), {QStringLiteral("--check"), made().pdf});
    EXPECT_FALSE(said.contains("WARNING")) << said.toStdString();
    EXPECT_TRUE(said.contains("No syntax or stream encoding errors")) << said.toStdString();
}

TEST_P(Paper, IsA4OrA3) {
    bool drawing = false, list = false;
    for (const test::PdfPage& page : made().pages) {
        // ISO 216 in whole points: 210 x 297 mm, 420 x 297 mm.
        const bool a3 = page.width_pt == 1191 && page.height_pt == 842;
        EXPECT_TRUE(a3 || (page.width_pt == 595 && page.height_pt == 842))
            << page.width_pt << " x " << page.height_pt;
        drawing = drawing || a3;
        list = list || !a3;
    }
    EXPECT_TRUE(drawing && list);
}

TEST_P(Paper, HasNoTextTooSmallOnceOnA4) {
    constexpr double a3_to_a4 = 0.707, least_mm = 1.8; // ISO 3098: the smallest height of capitals
    std::size_t seen = 0;
    for (const test::PdfPage& page : made().pages)
        for (const test::Word& word : page.words) {
            ++seen;
            EXPECT_GE(word.capital_mm() * (page.is_drawing() ? a3_to_a4 : 1), least_mm)
                << word.text.toStdString();
        }
    EXPECT_GT(seen, 100U);
}

TEST_P(Paper, HasNoWordOnAnotherAndNoneOutsideTheFrame) {
    for (std::size_t p = 0; p < made().pages.size(); ++p) {
        const test::PdfPage& page = made().pages[p];
        // ISO 5457: 20 mm on the left, 10 mm elsewhere; the strip of zones of a drawing is 5 mm outside of
        // it.
        const QRectF frame = page.is_drawing() ? QRectF(QPointF(15, 5), QPointF(415, 292))
                                               : QRectF(QPointF(20, 10), QPointF(200, 287));
        for (std::size_t i = 0; i < page.words.size(); ++i) {
            const test::Word& word = page.words[i];
            EXPECT_TRUE(frame.adjusted(-0.2, 0, 0.2, 0).contains(word.ink()))
                << "page " << p + 1 << ": " << word.text.toStdString() << " at " << word.box.left() << " "
                << word.box.top();
            for (std::size_t k = 0; k < i; ++k) {
                const QRectF both = word.ink() & page.words[k].ink();
                // Words of one line may touch where the font leans.
                EXPECT_FALSE(both.width() > 0.3 && both.height() > 0.05)
                    << "page " << p + 1 << ": " << word.text.toStdString() << " on "
                    << page.words[k].text.toStdString() << " at " << word.box.left() << " " << word.box.top();
            }
        }
    }
}

TEST_P(Paper, NamesEveryCableAndDevice) {
    std::set<QString> words;
    static const QRegularExpression ends(QStringLiteral("[\\s,.;:()]+"));
    for (const QString& word : text().split(ends)) words.insert(word);
    for (const plan::Conductor& w : made().assessment->installation.conductors)
        EXPECT_TRUE(words.contains(QString::fromStdString(w.designation))) << w.designation;
    for (const plan::Component& c : made().assessment->installation.components)
        EXPECT_TRUE(words.contains(QString::fromStdString(c.designation))) << c.designation;
}

TEST_P(Paper, HasBookmarksThatLeadToTheirPages) {
    const QJsonObject json =
        QJsonDocument::fromJson(
            output_of(QStringLiteral("qpdf"),
                      {QStringLiteral("--json"), QStringLiteral("--json-key=outlines"), made().pdf}))
            .object();
    const QJsonArray marks = json[QStringLiteral("outlines")].toArray();
    ASSERT_GE(marks.size(), 6);
    for (const auto& mark : marks) {
        const QString title = mark[QStringLiteral("title")].toString();
        const QString page = QString::number(mark[QStringLiteral("destpageposfrom1")].toInt());
        const QString there = QString::fromUtf8(
            output_of(QStringLiteral("pdftotext"), {QStringLiteral("-f"), page, QStringLiteral("-l"), page,
                                                    made().pdf, QStringLiteral("-")}));
        EXPECT_TRUE(there.contains(title.section(QLatin1Char(','), 0, 0)))
            << title.toStdString() << " on " << page.toStdString();
    }
}

TEST_P(Paper, CountsItsPages) {
    for (std::size_t p = 0; p < made().pages.size(); ++p) {
        QStringList words;
        for (const test::Word& word : made().pages[p].words) words << word.text;
        EXPECT_TRUE(words.join(QLatin1Char(' '))
                        .contains(QStringLiteral("%1 of %2").arg(p + 1).arg(made().pages.size())))
            << p + 1;
    }
}

// A few diagrams that say something, none of nothing; each has its own words as text.
TEST_P(Paper, HasAFewDiagramsOfOperatingTimes) {
    std::size_t diagrams = 0;
    for (const test::PdfPage& page : made().pages) {
        if (page.words.size() < 2 || page.words[0].text != QStringLiteral("Operating") ||
            page.words[1].text != QStringLiteral("times"))
            continue;
        ++diagrams;
        std::set<QString> words;
        for (const test::Word& word : page.words) words.insert(word.text);
        for (const char* word : {"ms", "A", "time", "current", "fault"})
            EXPECT_TRUE(words.contains(QString::fromLatin1(word))) << word;
    }
    const bool nothing = made().assessment->installation.components.empty();
    EXPECT_GE(diagrams, nothing ? 0U : 1U);
    EXPECT_LE(diagrams, nothing ? 0U : 4U);
}

TEST_P(Paper, SaysTheSameAsSvgAndAsPng) {
    const auto save = [&](const char* name) {
        QString path = made().folder.filePath(QString::fromLatin1(name));
        EXPECT_TRUE(ui::print::save(*made().assessment, path.toStdString(), "").has_value());
        return path;
    };
    const QImage png = QImage(save("sheet.png")).convertToFormat(QImage::Format_Grayscale8);
    const QString drawn = made().folder.filePath(QStringLiteral("drawn.png"));
    output_of(QStringLiteral("rsvg-convert"),
              {QStringLiteral("-w"), QString::number(png.width()), QStringLiteral("-h"),
               QString::number(png.height()), QStringLiteral("--background-color=white"),
               QStringLiteral("-o"), drawn, save("sheet.svg")});
    const QImage svg = QImage(drawn).convertToFormat(QImage::Format_Grayscale8);
    ASSERT_EQ(svg.size(), png.size());
    // Two programs smooth edges and place glyphs a little differently: where one is dark the other must be so
    // within two dots (a third of a millimetre).
    const auto missing = [](const QImage& a, const QImage& b) {
        constexpr int dark = 110, darkish = 190, near = 2;
        int seen = 0, lost = 0;
        for (int y = near; y < a.height() - near; ++y)
            for (int x = near; x < a.width() - near; ++x) {
                if (a.constScanLine(y)[x] > dark) continue;
                ++seen;
                bool found = false;
                for (int dy = -near; dy <= near && !found; ++dy)
                    for (int dx = -near; dx <= near && !found; ++dx)
                        found = b.constScanLine(y + dy)[x + dx] < darkish;
                if (!found) ++lost;
            }
        EXPECT_GT(seen, 10000); // a frame alone has more
        return static_cast<double>(lost) / std::max(1, seen);
    };
    EXPECT_LT(missing(png, svg), 0.002);
    EXPECT_LT(missing(svg, png), 0.002);
}

INSTANTIATE_TEST_SUITE_P(Jobs, Paper,
                         testing::Values("bicycle_workshop", "bicycle_workshop_mistakes", "nothing", "typed"),
                         [](const auto& job) { return std::string(job.param); });

// The four marks of grades stand with their words at the head of the findings; a print in grey must tell them
// apart by their shape alone.
TEST(PaperInGrey, TellsTheGradesApart) {
    const Made made(QStringLiteral("bicycle_workshop_mistakes"));
    const char* const firsts[] = {"can", "will", "against", "good"};
    for (std::size_t p = 0; p < made.pages.size(); ++p) {
        const auto& words = made.pages[p].words;
        if (words.empty() || words.front().text != QStringLiteral("Findings")) continue;
        const QString gray = made.folder.filePath(QStringLiteral("gray"));
        constexpr double dpi = 254; // ten dots to the millimetre
        const QString number = QString::number(p + 1);
        output_of(QStringLiteral("pdftoppm"),
                  {QStringLiteral("-gray"), QStringLiteral("-r"), QString::number(dpi), QStringLiteral("-f"),
                   number, QStringLiteral("-l"), number, QStringLiteral("-singlefile"), made.pdf, gray});
        const QImage page = QImage(gray + QStringLiteral(".pgm")).convertToFormat(QImage::Format_Grayscale8);
        ASSERT_FALSE(page.isNull());
        std::vector<QImage> marks;
        for (const char* first : firsts)
            for (const test::Word& word : words) {
                if (word.text != QLatin1String(first)) continue;
                // A mark's middle stands 4 mm before its word.
                const QPointF middle(word.box.left() - 4, word.box.center().y());
                marks.push_back(page.copy(QRect((middle * 10).toPoint() - QPoint(32, 32), QSize(64, 64))));
                break;
            }
        ASSERT_EQ(marks.size(), 4U);
        for (std::size_t i = 0; i < marks.size(); ++i)
            for (std::size_t k = 0; k < i; ++k) {
                int differ = 0;
                for (int y = 0; y < 64; ++y)
                    for (int x = 0; x < 64; ++x)
                        differ += std::abs(marks[i].constScanLine(y)[x] - marks[k].constScanLine(y)[x]) > 128
                                      ? 1
                                      : 0;
                EXPECT_GT(differ, 64 * 64 / 25) << firsts[i] << " and " << firsts[k];
            }
        return;
    }
    FAIL() << "no page of findings";
}

} // namespace
