#include "ui/drawing/picture.h"

#include "core/file/disk.h"
#include "ui/look/look.h"

#include <QBuffer>
#include <QImage>
#include <QPainter>

namespace fl::ui::drawing {

QImage picture(const Scene& scene, int page, double dots_per_inch) {
    constexpr double mm_per_inch = 25.4;
    const double scale = dots_per_inch / mm_per_inch;
    const arrange::Page& paper = scene.layout.pages[static_cast<std::size_t>(page)];
    QImage image(qRound(paper.width_mm * scale), qRound(paper.height_mm * scale), QImage::Format_RGB32);
    image.fill(QColor(look::paper));
    QPainter painter(&image);
    painter.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
    painter.scale(scale, scale);
    paint_page(painter, scene, page);
    return image;
}

Result<void> save_png(const Scene& scene, int page, double dots_per_inch, const std::string& path) {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    if (!buffer.open(QIODevice::WriteOnly) || !picture(scene, page, dots_per_inch).save(&buffer, "PNG"))
        return fail("file.write", path, "the picture could not be made", "a name that ends in .png");
    return file::write_whole(path,
                             std::string_view(bytes.constData(), static_cast<std::size_t>(bytes.size())));
}

} // namespace fl::ui::drawing
