#include "ui/print/picture.h"

#include "ui/look/look.h"

#include <QBuffer>
#include <QImage>
#include <QPainter>
#include <QSvgGenerator>

namespace fl::ui::print {
namespace {

constexpr double mm_per_inch = 25.4;

} // namespace

Result<QByteArray> svg(const Page& page, const Properties& properties) {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    {
        constexpr int dots_per_mm = 10; // only says how large the page is; lengths stand in millimetres
        QSvgGenerator generator;
        generator.setOutputDevice(&buffer);
        generator.setTitle(properties.title);
        generator.setDescription(properties.subject);
        generator.setResolution(qRound(dots_per_mm * mm_per_inch));
        generator.setSize((page.size_mm * dots_per_mm).toSize());
        generator.setViewBox(QRectF(QPointF(), page.size_mm));
        QPainter painter;
        if (!painter.begin(&generator))
            return fail("export.svg", "", "the page could not be made", "enough memory for it");
        page.paint(painter, page.number);
    }
    return bytes;
}

Result<QByteArray> png(const Page& page, double dots_per_inch) {
    const double scale = dots_per_inch / mm_per_inch;
    QImage image(qRound(page.size_mm.width() * scale), qRound(page.size_mm.height() * scale),
                 QImage::Format_RGB32);
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    if (!image.isNull()) {
        image.fill(QColor(look::paper));
        QPainter painter(&image);
        painter.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
        painter.scale(scale, scale);
        page.paint(painter, page.number);
    }
    if (image.isNull() || !image.save(&buffer, "PNG"))
        return fail("export.png", "", "the picture could not be made", "enough memory for it");
    return bytes;
}

} // namespace fl::ui::print
