#include "ui/print/pack.h"

#include "ui/drawing/paint.h"

#include <memory>

namespace fl::ui::print {
namespace {

QString of(const std::string& text) {
    return QString::fromStdString(text);
}

void add_drawing(const assess::Assessment& assessment, std::vector<Page>& to) {
    const auto layout = std::make_shared<const arrange::Layout>(
        arrange::arrange(assessment.installation, assessment.network));
    const auto scene = std::make_shared<const drawing::Scene>(
        drawing::scene(assessment.installation, *layout, &assessment, listing::Overlay::current, {}, false));
    for (int page = 0; page < static_cast<int>(layout->pages.size()); ++page) {
        const arrange::Page& paper = layout->pages[static_cast<std::size_t>(page)];
        const QString name = layout->pages.size() == 1
                                 ? QStringLiteral("Circuit diagram")
                                 : QStringLiteral("Circuit diagram, sheet %1").arg(page + 1);
        to.push_back({QSizeF(paper.width_mm, paper.height_mm), "drawing", name,
                      [layout, scene, page](QPainter& painter) { paint_page(painter, *scene, page); }});
    }
}

} // namespace

Pack pack(const assess::Assessment& assessment) {
    const plan::Job& job = assessment.installation.job;
    Pack made;
    made.properties.title = job.title.empty() ? QStringLiteral("Circuit diagram") : of(job.title);
    made.properties.author = of(job.installer);
    made.properties.subject = QStringLiteral("Circuit diagram and lists");
    add_drawing(assessment, made.pages);
    return made;
}

} // namespace fl::ui::print
