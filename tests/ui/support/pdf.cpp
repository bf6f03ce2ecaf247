#include "tests/ui/support/pdf.h"

#include <gtest/gtest.h>

#include <QProcess>
#include <QRegularExpression>
#include <QXmlStreamReader>

namespace fl::test {

QByteArray output_of(const QString& program, const QStringList& arguments) {
    QProcess process;
    process.start(program, arguments);
    constexpr int patience_ms = 60000;
    EXPECT_TRUE(process.waitForFinished(patience_ms)) << program.toStdString();
    EXPECT_EQ(process.exitCode(), 0) << program.toStdString() << " "
                                     << process.readAllStandardError().toStdString();
    return process.readAllStandardOutput();
}

QRectF Word::ink() const {
    static const QRegularExpression stems(QStringLiteral("[bdfhijklt()/|²]")),
        tails(QStringLiteral("[gjpqyQ,;()/|_]"));
    const double em = box.height();
    return box.adjusted(0, (text.contains(stems) ? 0.055 : 0.08) * em, 0,
                        text.contains(tails) ? 0 : -0.18 * em);
}

std::vector<PdfPage> pages_of(const QString& pdf) {
    constexpr double mm_per_pt = 25.4 / 72;
    QXmlStreamReader xml(
        output_of(QStringLiteral("pdftotext"), {QStringLiteral("-bbox"), pdf, QStringLiteral("-")}));
    std::vector<PdfPage> pages;
    while (!xml.atEnd()) {
        if (xml.readNext() != QXmlStreamReader::StartElement) continue;
        const auto number = [at = xml.attributes()](const char* name) {
            return at.value(QLatin1String(name)).toDouble();
        };
        if (xml.name() == QStringLiteral("page")) pages.push_back({number("width"), number("height"), {}});
        if (xml.name() != QStringLiteral("word") || pages.empty()) continue;
        const QRectF box(QPointF(number("xMin"), number("yMin")) * mm_per_pt,
                         QPointF(number("xMax"), number("yMax")) * mm_per_pt);
        pages.back().words.push_back({xml.readElementText(), box});
    }
    EXPECT_FALSE(xml.hasError()) << xml.errorString().toStdString();
    return pages;
}

} // namespace fl::test
