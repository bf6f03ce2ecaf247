#include "ui/print/export.h"

#include "core/file/disk.h"
#include "ui/print/choose.h"
#include "ui/print/pack.h"
#include "ui/print/pdf.h"
#include "ui/print/picture.h"

#include <QFileInfo>
#include <algorithm>

namespace fl::ui::print {
namespace {

constexpr double png_dots_per_inch = 150;

Result<std::size_t> only_page(const std::vector<Page>& pages, std::string_view list) {
    const auto some = chosen(pages, list.empty() ? "drawing" : list);
    if (!some) return tl::unexpected(some.error());
    if (list.empty() || some->size() == 1) return some->front();
    return fail("export.pages", "--pages", "a picture holds one page, not " + std::to_string(some->size()),
                "one number, or a name that ends in .pdf");
}

Result<QByteArray> bytes_of(const Pack& pack, const QString& kind, std::string_view list) {
    if (kind == QStringLiteral("pdf")) {
        const auto some = chosen(pack.pages, list);
        if (!some) return tl::unexpected(some.error());
        std::vector<Page> pages;
        for (const std::size_t i : *some) pages.push_back(pack.pages[i]);
        return pdf(pages, pack.properties);
    }
    if (kind != QStringLiteral("svg") && kind != QStringLiteral("png"))
        return fail("export.kind", "", "no export of this kind",
                    "a name that ends in .pdf, .svg, .png, .csv or .json");
    const auto page = only_page(pack.pages, list);
    if (!page) return tl::unexpected(page.error());
    if (kind == QStringLiteral("svg")) return svg(pack.pages[*page], pack.properties);
    return png(pack.pages[*page], png_dots_per_inch);
}

Result<void> save(const Pack& pack, const std::string& path, std::string_view pages) {
    const QString kind = QFileInfo(QString::fromStdString(path)).suffix().toLower();
    const auto bytes = bytes_of(pack, kind, pages);
    if (!bytes) return tl::unexpected(bytes.error());
    return file::write_whole(path, {bytes->constData(), static_cast<std::size_t>(bytes->size())});
}

} // namespace

Result<void> save(const assess::Assessment& assessment, const std::string& path, std::string_view pages) {
    return save(pack(assessment), path, pages);
}

Result<void> save(const assess::Assessment& assessment, const listing::Chart& chart,
                  const std::string& path) {
    const bool whole = QFileInfo(QString::fromStdString(path)).suffix().toLower() == QStringLiteral("pdf");
    return save(pack(assessment, chart), path, whole ? "" : "1");
}

} // namespace fl::ui::print
