#include "ui/print/pack.h"

#include "core/catalogue/lie.h"
#include "core/listing/conditions.h"
#include "ui/drawing/beside.h"
#include "ui/look/text.h"
#include "ui/print/list_pages.h"
#include "ui/print/lists.h"

#include <memory>

namespace fl::ui::print {
namespace {

// Everything that the pages of a drawing are painted from.
struct Drawing {
    arrange::Layout layout;
    drawing::Scene scene;
    drawing::Beside beside;

    explicit Drawing(const assess::Assessment& a)
        : layout(arrange::arrange(a.installation, a.network))
        , scene(drawing::scene(a.installation, layout, &a, listing::Overlay::current, {}, false)) {
        for (const condition::Solved& one : a.conditions)
            scene.letters[one.condition.name] = listing::letter_of(a, one.condition.name);
        beside = drawing::beside(scene, a);
    }
    Drawing(const Drawing&) = delete;
    Drawing& operator=(const Drawing&) = delete;
};

std::shared_ptr<const Drawing> add_drawing(const assess::Assessment& a, std::vector<Page>& to) {
    const auto all = std::make_shared<const Drawing>(a);
    const auto& sheets = all->layout.pages;
    for (int page = 0; page < static_cast<int>(sheets.size()); ++page) {
        const arrange::Page& paper = sheets[static_cast<std::size_t>(page)];
        const QString name = sheets.size() == 1 ? QStringLiteral("Circuit diagram")
                                                : QStringLiteral("Circuit diagram, sheet %1").arg(page + 1);
        to.push_back({QSizeF(paper.width_mm, paper.height_mm),
                      "drawing",
                      name,
                      [all, page, &a](QPainter& painter, const QString& number) {
                          drawing::Scene scene = all->scene;
                          scene.page_of = number.toStdString();
                          paint_page(painter, scene, page);
                          paint_beside(painter, all->beside, a, page);
                      },
                      {}});
    }
    return all;
}

// What found no place on a full sheet.
Pieces key(const Drawing& drawing) {
    Pieces to;
    for (const drawing::Block& block : drawing.beside.left_over) {
        to.push_back({block.height_mm,
                      [block](QPainter& painter, double top) {
                          block.paint(painter, {left_mm, top});
                      },
                      false,
                      {}});
        add_space(to, 8);
    }
    return to;
}

Furniture furniture_of(const plan::Installation& in) {
    const plan::Job& job = in.job;
    QStringList edition;
    for (const std::string& one : {job.reference, job.date})
        if (!one.empty()) edition << of(one);
    if (!job.revision.empty()) edition << QStringLiteral("revision ") + of(job.revision);
    edition << QStringLiteral("checked after: ") + of(catalogue::rules_of(in).name)
            << QStringLiteral("no declaration of conformity");
    return {of(job.title), edition.join(QStringLiteral(" · "))};
}

Properties properties_of(const plan::Job& job) {
    return {job.title.empty() ? QStringLiteral("Circuit diagram") : of(job.title), of(job.installer),
            QStringLiteral("Circuit diagram and lists")};
}

void number(std::vector<Page>& pages) {
    for (std::size_t i = 0; i < pages.size(); ++i)
        pages[i].number = QStringLiteral("%1 of %2").arg(i + 1).arg(pages.size());
}

// Before all others; its contents count its own pages too, which are as many whatever the numbers say.
void add_cover(const assess::Assessment& a, const Furniture& furniture, std::vector<Page>& pages) {
    std::vector<Page> front;
    const auto made = [&](int before) {
        std::vector<Entry> contents;
        for (std::size_t i = 0; i < pages.size(); ++i)
            if (!pages[i].bookmark.isEmpty())
                contents.push_back({pages[i].bookmark, static_cast<int>(i) + 1 + before});
        return list_pages("cover", QStringLiteral("Job and result"), cover(a, contents), furniture);
    };
    front = made(static_cast<int>(made(0).size()));
    for (Page& page : pages) front.push_back(std::move(page));
    pages = std::move(front);
}

} // namespace

Pack pack(const assess::Assessment& a) {
    Pack made;
    made.properties = properties_of(a.installation.job);
    const Furniture furniture = furniture_of(a.installation);
    const auto drawn = add_drawing(a, made.pages);
    const auto add = [&](const char* part, const QString& title, Pieces pieces) {
        if (pieces.empty()) return;
        for (Page& page : list_pages(part, title, std::move(pieces), furniture))
            made.pages.push_back(std::move(page));
    };
    add("drawing", QStringLiteral("Key to the drawing"), key(*drawn));
    add("cables", QStringLiteral("Cable list"), cables(a));
    add("devices", QStringLiteral("Protective devices"), devices(a));
    add("curves", QStringLiteral("Operating times"), curves(a));
    add("conditions", QStringLiteral("Operating points"), conditions(a));
    add("findings", QStringLiteral("Findings and open questions"), findings(a));
    add("site", QStringLiteral("Checks on site"), site_checks(a));
    add("calculations", QStringLiteral("Calculations"), calculations(a));
    add_cover(a, furniture, made.pages);
    number(made.pages);
    return made;
}

Pack pack(const assess::Assessment& a, const listing::Chart& chart) {
    Pack made{properties_of(a.installation.job), list_pages("curves", QStringLiteral("Operating times"),
                                                            curves(chart), furniture_of(a.installation))};
    made.properties.subject = of(chart.title);
    number(made.pages);
    return made;
}

} // namespace fl::ui::print
