#include "tests/ui/support/keys.h"
#include "tests/ui/support/pdf.h"
#include "ui/edit/session.h"
#include "ui/print/export.h"
#include "ui/window/main_window.h"

#include <gtest/gtest.h>

#include <QDir>
#include <QFile>
#include <QImage>
#include <QTemporaryDir>
#include <QTest>

namespace {

using namespace fl;

// Pictures of the paper, as poppler shows it; made anew by docs/pictures/make, else thrown away.
class PaperPictures : public testing::Test {
protected:
    void SetUp() override { window.show(); }
    void open(const char* name) {
        ASSERT_TRUE(window.open(QStringLiteral(FL_SOURCE_DIR "/resources/demo/") + QString::fromUtf8(name)));
        settle();
    }
    void settle() {
        ASSERT_TRUE(QTest::qWaitFor([&] { return !window.session().stale(); }, 10000));
    }
    // The first page of a part.
    void keep(const char* part, const char* name) {
        const QString pdf = thrown_away.filePath(QStringLiteral("paper.pdf"));
        const auto saved = ui::print::save(*window.session().assessment(), pdf.toStdString(), part);
        ASSERT_TRUE(saved.has_value()) << line(saved.error());
        const QString wanted = qEnvironmentVariable("FL_PICTURES");
        const QString path =
            QDir(wanted.isEmpty() ? thrown_away.path() : wanted).filePath(QString::fromUtf8(name));
        test::output_of(QStringLiteral("pdftoppm"),
                        {QStringLiteral("-png"), QStringLiteral("-r"), QStringLiteral("96"),
                         QStringLiteral("-singlefile"), pdf, path});
        EXPECT_GT(QImage(path + QStringLiteral(".png")).width(), 700); // A4 at 96 dots an inch has 794
    }
    QTemporaryDir thrown_away;
    ui::MainWindow window;
};

TEST_F(PaperPictures, TheDemo) {
    open("bicycle_workshop.fuseloom");
    keep("cover", "paper_cover");
    keep("drawing", "paper_sheet");
    keep("cables", "paper_cables");
    keep("devices", "paper_devices");
    keep("curves", "paper_curves");
    keep("conditions", "paper_conditions");
    keep("site", "paper_site");
}

TEST_F(PaperPictures, ABeginnersFindings) {
    open("bicycle_workshop_mistakes.fuseloom");
    keep("drawing", "paper_sheet_findings");
    keep("findings", "paper_findings");
    keep("calculations", "paper_calculations");
}

TEST_F(PaperPictures, TheTypedVan) {
    QFile rows(QStringLiteral(FL_SOURCE_DIR "/tests/fixtures/enter/van_of_twelve.keys"));
    ASSERT_TRUE(rows.open(QIODevice::ReadOnly));
    test::type(window, test::read_keys(QString::fromUtf8(rows.readAll())));
    settle();
    keep("drawing", "paper_sheet_typed");
    keep("findings", "paper_questions");
}

} // namespace
