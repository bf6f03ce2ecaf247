#include "ui/drawing/picture.h"

#include "ui/look/look.h"

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

} // namespace fl::ui::drawing
