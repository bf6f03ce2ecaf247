#include "ui/print/pdf.h"

#include "ui/print/outline.h"

#include <QBuffer>
#include <QPageLayout>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>

namespace fl::ui::print {
namespace {

// The page's size by its name where it has one, so that its box has the points everybody expects.
QPageLayout layout_of(const QSizeF& mm) {
    const bool wide = mm.width() > mm.height();
    const QPageSize size(wide ? mm.transposed() : mm, QPageSize::Millimeter, {}, QPageSize::FuzzyMatch);
    return {size, wide ? QPageLayout::Landscape : QPageLayout::Portrait, QMarginsF()};
}

} // namespace

Result<QByteArray> pdf(const std::vector<Page>& pages, const Properties& properties) {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    std::vector<Bookmark> bookmarks;
    {
        QPdfWriter writer(&buffer);
        writer.setTitle(properties.title);
        writer.setCreator(QStringLiteral("Fuseloom"));
        QPainter painter;
        for (std::size_t i = 0; i < pages.size(); ++i) {
            writer.setPageLayout(layout_of(pages[i].size_mm));
            const bool begun = i == 0 ? painter.begin(&writer) : writer.newPage();
            if (!begun)
                return fail("export.pdf", "", "the pages could not be made", "enough memory for them");
            constexpr double mm_per_inch = 25.4;
            painter.save();
            painter.scale(writer.resolution() / mm_per_inch, writer.resolution() / mm_per_inch);
            pages[i].paint(painter, pages[i].number);
            painter.restore();
            if (!pages[i].bookmark.isEmpty())
                bookmarks.push_back({pages[i].bookmark.toStdString(), static_cast<int>(i)});
        }
    }
    return with_outline(bytes, properties, bookmarks);
}

} // namespace fl::ui::print
